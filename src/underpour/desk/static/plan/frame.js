// Where metres of the plan lie on the screen. y goes up in the plan and down on the screen.

const AROUND = 76; // px beside the plan for dimensions and letters

/**
 * @typedef {{scale: number, left: number, bottom: number, wide: number, high: number}} Frame
 * @typedef {{x: number, y: number}} Point
 */

/**
 * The frame that shows all of these places.
 * @param {number[][]} places in m
 * @param {number} wide of the sheet, px
 * @param {number} high
 * @param {number} least m that are shown at least, across
 * @returns {Frame}
 */
export function frameOf(places, wide, high, least) {
  const xs = places.map((place) => place[0]);
  const ys = places.map((place) => place[1]);
  const [x0, x1, y0, y1] = places.length
    ? [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
    : [0, least, 0, (least * high) / wide];
  const around = Math.min(AROUND, wide / 4.8);
  const scale = Math.min((wide - 2 * around) / Math.max(x1 - x0, 0.1), (high - 2 * around) / Math.max(y1 - y0, 0.1));
  const small = Math.min(scale, wide / Math.max(least / 4, 0.1));
  return {
    scale: small,
    left: (wide - (x1 - x0) * small) / 2 - x0 * small,
    bottom: (high + (y1 - y0) * small) / 2 + y0 * small,
    wide,
    high,
  };
}

/** @param {Frame} frame @param {number[]} place in m @returns {Point} px */
export function onScreen(frame, place) {
  return { x: frame.left + place[0] * frame.scale, y: frame.bottom - place[1] * frame.scale };
}

/** @param {Frame} frame @param {Point} point px @returns {number[]} m */
export function inPlan(frame, point) {
  return [(point.x - frame.left) / frame.scale, (frame.bottom - point.y) / frame.scale];
}

/** @param {Frame} frame @param {number[]} place in m @param {number} within px */
export function isShown(frame, place, within) {
  const { x, y } = onScreen(frame, place);
  return x >= within && y >= within && x <= frame.wide - within && y <= frame.high - within;
}
