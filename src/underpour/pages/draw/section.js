// One section: the layers of the pressed month, and the cross.

import { element } from './shapes.js';

const ARM = 2.4; // mm, each arm of the cross
const APART = 1.6; // mm from the cross to its words
const HIGH = 4; // mm, a line of words
const ROOM = 0.6; // mm to either side of the words

function layer(picture, name) {
  return picture.querySelector(`[data-layer="${name}"]`);
}

export function showLayers(picture, layers) {
  for (const [name, shapes] of Object.entries(layers)) {
    layer(picture, name).replaceChildren(...shapes.map((shape) => element(...shape)));
  }
}

// The place of the sheet [mm] under a place of the section [m], and back.
export function onSheet({ sheet, window: [x0, , , y1] }, x, y) {
  return [sheet.left + (x - x0) * sheet.scale, sheet.top + (y1 - y) * sheet.scale];
}

export function inSection(picture, { sheet, window: [x0, x1, y0, y1] }, event) {
  const box = picture.getBoundingClientRect();
  const millimetre = box.width / picture.viewBox.baseVal.width;
  const x = x0 + ((event.clientX - box.left) / millimetre - sheet.left) / sheet.scale;
  const y = y1 - ((event.clientY - box.top) / millimetre - sheet.top) / sheet.scale;
  return x >= x0 && x <= x1 && y >= y0 && y <= y1 ? [x, y] : null;
}

export function showCross(picture, edge, x, y, words) {
  const [across, down] = onSheet(edge, x, y);
  const [, lowest] = onSheet(edge, edge.window[0], edge.window[2]);
  const before = across > picture.viewBox.baseVal.width / 2;
  const data = `M${across - ARM} ${down}h${2 * ARM}M${across} ${down - ARM}v${2 * ARM}`;
  const beside = {
    x: across + (before ? -APART : APART),
    y: down > lowest - HIGH - APART ? down - APART : down + APART + HIGH,
    'text-anchor': before ? 'end' : 'start',
    class: 'cross-words',
  };
  const said = element('text', beside, words);
  layer(picture, 'cross').replaceChildren(
    element('path', { d: data, class: 'cross-clear' }, ''),
    element('path', { d: data, class: 'cross' }, ''),
    said,
  );
  if (words) said.before(element('rect', around(said.getBBox()), ''));
}

function around({ x, y, width, height }) {
  return { x: x - ROOM, y, width: width + 2 * ROOM, height, class: 'cross-ground' };
}

export function hideCross(picture) {
  layer(picture, 'cross').replaceChildren();
}
