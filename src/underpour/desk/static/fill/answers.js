// The answers, worst first. A line opens to its steps and its sources in place, and never covers the drawing.

import { rule } from '../draw/rule.js';
import { picture } from '../draw/svg.js';
import { say } from '../talk/words.js';
import { typedPlace } from './margin.js';
import { typed } from './typed.js';

/** Lines that are open stay open when they are answered anew. */
export class Answers {
  constructor(place, counted, brief, goTo) {
    Object.assign(this, { place, counted, brief, goTo });
    this.open = new Set();
    this.held = new Map();
    this.items = new Map();
    this.beside = {};
    this.keys = {};
    this.lists = [document.createElement('ul'), document.createElement('ul')];
    this.box = document.createElement('details');
    this.head = document.createElement('summary');
    this.box.append(this.head, this.lists[1]);
    place.replaceChildren(this.lists[0], this.box);
  }

  /** @param {object} sheet @param {boolean} whole whether everything is worked out */
  show({ verdicts, counted, beside, keys }, whole) {
    if (whole) Object.assign(this, { beside: beside ?? {}, keys });
    const lines = verdicts.map((line) => this.filled(line, whole));
    const front = lines.filter((line) => line.front);
    const rest = lines.filter((line) => !line.front);
    const now = document.activeElement;
    const had = this.place.contains(now) ? now.closest('li.answer')?.querySelector('.how').dataset.line : null;
    const before = this.items;
    this.items = new Map();
    put(this.lists[0], front.map((line) => this.item(line, before)));
    put(this.lists[1], rest.map((line) => this.item(line, before)));
    const meets = rest.filter((line) => line.verdict === 'meets').length;
    this.head.textContent = say('sheet.page.and-more', { meets, others: rest.length - meets });
    this.counted.textContent = counted;
    if (had && !this.place.contains(document.activeElement)) this.place.querySelector(`[data-line="${CSS.escape(had)}"]`)?.focus();
  }

  /** Whether a finding of the brief has a line here. */
  has(key) {
    return this.items.has(key);
  }

  /** The line of a finding is brought into sight, and the keys are there. */
  bring(key) {
    const how = this.place.querySelector(`[data-line="${CSS.escape(key)}"]`);
    if (this.lists[1].contains(how)) this.box.open = true;
    how?.focus();
    how?.scrollIntoView({ block: 'center' });
  }

  /** What a first answer leaves out stays as it was said before, and is marked as not up to date. */
  filled(line, whole) {
    const before = this.held.get(line.key) ?? {};
    const now = { ...before, ...line, stale: !whole && line.words === null };
    if (line.words === null) now.words = before.words ?? '';
    if (whole) this.held.set(line.key, now);
    return now;
  }

  /** A line that says what it said before stays as it is, with what somebody types in it. */
  item(line, before) {
    const open = this.open.has(line.key);
    const said = JSON.stringify([line, open, open ? [this.beside[line.key], line.rests?.map((path) => this.keys[path])] : null]);
    const had = before.get(line.key);
    const each = had?.said === said ? had : { said, item: this.line(line) };
    this.items.set(line.key, each);
    return each.item;
  }

  line(line) {
    const item = document.createElement('li');
    item.className = `answer ${line.verdict.replaceAll(/[ ,]+/g, '-')}${line.unsure || line.stale ? ' stale' : ''}`;
    const where = line.edge ? press(line.where, () => this.goTo(line)) : text('span', line.where);
    where.className = 'where';
    const name = text('span', line.title, 'name');
    name.append(where);
    const numbers = text('span', [line.value, line.limit].filter(Boolean).join(', '), 'numbers');
    const margin = text('span', line.margin, 'short-by');
    const ruled = rule(line.pointer, line.verdict);
    const how = this.opener(line);
    item.append(text('b', line.tight ? say('sheet.page.tight') : line.verdict, 'verdict'), name, numbers);
    item.append(ruled ?? text('span', '', 'rule'), margin, how);
    if (line.unsure || line.stale) item.append(text('span', say('sheet.page.working'), 'working'));
    if (line.words && (line.front || this.open.has(line.key))) item.append(text('p', line.words, 'words'));
    if (line.missing) item.append(typedPlace(line.entry, line.missing, this.brief));
    if (line.caution) item.append(text('p', line.caution, 'caution'));
    if (line.accepted) item.append(text('p', line.accepted, 'words'));
    if (this.open.has(line.key)) item.append(known(line, this.beside[line.key], this.keys, this.brief));
    return item;
  }

