// What a drag means: the act it would be if it ended here.

import { inPlan } from './frame.js';
import { snap } from './snap.js';

/**
 * @param {object} held what was pressed: {kind, ring, number, side, obstacle, bow}
 * @param {{x: number, y: number}} point px
 * @param {{plan: object, frame: object, reach: number}} now
 * @returns {object|null} the act
 */
export function dragged(held, point, { plan, frame, reach }) {
  const [x, y] = inPlan(frame, point);
  const { ring, number } = held;
  const around = { step: plan.step, reach: reach / frame.scale };
  if (held.bow) return { do: 'bend', ring, side: number, steps: bowed(held.side, x, y, plan.step) };
  if (held.kind === 'obstacle') {
    return { do: 'move-obstacle', number, to: snap(x, y, { ...around, corners: [] }).where };
  }
  if (held.kind === 'corner') {
    const corners = known(plan, (r, n) => r === ring && n === number);
    return { do: 'move-corner', ring, corner: number, to: snap(x, y, { ...around, corners }).where };
  }
  const count = plan.rings[ring].sides.length;
  const own = (r, n) => r === ring && (n === number || n === (number % count) + 1);
  return { do: 'move-side', ring, side: number, to: snap(x, y, { ...around, corners: known(plan, own) }).where };
}

/** All corners of a plan but some. */
export function known(plan, but = () => false) {
  return plan.rings.flatMap((ring, r) =>
    ring.sides
      .filter((side) => !but(r, side.number))
      .map((side) => ({ ring: r, corner: side.number, x: side.corner[0], y: side.corner[1] })),
  );
}

/** How many steps a side bows out when its middle is pulled to a place. */
function bowed(side, x, y, step) {
  const [a, b] = [side.lines[0].start, side.lines.at(-1).end];
  const off = (x - (a[0] + b[0]) / 2) * side.out[0] + (y - (a[1] + b[1]) / 2) * side.out[1];
  return Math.round(off / step);
}
