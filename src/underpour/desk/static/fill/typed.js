// A place of the brief that is typed over where it stands. Underlined is yours, dotted is assumed or open.

import { say } from '../talk/words.js';
import { withPad } from './pad.js';

const PAUSE = 250; // ms after the last key
const FOR_UNIT = 1500; // ms after a number that has no unit yet, or where each sign is a press of its own
const BARE = /^[-+\u2212\d\s.,/]+$/;
const EMPTY = '\u2007'.repeat(8); // the breadth of a field that says nothing yet
const YES_NO = 'yes-no';
let count = 0;

/** Lists to choose from, by name; asked for once when the page opens. */
export const lists = {};

/** @param {object} part a field as the desk sends it @param {import('../talk/brief.js').Brief} brief */
export function typed(part, brief) {
  const words = part.words || part.typed;
  if (part.fixed) return Object.assign(document.createElement('span'), { textContent: words, className: 'fixed' });
  const chosen = part.choices && lists[part.choices];
  const box = chosen ? chooser(part, brief) : writer(part, brief);
  box.className = `field ${part.state}`;
  box.dataset.path = part.path;
  box.title = part.path;
  box.setAttribute('aria-label', [part.help || part.path, say(`sheet.page.${part.state}`)].join(' '));
  return chosen ? box : fitted(box);
}

/** As broad as what is written in it: a copy of its words, unseen, gives it its room. */
function fitted(box) {
  const around = document.createElement('span');
  around.className = 'fit';
  const fit = () => {
    around.dataset.words = box.value || box.placeholder || EMPTY;
  };
  box.addEventListener('input', fit);
  around.append(box);
  fit();
  return around;
}

function writer(part, brief) {
  const box = document.createElement('input');
  Object.assign(box, { type: 'text', value: part.typed, placeholder: part.words, autocomplete: 'off', spellcheck: false });
  const padded = part.keys.length > 0 && withPad(box, part.keys);
  const turn = { sameAs: null };
  let waiting = 0;
  const send = () => {
    clearTimeout(waiting);
    const now = box.value.trim();
    if (now === box.dataset.sent || (box.dataset.sent === undefined && now === part.typed)) return;
    box.dataset.sent = now;
    brief.type([now ? { path: part.path, typed: part.shape === 'words' ? words(now) : now } : { path: part.path, left_out: true }], turn);
  };
  box.addEventListener('focus', () => {
    count += 1;
    turn.sameAs = `${part.path} ${count}`;
    box.select();
  });
  box.addEventListener('input', () => {
    clearTimeout(waiting);
    if (part.shape) return; // at an answer, whose line is made anew: sent when it is left, or by Enter
    waiting = setTimeout(send, part.keys.length && (padded || BARE.test(box.value)) ? FOR_UNIT : PAUSE);
  });
  box.addEventListener('change', send);
  box.addEventListener('keydown', (event) => {
    if (event.key === 'Enter') send();
  });
  if (part.examples.length) box.setAttribute('list', exampleList(part));
  return box;
}

/** A list as it is said: words with a comma and a space between them. */
function words(now) {
  return now === '[]' ? [] : now.split(/[,;]\s+/).filter(Boolean);
}

/** Ways to type it, from the brief's own reference. */
function exampleList(part) {
  const id = `ways-${part.path.replace(/\d+|[^\w]/g, '-')}`;
  if (!document.getElementById(id)) {
    const list = Object.assign(document.createElement('datalist'), { id });
    list.append(...part.examples.map((words) => Object.assign(document.createElement('option'), { value: words })));
    document.body.append(list);
  }
  return id;
}

function chooser(part, brief) {
  const box = document.createElement('select');
  const known = lists[part.choices];
  const own = known.some((choice) => choice.typed === part.typed) ? [] : [{ typed: part.typed, words: part.words || part.typed || say('sheet.not-told') }];
  box.append(...[...own, ...known].map(({ typed: value, words }) => new Option(words, value, false, value === part.typed)));
  if (part.choices === 'boards' || part.choices === 'grounds') box.classList.add('broad');
  box.addEventListener('change', () => {
    const chosen = part.choices === YES_NO ? box.value === 'true' : box.value;
    brief.type([box.value ? { path: part.path, typed: chosen } : { path: part.path, left_out: true }]);
  });
  return box;
}

/** A sentence: words, and fields between them. */
export function sentence(parts, brief) {
  return parts.map((part) => {
    if (part.path) return typed(part, brief);
    if (part.add) return putIn(part, brief);
    if (part.own) return Object.assign(document.createElement('span'), { textContent: part.own, className: 'own' }); // the brief's own word
    return part.out ? takenOut(part, brief) : document.createTextNode(part.text);
  });
}

/** What can be put in at this place: chosen, it stands in the brief and is typed over there. */
export function putIn({ add, shown, label }, brief) {
  const box = document.createElement('select');
  box.className = 'put-in';
  box.setAttribute('aria-label', label);
  box.title = label;
  box.style.setProperty('width', `${shown.length + 1.5}ch`); // of what stands there, not of the longest that can be chosen
  box.append(new Option(shown, ''), ...add.map(({ words }, n) => new Option(words, String(n))));
  box.addEventListener('change', () => {
    const chosen = add[Number(box.value)];
    box.selectedIndex = 0;
    box.blur();
    brief.type([{ path: chosen.path, added: chosen.value }]);
  });
  return box;
}

/** Takes out what is typed at a place; undo brings it back. */
export function takenOut({ out, label }, brief) {
  const act = Object.assign(document.createElement('button'), { type: 'button', className: 'take-out', textContent: '\u2212', title: label });
  act.setAttribute('aria-label', label);
  act.addEventListener('click', () => brief.type([{ path: out, left_out: true }]));
  return act;
}

/** Puts a sentence where it belongs, unless somebody types in it: then only the other fields are renewed. */
export function renew(place, parts, brief) {
  const now = document.activeElement;
  if (!place.contains(now) || !now.dataset?.path) {
    place.replaceChildren(...sentence(parts, brief));
    return;
  }
  const fresh = sentence(parts, brief);
  const boxOf = (node) => (node.className === 'fit' ? node.firstChild : node);
  const at = fresh.findIndex((node) => boxOf(node).dataset?.path === now.dataset.path);
  if (at < 0) return;
  mark(now, boxOf(fresh[at]).className);
  let top = now;
  while (top.parentNode !== place) top = top.parentNode;
  while (place.firstChild !== top) place.firstChild.remove();
  while (top.nextSibling) top.nextSibling.remove();
  top.before(...fresh.slice(0, at));
  top.after(...fresh.slice(at + 1));
}

function mark(box, kind) {
  box.className = kind;
  box.removeAttribute('aria-invalid');
}
