// What is pressed and pointed at, and what follows from it.

import { canUnpack, unpacked } from './read/packed.js';
import { readyField } from './read/field.js';
import { placeWords, readAt } from './read/place.js';
import { hideCross, inSection, showCross, showLayers } from './draw/section.js';
import { showReadings, spokenWords } from './draw/foot.js';

const STEP = 0.05; // m that an arrow key moves the cross; a fifth of it with Shift
const PAUSE = 250; // ms after the last key before the value is spoken
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

const one = (query) => document.querySelector(query);
const all = (query, inside = document) => [...inside.querySelectorAll(query)];

function start(given) {
  const edges = all('.edge').map((place, n) => ({
    ...given.edges[n],
    place,
    pictures: all('.sheet svg', place),
    lesson: place.querySelector('.lesson'),
  }));
  for (const edge of edges) {
    for (const section of edge.sections) section.field = readyField(section.field);
  }
  const now = { edge: edges[0], moment: pressed('moment'), at: null };
  let speaking = 0;

  function pressed(name) {
    return Number(one(`input[name="${name}"]:checked`)?.value ?? 0);
  }

  function showEdge() {
    now.edge = edges[pressed('edge')];
    for (const edge of edges) edge.place.hidden = edge !== now.edge;
    putCross(null);
    showMoment();
  }

  function showMoment() {
    now.moment = pressed('moment');
    one('#when').textContent = given.moments[now.moment].words;
    now.edge.lesson.textContent = now.edge.lessons[now.moment];
    now.edge.pictures.forEach((picture, n) => {
      const { layers, labels } = now.edge.sections[n];
      showLayers(picture, layers[now.moment]);
      picture.setAttribute('aria-label', labels[now.moment]);
      picture.parentElement.setAttribute('aria-label', `${labels[now.moment]} Arrow keys move the cross.`);
    });
    putCross(now.at);
  }

  function putCross(at) {
    now.at = at;
    if (!at) {
      now.edge.pictures.forEach(hideCross);
      return '';
    }
    const moment = given.moments[now.moment];
    const readings = now.edge.sections.map((section) => ({
      name: section.name,
      ...readAt(section, given, moment, ...at),
    }));
    now.edge.pictures.forEach((picture, n) => showCross(picture, now.edge, ...at, readings[n].degrees));
    const where = placeWords(given, ...at);
    one('#where').textContent = `${where[0].toUpperCase()}${where.slice(1)}:`;
    showReadings(one('#there'), readings);
    return spokenWords(where, readings);
  }

  function moved(event, section) {
    const [across, up] = ARROWS[event.key] ?? [];
    if (across === undefined && event.key !== 'Home' && event.key !== 'Escape') return;
    event.preventDefault();
    if (event.key === 'Escape') {
      putCross(null);
      return;
    }
    const [x0, x1, y0, y1] = now.edge.window;
    const from = now.at ?? section.watched;
    const step = event.shiftKey ? STEP / 5 : STEP;
    const to = event.key === 'Home' || !now.at ? section.watched : [from[0] + across * step, from[1] + up * step];
    const words = putCross([Math.min(Math.max(to[0], x0), x1), Math.min(Math.max(to[1], y0), y1)]);
    clearTimeout(speaking);
    speaking = setTimeout(() => {
      one('#spoken').textContent = words;
    }, PAUSE);
  }

  for (const edge of edges) {
    edge.pictures.forEach((picture, n) => {
      const sheet = picture.parentElement;
      sheet.tabIndex = 0;
      sheet.setAttribute('role', 'application');
      const point = (event) => {
        const at = inSection(picture, edge, event);
        if (at) putCross(at);
      };
      picture.addEventListener('pointerdown', point);
      picture.addEventListener('pointermove', point);
      sheet.addEventListener('keydown', (event) => moved(event, edge.sections[n]));
    });
  }
  all('input[name="moment"]').forEach((input) => input.addEventListener('change', showMoment));
  all('input[name="edge"]').forEach((input) => input.addEventListener('change', showEdge));
  for (const hidden of all('.pressed, .live, .read')) hidden.hidden = false;
  showEdge();
}

if (canUnpack()) {
  start(await unpacked(one('#packed').textContent));
} else {
  one('#spoken').className = '';
  one('#spoken').textContent =
    'This browser is too old to press a month or to read a place. What is drawn and written here stands.';
}
