// Five notes in the margin of the demo brief, in the place of a tour. Each stands at what it speaks of.

import { say } from '../talk/words.js';
import { press, text } from './answers.js';

const NOTES = ['sentence', 'layer', 'month', 'answer', 'hand'];

export function showNotes(place, number) {
  const key = `notes-${number}`;
  if (sessionStorage.getItem(key)) return;
  const list = document.createElement('ol');
  list.append(...NOTES.map((name) => text('li', say(`sheet.note.${name}`))));
  const away = press(say('sheet.note.away'), () => {
    sessionStorage.setItem(key, 'away');
    place.hidden = true;
  });
  place.replaceChildren(text('h2', say('sheet.note.head')), list, away);
  place.hidden = false;
}
