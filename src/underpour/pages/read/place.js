// What there is at one place of a section at one moment, in words.

import { bodyAt } from './bodies.js';
import { temperatureAt } from './field.js';
import { wordsFor } from './words.js';

export function readAt(section, given, moment, x, y) {
  const body = bodyAt(section.bodies, x, y);
  const air = body ? null : bodyAt(section.airs, x, y);
  const degrees = body ? temperatureAt(section.field, moment, x, y) : airTemperature(air, moment);
  return {
    degrees: degrees === null ? '' : wordsFor(given.degrees, degrees),
    material: body ? body.name : air ? given.airs[air.where] : 'outside of what was worked out',
  };
}

export function placeWords(given, x, y) {
  return `${wordsFor(given.heights, y)}, ${wordsFor(given.across, x)}`;
}

function airTemperature(air, moment) {
  if (!air || !air.temperature) return null;
  const [mean, cosine, sine] = air.temperature;
  return mean + moment.cosine * cosine - moment.sine * sine;
}
