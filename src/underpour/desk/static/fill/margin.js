// In the margin: what to ask the caller, and what was assumed; both are typed over where they stand.

import { say } from '../talk/words.js';
import { press, text } from './answers.js';
import { putIn, typed } from './typed.js';

/** The three questions that would decide. @param {object} asked */
export function showQuestions(place, asked, brief) {
  if (asked.state !== 'done') {
    onTheWay(place, asked, brief);
    return;
  }
  const head = text('h2', say(asked.decides ? 'sheet.page.questions' : 'sheet.page.questions-idle'));
  const list = document.createElement('ol');
  list.append(...asked.questions.map((question) => asking(question, brief)));
  place.replaceChildren(head, asked.questions.length ? list : text('p', say('sheet.page.nothing-to-ask')));
}

/** How far it is, with a way to stop it and to begin again; what is pressed stays where it is while figures change. */
function onTheWay(place, { state, done, of }, brief) {
  const stopped = state === 'stopped';
  const words = stopped ? say('sheet.page.asking-stopped') : of ? say('sheet.page.asking', { done, of }) : say('sheet.page.working');
  const there = place.querySelector(`.way.${stopped ? 'stopped' : 'going'}`);
  if (there) {
    there.firstChild.textContent = words;
    return;
  }
  const line = text('p', '', `note way ${stopped ? 'stopped' : 'going'}`);
  const act = stopped ? press(say('sheet.page.ask-again'), () => brief.questions(true)) : press(say('sheet.page.stop'), () => brief.stopAsking());
  line.append(text('span', words), ' ', act);
  place.replaceChildren(text('h2', say('sheet.page.questions')), line);
}

function asking(question, brief) {
  const item = document.createElement('li');
  item.append(text('p', question.words, 'asked'));
  const answer = text('p', '', 'here');
  answer.append(typed(question.field, brief), ' ', text('span', question.between, 'between'));
  item.append(answer);
  if (question.why) item.append(text('p', question.why, 'note'));
  const turns = question.turns.length ? [say('sheet.page.turns', { what: question.turns.join('; ') })] : question.moves;
  for (const words of turns) item.append(text('p', words, 'note'));
  const more = document.createElement('details');
  more.append(text('summary', say('sheet.page.where-to-look')), text('p', question.look));
  if (question.caution) more.append(text('p', question.caution, 'caution'));
  item.append(more);
  return item;
}

export function showAssumed(place, assumed, brief) {
  const now = document.activeElement;
  if (place.contains(now) && now.matches('input')) return;
  const list = document.createElement('ul');
  list.append(
    ...assumed.map((each) => {
      const item = document.createElement('li');
      const line = document.createElement('p');
      line.append(text('code', each.path), ' ', typed(each.field, brief));
      item.append(line, text('p', [each.between, each.why].filter(Boolean).join('. '), 'note'));
      return item;
    }),
  );
  const head = document.createElement('summary');
  head.textContent = say('sheet.page.assumed-count', { number: assumed.length });
  const box = document.createElement('details');
  box.open = place.querySelector('details')?.open ?? false;
  box.append(head, list);
  place.replaceChildren(...(assumed.length ? [box] : [text('p', say('sheet.page.nothing-assumed'), 'note')]));
}

/** The one key that an answer lacks, with a place to type it, what it is, and ways to write it. */
export function typedPlace(part, path, brief) {
  const line = text('p', '', 'missing');
  if (!part) {
    line.append(say('sheet.page.in-record', { path }));
    return line;
  }
  if (part.within) {
    line.append(part.help, ' ', ...oneMore(part, brief), text('span', path, 'note'));
    return line;
  }
  line.append(part.help, ' ', part.add ? putIn(part, brief) : typed(part, brief));
  const ways = part.choices || part.add || !part.examples.length ? '' : say('sheet.page.ways', { ways: part.examples.join(say('sheet.page.or')) });
  line.append(text('span', [ways, part.path].filter(Boolean).join(' '), 'note'));
  return line;
}

/** An entry of a list that is still to come: it goes to the brief when nothing of it is lacking. */
function oneMore({ path, within }, brief) {
  const held = new Map();
  const keep = {
    type: ([{ path: at, typed: value }]) => {
      const key = at.slice(at.lastIndexOf('.') + 1);
      if (value === undefined) held.delete(key);
      else held.set(key, value);
      if (held.size === within.length) brief.type([{ path, added: Object.fromEntries(held) }]);
    },
  };
  return within.flatMap((part) => [text('span', part.help, 'asked'), ' ', typed(part, keep), ' ']);
}

/** What cannot be read, with the way to mend it. */
export function showMistakes(place, mistakes, goTo) {
  place.hidden = !mistakes.length;
  const list = document.createElement('ul');
  for (const { line, at, typed: words, wrong, instead } of mistakes) {
    const item = document.createElement('li');
    const where = press(line ? say('sheet.page.line', { line, at }) : at, () => goTo(line, at));
    item.append(where, ' ', text('span', words, 'was'), ' ', text('span', [wrong, instead].filter(Boolean).join(' ')));
    list.append(item);
  }
  place.replaceChildren(text('h2', say('sheet.page.to-mend')), list);
  for (const box of document.querySelectorAll('.field')) {
    const met = mistakes.some(({ at }) => at === box.dataset.path);
    if (met) box.setAttribute('aria-invalid', 'true');
    else box.removeAttribute('aria-invalid');
  }
}
