// The plan as a drawing: ink lines with the line style of their edge, dimensions, letters. Draws what the server said.

import { onScreen } from './frame.js';

const SVG = 'http://www.w3.org/2000/svg';
const LETTER_OUT = 17; // px from a side to its edge's letter
const DIMENSION_OUT = 50; // px from a side to its dimension line, whose figure stands clear of the letter
const NUMBER_IN = 15; // px from a side to its number
const FIELD = 50; // px, half of the field for a length
const SMALL_HOLE = 64; // px; sides shorter than that stay without numbers
const LETTER_WIDE = 6.6; // px that a letter takes, about
const LEAST_DIMENSION = 34; // px; a shorter side is measured when it is chosen

/** @returns {SVGElement} */
export function shape(name, given = {}, ...inside) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(given)) if (value !== undefined) made.setAttribute(key, value);
  made.append(...inside);
  return made;
}

/**
 * Everything of a plan.
 * @param {object} plan as the server handed it
 * @param {import('./frame.js').Frame} frame
 * @param {{chosen: string, words: object, say: Function}} seen what is chosen, by its key
 * @returns {SVGElement[]}
 */
export function drawPlan(plan, frame, seen) {
  const floor = plan.rings.map((ring) => ringData(ring, frame)).join('');
  return [
    ...gridOf(plan, frame),
    shape('path', { d: floor, class: 'floor', 'fill-rule': 'evenodd' }),
    ...plan.rings.slice(1).flatMap((ring, n) => voidOf(ring, frame, n + 1)),
    ...plan.obstacles.map((each, n) => obstacleOf(each, n + 1, frame, seen)),
    ...plan.rings.flatMap((ring, r) => ring.sides.map((side) => sideOf(side, r, plan, frame, seen))),
    ...plan.rings.flatMap((ring, r) => ring.sides.map((side) => cornerOf(side, r, frame, seen))),
    scaleOf(plan, frame),
  ];
}

/** What is being drawn: its corners, its lengths, and the side to where one points. */
export function drawChain(chain, cursor, frame) {
  const points = chain.corners.map((corner) => onScreen(frame, corner));
  const drawn = [];
  if (points.length > 1) drawn.push(shape('path', { d: through(points), class: 'chain' }));
  points.slice(1).forEach((point, n) => drawn.push(label(chain.lengths[n], points[n], point)));
  points.forEach((point, n) =>
    drawn.push(shape('circle', { cx: point.x, cy: point.y, r: n ? 4 : 7, class: n ? 'set' : 'set first' })),
  );
  if (!cursor) return drawn;
  const at = onScreen(frame, [cursor.x, cursor.y]);
  const last = points.at(-1);
  if (last) drawn.push(shape('path', { d: through([last, at]), class: 'reaching' }));
  if (last && cursor.length) drawn.push(label(cursor.length, last, at));
  const cross = `M${at.x - 12} ${at.y}h24M${at.x} ${at.y - 12}v24`;
  drawn.push(shape('path', { d: cross, class: `cursor ${cursor.how ?? ''}` }));
  return drawn;
}

/** Where the field for a side's length lies: in the place of its dimension, or inside where that is off the sheet. */
export function fieldAt(side, frame) {
  const [x, y] = outside(side, frame, DIMENSION_OUT + 8 + FIELD * Math.abs(side.out[0]));
  const shown = x > FIELD && x < frame.wide - FIELD && y > 20 && y < frame.high - 20;
  const found = shown ? [x, y] : outside(side, frame, -DIMENSION_OUT - FIELD * Math.abs(side.out[0]) * 0.7);
  return { x: found[0], y: found[1] };
}

/** The middle of a side, so far out. px */
function outside(side, frame, far) {
  const at = onScreen(frame, side.middle);
  return [at.x + side.out[0] * far, at.y - side.out[1] * far];
}

function gridOf(plan, frame) {
  let apart = plan.step * frame.scale;
  while (apart < 9) apart *= 2;
  const [x, y] = [frame.left % apart, frame.bottom % apart];
  const dot = shape('circle', { cx: 1, cy: 1, r: 0.8, class: 'dot' });
  const place = { x: x - 1, y: y - 1, width: apart, height: apart, patternUnits: 'userSpaceOnUse' };
  const pattern = shape('pattern', { id: 'plan-grid', ...place }, dot);
  return [shape('defs', {}, pattern), shape('rect', { class: 'ground', width: '100%', height: '100%', fill: 'url(#plan-grid)' })];
}

function ringData(ring, frame) {
  const lines = ring.sides.flatMap((side) => side.lines);
  return lines.map((line, n) => lineData(line, frame, n === 0)).join('') + (lines.length ? 'z' : '');
}

