// A small cross with temperature and depth beside it: by pointer, or by the arrow keys, and then the value is spoken.

import { say } from '../talk/words.js';
import { made } from './svg.js';

const STEP = 0.05; // m that an arrow key moves it; a fifth of it with Shift
const PAUSE = 300; // ms after the last key before it is spoken
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const ARM = 2.4; // mm

/** Words for every value, as the desk says them; asked for when the page opens. */
export const readings = {};

export class Cross {
  /** @param {import('./section.js').SectionSheet} section */
  constructor(section) {
    this.section = section;
    const { paper, picture } = section;
    this.spoken = document.getElementById('spoken');
    paper.tabIndex = 0;
    paper.setAttribute('role', 'application');
    paper.setAttribute('aria-label', say('sheet.page.drawing'));
    picture.addEventListener('pointermove', (event) => this.put(this.under(event)));
    picture.addEventListener('pointerdown', (event) => this.put(this.under(event)));
    picture.addEventListener('pointerleave', () => document.activeElement !== paper && this.put(null));
    paper.addEventListener('keydown', (event) => event.target === paper && this.moved(event));
    paper.addEventListener('blur', () => this.put(null));
  }

  again() {
    this.put(this.at);
  }

  put(at) {
    this.at = at;
    const { drawn, picture } = this.section;
    const layer = picture.querySelector('.cross-layer');
    if (!layer) return '';
    if (!at || !drawn || !readings.degrees) {
      layer.replaceChildren();
      return '';
    }
    const { frame, window: [x0, , , y1], wide } = drawn;
    const x = frame.left + (at[0] - x0) * frame.scale;
    const y = frame.top + (y1 - at[1]) * frame.scale;
    const { degrees, where, material } = this.read(...at);
    const d = `M${x - ARM} ${y}h${2 * ARM}M${x} ${y - ARM}v${2 * ARM}`;
    const before = x > wide * 0.6;
    const line = (words, down, kind) =>
      made('text', { x: x + (before ? -2.4 : 2.4), y: y + down, 'text-anchor': before ? 'end' : 'start', class: kind }, words);
    const down = y > frame.top + frame.height - 12 ? -8 : 5;
    layer.replaceChildren(
      made('path', { d, class: 'clear' }),
      made('path', { d, class: 'cross' }),
      line(degrees, down, 'degrees'),
      line(`${material}, ${where}`, down + 4.4, 'where'),
    );
    return [degrees, material, where].filter(Boolean).join(', ');
  }

  /** What there is at a place, in the desk's words. */
  read(x, y) {
    const { drawn, moment } = this.section;
    const body = drawn.bodies.find((each) => within(each.outline, x, y));
    const air = body || drawn.apart ? null : drawn.airs.find((each) => within(each.outline, x, y));
    const degrees = body ? temperature(drawn.field, moment, x, y) : air?.temperature ? swung(air.temperature, moment) : null;
    const height = lookUp(readings.heights, y);
    const across = lookUp(readings.across, x);
    return {
      degrees: degrees === null ? '' : drawn.apart ? apart(degrees) : lookUp(readings.degrees, degrees),
      material: body?.name ?? air?.name ?? '',
      where: `${say(y >= 0 ? 'sheet.page.above' : 'sheet.page.below', { height })}, ${say(x >= 0 ? 'sheet.page.inwards' : 'sheet.page.outwards', { across })}`,
    };
  }

  under(event) {
    const { drawn, picture } = this.section;
    if (!drawn) return null;
    const box = picture.getBoundingClientRect();
    const each = box.width / drawn.wide;
    const { frame, window: [x0, x1, y0, y1] } = drawn;
    const x = x0 + ((event.clientX - box.left) / each - frame.left) / frame.scale;
    const y = y1 - ((event.clientY - box.top) / each - frame.top) / frame.scale;
    return x >= x0 && x <= x1 && y >= y0 && y <= y1 ? [x, y] : null;
  }

  moved(event) {
    const { drawn } = this.section;
    const arrow = ARROWS[event.key];
    if (!drawn || (!arrow && event.key !== 'Home' && event.key !== 'Escape')) return;
    event.preventDefault();
    if (event.key === 'Escape') {
      this.put(null);
      return;
    }
    const [x0, x1, y0, y1] = drawn.window;
    const step = event.shiftKey ? STEP / 5 : STEP;
    const to = arrow && this.at ? [this.at[0] + arrow[0] * step, this.at[1] + arrow[1] * step] : drawn.watched;
    const words = this.put([Math.min(Math.max(to[0], x0), x1), Math.min(Math.max(to[1], y0), y1)]);
    clearTimeout(this.speaking);
    this.speaking = setTimeout(() => {
      this.spoken.textContent = words;
    }, PAUSE);
  }
}

function lookUp({ first, step, words }, value) {
  return words[Math.min(Math.max(Math.round((value - first) / step), 0), words.length - 1)];
}

function apart(kelvin) {
  return say(kelvin < 0 ? 'sheet.page.colder-by' : 'sheet.page.warmer-by', { by: lookUp(readings.apart, kelvin) });
}

function swung([mean, cosine, sine], moment) {
  return mean + moment.cosine * cosine - moment.sine * sine;
}

function within(outline, x, y) {
  let odd = false;
  outline.forEach(([x0, y0], k) => {
    const [x1, y1] = outline[(k + 1) % outline.length];
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) * (x1 - x0)) / (y1 - y0)) odd = !odd;
  });
  return odd;
}

function temperature(field, moment, x, y) {
  const before = (lines, at) => Math.min(Math.max(lines.findIndex((line) => line > at) - 1, 0), lines.length - 2);
  const i = before(field.x, x);
  const j = before(field.y, y);
  const u = (x - field.x[i]) / (field.x[i + 1] - field.x[i]);
  const v = (y - field.y[j]) / (field.y[j + 1] - field.y[j]);
  let sum = 0;
  let known = 0;
  for (const [column, row, weight] of [[i, j, (1 - u) * (1 - v)], [i + 1, j, u * (1 - v)], [i, j + 1, (1 - u) * v], [i + 1, j + 1, u * v]]) {
    const k = row * field.x.length + column;
    if (field.mean[k] === field.air) continue;
    sum += weight * swung([field.mean[k], field.cosine[k], field.sine[k]], moment);
    known += weight;
  }
  return known > 0 ? (field.step * sum) / known : null;
}
