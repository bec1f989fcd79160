// The margin rule: a plain ruler with the limit as a notch and the value as a pointer; right of the notch it holds.

import { made } from './svg.js';

const [WIDE, BASE, HALF] = [104, 9, 48];

/** @param {number|null} pointer -1 to 1; null where nothing points @param {string} verdict @returns {SVGElement|null} */
export function rule(pointer, verdict) {
  if (pointer === null && verdict !== 'cannot tell') return null;
  const middle = WIDE / 2;
  const picture = made('svg', { viewBox: `0 0 ${WIDE} 20`, class: 'rule', 'aria-hidden': 'true' });
  const line = (x0, x1, kind) => picture.append(made('path', { d: `M${x0} ${BASE}H${x1}`, class: kind }));
  for (const x of [middle - HALF, middle + HALF]) picture.append(made('path', { d: `M${x} ${BASE - 4}v8`, class: 'end' }));
  picture.append(made('path', { d: `M${middle} ${BASE - 6}v12`, class: 'notch' }));
  if (pointer === null) {
    line(middle - HALF, middle + HALF, 'dots');
    return picture;
  }
  const x = middle + pointer * HALF;
  line(middle - HALF, pointer < 0 ? x : middle + HALF, 'long');
  if (pointer < 0) {
    line(x, middle, 'dots');
    line(middle, middle + HALF, 'long');
  }
  picture.append(made('path', { d: `M${x} ${BASE}l-4.5 8h9z`, class: 'pointer' }));
  return picture;
}
