// Where a pressed place is taken to lie: on a corner, in line with one, at a right angle, or on the grid.
// What is sent is what it is taken for, never a figure: the server writes those.

/**
 * @typedef {{ring: number, corner: number, x: number, y: number}} Known a corner that is there, in m
 * @typedef {{where: object, x: number, y: number, how: string}} Snapped
 */

/**
 * @param {number} x m
 * @param {number} y m
 * @param {{step: number, reach: number, corners: Known[], last?: Known, before?: Known}} around
 *   ``reach`` in m; ``last`` is the corner that a side comes from, ``before`` the one before it
 * @returns {Snapped}
 */
export function snap(x, y, { step, reach, corners, last, before }) {
  const corner = nearest(corners, (each) => Math.hypot(each.x - x, each.y - y), reach);
  if (corner) {
    const same = { ring: corner.ring, corner: corner.corner };
    return { where: { x: same, y: same }, x: corner.x, y: corner.y, how: 'corner' };
  }
  const square = last && before && squareTo(x, y, last, before, step, reach);
  if (square) return square;
  const offered = last ? [last, ...corners] : corners;
  const inX = nearest(offered, (each) => Math.abs(each.x - x), reach / 2);
  const inY = nearest(offered, (each) => Math.abs(each.y - y), reach / 2);
  const across = inX ? as(inX, inX.x) : grid(x, step);
  const up = inY ? as(inY, inY.y) : grid(y, step);
  return { where: { x: across.said, y: up.said }, x: across.at, y: up.at, how: inX || inY ? 'line' : 'grid' };
}

/** The nearest line of the grid on one side of a place: ``way`` is 1 above it, -1 below. */
export function nextLine(at, step, way) {
  const steps = at / step;
  return way > 0 ? Math.floor(steps + 1e-6) + 1 : Math.ceil(steps - 1e-6) - 1;
}

/** A place at a right angle to the way that leads to the last corner, where that way is slanted; null elsewhere. */
function squareTo(x, y, last, before, step, reach) {
  const [dx, dy] = [last.x - before.x, last.y - before.y];
  const long = Math.hypot(dx, dy);
  if (Math.min(Math.abs(dx), Math.abs(dy)) < 1e-9 * long || !long) return null;
  const [ux, uy] = [dx / long, dy / long];
  const ahead = (x - last.x) * ux + (y - last.y) * uy;
  const steps = Math.round((-(x - last.x) * uy + (y - last.y) * ux) / step);
  if (Math.abs(ahead) > reach || !steps) return null;
  const where = { ring: last.ring, corner: last.corner, before: before.corner, steps };
  return { where, x: last.x - uy * steps * step, y: last.y + ux * steps * step, how: 'square' };
}

function nearest(corners, apart, within) {
  let [found, least] = [null, within];
  for (const each of corners) {
    const far = apart(each);
    if (far < least) [found, least] = [each, far];
  }
  return found;
}

const as = (known, at) => ({ said: { ring: known.ring, corner: known.corner }, at });

function grid(at, step) {
  const steps = Math.round(at / step);
  return { said: { steps }, at: steps * step };
}