function lineData(line, frame, first = true) {
  const [a, b] = [onScreen(frame, line.start), onScreen(frame, line.end)];
  const begin = first ? `M${a.x} ${a.y}` : '';
  if (!line.radius) return `${begin}L${b.x} ${b.y}`;
  const r = line.radius * frame.scale;
  return `${begin}A${r} ${r} 0 ${+line.large} ${+!line.left} ${b.x} ${b.y}`;
}

function voidOf(ring, frame, number) {
  const data = ringData(ring, frame);
  const corners = ring.sides.map((side) => onScreen(frame, side.corner));
  const [xs, ys] = [corners.map((c) => c.x), corners.map((c) => c.y)];
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const clip = shape('clipPath', { id: `plan-hole-${number}` }, shape('path', { d: data }));
  const crossed = `M${x0} ${y0}L${x1} ${y1}M${x0} ${y1}L${x1} ${y0}`;
  return [clip, shape('path', { d: crossed, class: 'hair', 'clip-path': `url(#plan-hole-${number})` })];
}

function sideOf(side, ring, plan, frame, { chosen, words: said, say }) {
  const key = `side-${ring}-${side.number}`;
  const letters = [...new Set(side.lines.flatMap((line) => line.edges))];
  const edges = letters.length ? letters.map((edge) => say('has-edge', { edge })).join(', ') : said['no-edge'];
  const spoken = say(ring ? 'side-of-hole' : 'side', { n: side.number, ring, length: side.length, edges });
  const whole = side.lines.map((line, n) => lineData(line, frame, n === 0)).join('');
  const on = chosen === key;
  const group = shape('g', { ...pressed(key, side.name ? `${spoken}, ${side.name}` : spoken, on), class: on ? 'side chosen' : 'side' });
  group.append(shape('path', { d: whole, class: 'reach' }));
  const room = ring && side.number > 1 ? SMALL_HOLE : 26; // px; in a small hole one letter stands for all
  for (const line of side.lines) group.append(...lineOf(line, plan, frame, room));
  const long = side.along * frame.scale;
  group.append(...numberOf(side, ring, frame, on));
  const words = outside(side, frame, DIMENSION_OUT);
  if (!on && !ring && side.lines[0].radius) group.append(letters_(side.length, { x: words[0], y: words[1] }, 'measure'));
  else if (!on && !ring && long > LEAST_DIMENSION) group.append(...dimensionOf(side, frame));
  if (on) group.append(bowOf(side, frame));
  return group;
}

function lineOf(line, plan, frame, room) {
  const edge = plan.edges.find((each) => each.letter === line.edges[0]);
  const kind = line.edges.length === 1 ? 'edge' : line.edges.length ? 'twice' : 'bare';
  const drawn = [shape('path', { d: lineData(line, frame), class: 'hair' })];
  drawn.push(shape('path', { d: lineData(line, frame), class: kind, 'stroke-dasharray': edge?.dashes || undefined }));
  const [a, b] = [onScreen(frame, line.start), onScreen(frame, line.end)];
  if (!line.edges.length || Math.hypot(a.x - b.x, a.y - b.y) < room) return drawn;
  const at = onScreen(frame, line.middle);
  const [x, y] = [at.x + line.out[0] * LETTER_OUT, at.y - line.out[1] * LETTER_OUT];
  drawn.push(shape('circle', { cx: x, cy: y, r: 9.5, class: 'ring' }));
  drawn.push(letters_(line.edges.join(''), { x, y: y + 5 }, 'letter'));
  return drawn;
}

/** The number of a side, or its name, inside along it; a hole's with its length. As much as finds room. */
function numberOf(side, ring, frame, on) {
  const at = onScreen(frame, side.middle);
  const [a, b] = [side.lines[0].start, side.lines.at(-1).end];
  const turned = upright(-b[1] + a[1], b[0] - a[0]);
  const inwards = { x: at.x - side.out[0] * NUMBER_IN, y: at.y + side.out[1] * NUMBER_IN };
  const place = (angle) => `translate(${inwards.x} ${inwards.y}) rotate(${angle})`;
  const number = ring ? `${ring}.${side.number}` : `${side.number}`;
  const offered = [side.name, ring && !on ? `${number}: ${side.length}` : ''].filter(Boolean);
  const found = offered.find((words) => words.length * LETTER_WIDE < side.along * frame.scale);
  const given = { class: 'number', 'text-anchor': 'middle', y: 5 };
  if (found) return [shape('text', { ...given, transform: place(turned) }, found)];
  const room = side.along * frame.scale > (ring ? SMALL_HOLE : 24);
  return room ? [shape('text', { ...given, transform: place(0) }, number)] : [];
}

