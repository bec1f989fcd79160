// A telephone's number pad has no units: these keys stand below the field that is typed in.

import { say } from '../talk/words.js';

const BESIDE = 8; // px of the page that stay free at either side
const SHOWN = { "'": '\u2032', '"': '\u2033', '-': '\u2212' };

/** @param {HTMLInputElement} box @param {string[]} keys what each types @returns {boolean} whether it has them */
export function withPad(box, keys) {
  if (!matchMedia('(pointer: coarse)').matches) return false;
  box.inputMode = 'decimal';
  let pad = null;
  box.addEventListener('focus', () => {
    pad = made(box, keys);
    box.parentElement.append(pad);
    const page = document.documentElement.clientWidth;
    pad.style.setProperty('left', `${BESIDE - box.getBoundingClientRect().left}px`);
    pad.style.setProperty('max-width', `${page - 2 * BESIDE}px`);
    pad.scrollIntoView({ block: 'nearest' });
  });
  box.addEventListener('blur', () => pad?.remove());
  return true;
}

function made(box, keys) {
  const pad = document.createElement('span');
  pad.className = 'pad';
  pad.setAttribute('role', 'group');
  pad.setAttribute('aria-label', say('sheet.page.keys'));
  pad.append(
    ...keys.map((key) => {
      const shown = key === ' ' ? say('sheet.page.key-space') : (SHOWN[key] ?? key);
      const button = Object.assign(document.createElement('button'), { type: 'button', textContent: shown, tabIndex: -1 });
      button.addEventListener('pointerdown', (event) => event.preventDefault()); // the field stays the one that is typed in
      button.addEventListener('click', () => type(box, key));
      return button;
    }),
  );
  return pad;
}

/** A word of a unit stands apart from its number; a sign does not. */
function type(box, key) {
  const { selectionStart: start, selectionEnd: end } = box;
  const apart = /^[a-z%]/i.test(key) && /\d$/.test(box.value.slice(0, start)) ? ' ' : '';
  box.setRangeText(apart + key, start, end, 'end');
  box.dispatchEvent(new Event('input'));
}
