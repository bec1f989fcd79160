// What a key means at a corner, at a side, and while something is drawn. Gives acts; does none.

import { nextLine } from './snap.js';

const ARROWS = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** @returns {number[]|null} which way an arrow key points, as a vector of the plan */
export const arrow = (key) => ARROWS[key] ?? null;

/** Whether a key begins a figure: it goes to the field for the length. */
export const figure = (event) => /^[0-9.]$/.test(event.key) && !event.ctrlKey && !event.metaKey && !event.altKey;

/** The letter of an edge that a key means; "" where it means none. */
export const letter = (event) =>
  /^[a-z]$/i.test(event.key) && !event.ctrlKey && !event.metaKey && !event.altKey ? event.key.toUpperCase() : '';

/** A corner moved to the next line of the grid; its other figure stays. */
export function cornerMoved(chosen, way, step) {
  const { ring, side } = chosen;
  const own = { ring, corner: side.number };
  const along = (axis) => (way[axis] ? { steps: nextLine(side.corner[axis], step, way[axis]) } : own);
  return { do: 'move-corner', ring, corner: side.number, to: { x: along(0), y: along(1) } };
}

/** A side moved to the next line of the grid, or by one step where it is slanted; null where the arrow runs along it. */
export function sideMoved(chosen, way, step) {
  const { ring, side } = chosen;
  const across = way[0] * side.out[0] + way[1] * side.out[1];
  if (Math.abs(across) < 0.4) return null;
  const axis = [0, 1].find((n) => Math.abs(side.out[n]) > 0.999999);
  if (axis === undefined || side.bend) return { do: 'push-side', ring, side: side.number, steps: Math.sign(across) };
  const own = { ring, corner: side.number };
  const line = { steps: nextLine(side.corner[axis], step, way[axis]) };
  return { do: 'move-side', ring, side: side.number, to: axis ? { x: own, y: line } : { x: line, y: own } };
}

/** An obstacle moved to the next line of the grid. */
export function obstacleMoved(chosen, way, step) {
  const along = (axis) => ({ steps: way[axis] ? nextLine(chosen.obstacle.at[axis], step, way[axis]) : Math.round(chosen.obstacle.at[axis] / step) });
  return { do: 'move-obstacle', number: chosen.number, to: { x: along(0), y: along(1) } };
}