  opener(line) {
    const shut = !this.open.has(line.key);
    const how = press(say(shut ? 'sheet.page.how' : 'sheet.page.shut'), () => {
      if (shut) this.open.add(line.key);
      else this.open.delete(line.key);
      const item = how.closest('li');
      const fresh = this.item(line, new Map());
      item.replaceWith(fresh);
      fresh.querySelector('.how').focus();
    });
    how.className = 'how';
    how.dataset.line = line.key;
    how.setAttribute('aria-expanded', String(!shut));
    how.setAttribute('aria-label', `${how.textContent}: ${line.title}, ${line.where}`);
    return how;
  }
}

/** Puts items where they belong; those that stand there already are not touched. */
function put(list, items) {
  items.forEach((item, n) => {
    if (list.children[n] !== item) list.insertBefore(item, list.children[n] ?? null);
  });
  while (list.children.length > items.length) list.lastElementChild.remove();
}

/** How we know: what is drawn of it; formula, numbers put in, result; then the sources, and what it rests on, to be typed over there. */
function known(line, drawn, keys, brief) {
  const box = text('div', '', 'known');
  if (drawn) {
    const shown = text('div', '', 'shown');
    shown.tabIndex = 0; // on a narrow screen it is moved sideways
    shown.setAttribute('role', 'group');
    shown.setAttribute('aria-label', line.title);
    shown.append(picture(drawn));
    box.append(shown);
  }
  if (line.steps?.length) {
    const list = document.createElement('ol');
    list.append(...line.steps.map(step));
    box.append(list);
  }
  for (const { source, seen, doubtful } of line.basis ?? []) {
    box.append(text('p', [source, seen, doubtful].filter(Boolean).join('; ')));
  }
  if (line.within) box.append(text('p', line.within));
  if (line.rests?.length) box.append(rests(line.rests, keys, brief));
  if (!box.childNodes.length) box.append(text('p', say('sheet.page.no-steps')));
  return box;
}

function rests(paths, keys, brief) {
  const box = text('div', '', 'rests');
  const others = paths.filter((path) => !keys[path]);
  const list = document.createElement('ul');
  for (const path of paths.filter((each) => keys[each])) {
    const item = text('li', '');
    item.append(text('code', path), ' ', typed(keys[path], brief), ' ', text('span', keys[path].help, 'note'));
    list.append(item);
  }
  box.append(text('p', say('sheet.page.rests', { paths: others.join(', ') })), list);
  return box;
}

function step({ symbol, formula, numbers, result }) {
  const item = document.createElement('li');
  for (const [runs, kind] of [[symbol, 'symbol'], [formula, 'formula'], [numbers, 'put-in'], [result, 'result']]) {
    if (!runs.length) continue;
    const part = text('span', '', kind);
    for (const [letters, below] of runs) {
      part.append(letters);
      if (below) part.append(text('sub', below));
    }
    item.append(part, ' ');
  }
  return item;
}

export function text(name, words, kind = '') {
  const element = document.createElement(name);
  element.textContent = words;
  if (kind) element.className = kind;
  return element;
}

export function press(words, act) {
  const button = Object.assign(document.createElement('button'), { type: 'button', textContent: words });
  button.addEventListener('click', act);
  return button;
}