/** A dimension line with its ends ticked as drawings do, its figure above it, read from below or from the right. */
function dimensionOf(side, frame) {
  const [a, b] = [side.lines[0].start, side.lines.at(-1).end].map((place) => onScreen(frame, place));
  const off = ({ x, y }, far) => ({ x: x + side.out[0] * far, y: y - side.out[1] * far });
  const [p, q] = [off(a, DIMENSION_OUT), off(b, DIMENSION_OUT)];
  const ends = [a, b].map((end) => [off(end, 8), off(end, DIMENSION_OUT + 4)]);
  const ticks = [p, q].map(({ x, y }) => `M${x - 4} ${y + 4}l8 -8`).join('');
  const lines = `${through([p, q])}${ends.map(through).join('')}${ticks}`;
  return [shape('path', { d: lines, class: 'hair dimension' }), label(side.length, p, q)];
}

/** Words along a line, above it. */
function label(words, a, b) {
  const turned = upright(b.y - a.y, b.x - a.x);
  const [x, y] = [(a.x + b.x) / 2, (a.y + b.y) / 2];
  return shape('text', { class: 'measure', 'text-anchor': 'middle', transform: `translate(${x} ${y}) rotate(${turned})`, y: -4 }, words);
}

/** The angle of words along a line, in degrees: read from below or from the right. */
function upright(down, across) {
  const turned = (Math.atan2(down, across) * 180) / Math.PI;
  return turned > 89.999 ? turned - 180 : turned < -90.001 ? turned + 180 : turned;
}

function cornerOf(side, ring, frame, { chosen, say }) {
  const key = `corner-${ring}-${side.number}`;
  const at = onScreen(frame, side.corner);
  const spoken = say(ring ? 'corner-of-hole' : 'corner', { n: side.number, ring, place: side.corner_words });
  const group = shape('g', { ...pressed(key, spoken, chosen === key), class: chosen === key ? 'corner chosen' : 'corner' });
  group.append(shape('circle', { cx: at.x, cy: at.y, r: 15, class: 'reach' }));
  group.append(shape('rect', { x: at.x - 4, y: at.y - 4, width: 8, height: 8, class: 'grip' }));
  return group;
}

function bowOf(side, frame) {
  const { x, y } = onScreen(frame, side.middle);
  const grip = shape('path', { d: `M${x} ${y - 7}l7 7l-7 7l-7 -7z`, class: 'grip' });
  return shape('g', { class: 'bow', 'data-bow': '' }, shape('circle', { cx: x, cy: y, r: 13, class: 'reach' }), grip);
}

function obstacleOf(each, number, frame, { chosen, words, say }) {
  const key = `obstacle-0-${number}`;
  const at = onScreen(frame, each.at);
  const kind = words[each.kind] ?? each.kind;
  const spoken = say('obstacle', { kind, place: each.at_words, size: each.size });
  const [w, h] = [each.breadth, each.depth].map((size) => Math.max((size * frame.scale) / 2, 3));
  const solid = each.kind === 'column' || each.kind === 'post' ? 'solid' : 'open';
  const group = shape('g', { ...pressed(key, spoken, chosen === key), class: chosen === key ? 'obstacle chosen' : 'obstacle' });
  group.append(shape('circle', { cx: at.x, cy: at.y, r: Math.max(w, h, 14), class: 'reach' }));
  const body = { class: solid };
  group.append(
    each.circle
      ? shape('circle', { cx: at.x, cy: at.y, r: w, ...body })
      : shape('rect', { x: at.x - w, y: at.y - h, width: 2 * w, height: 2 * h, ...body }),
  );
  if (each.kind === 'pit' || each.kind === 'drain') {
    const r = each.circle ? 0.7 : 1;
    group.append(shape('path', { class: 'hair', d: `M${at.x - r * w} ${at.y - r * h}L${at.x + r * w} ${at.y + r * h}M${at.x - r * w} ${at.y + r * h}L${at.x + r * w} ${at.y - r * h}` }));
  }
  group.append(letters_(kind, { x: at.x + w + 5, y: at.y + 5 }, 'number', 'start'));
  return group;
}

function scaleOf(plan, frame) {
  const long = plan.scale * frame.scale;
  const [x, y] = [frame.wide - 14 - long, frame.high - 14];
  const bar = shape('path', { d: `M${x} ${y - 5}v5h${long}v-5M${x + long / 2} ${y}v-3`, class: 'hair ink' });
  return shape('g', { 'aria-hidden': 'true' }, bar, letters_(plan.scale_words, { x: x + long / 2, y: y - 9 }, 'measure'));
}

const pressed = (key, spoken, on) => ({ 'data-key': key, tabindex: 0, role: 'button', 'aria-label': spoken, 'aria-pressed': on });

const letters_ = (words, { x, y }, kind, anchor = 'middle') => shape('text', { x, y, class: kind, 'text-anchor': anchor }, words);

const through = (points) => points.map(({ x, y }, n) => `${n ? 'L' : 'M'}${x} ${y}`).join('');
