// Choose for me: worked out in the background, put beside the brief as alternatives, and told below the strip in words.

import { Refused, ask, get, post } from '../talk/ask.js';
import { say } from '../talk/words.js';
import { press, text } from './answers.js';

const LOOK = 400; // ms between two looks at how far it is
const UNDER_WAY = ['waiting', 'working'];

export class Choosing {
  /**
   * @param {{place: HTMLElement, head: HTMLElement, told: HTMLElement, choice: HTMLElement}} parts
   * @param {import('../talk/brief.js').Brief} brief
   * @param {(line: number) => void} goTo a line of the brief's text
   * @param {import('./answers.js').Answers} answers
   */
  constructor(parts, brief, goTo, answers) {
    Object.assign(this, parts, { brief, goTo, answers, of: [] });
    this.act = press(say('sheet.page.choose'), () => this.begin());
    this.act.className = 'for-me';
    this.act.setAttribute('aria-label', say('sheet.page.choose-help'));
  }

  async begin() {
    if (this.working) return;
    this.working = true;
    const { text: brief } = this.brief;
    this.of = [brief];
    this.place.hidden = false;
    this.choice.replaceChildren();
    this.say(say('sheet.page.choosing'));
    try {
      await this.until(await post('/api/choose', { brief }), brief);
    } catch (cause) {
      this.say(cause instanceof Refused ? (cause.told?.words ?? '') : say('sheet.page.away'));
    } finally {
      this.working = false;
    }
  }

  async until({ job }, brief) {
    const stop = press(say('sheet.page.stop'), () => ask('DELETE', `/api/choose/${job}`));
    this.told.after(stop);
    try {
      for (;;) {
        const state = await get(`/api/choose/${job}`);
        if (!UNDER_WAY.includes(state.state)) {
          this.ended(state, brief);
          return;
        }
        this.say(state.words);
        await new Promise((resolve) => setTimeout(resolve, LOOK));
      }
    } finally {
      if (document.activeElement === stop) this.head.focus();
      stop.remove();
    }
  }

  ended({ words, mistakes, chosen }, brief) {
    if (!chosen) {
      this.say(words);
      this.choice.replaceChildren(...this.mending(mistakes));
      return;
    }
    const typedMeanwhile = this.brief.text !== brief;
    this.say(typedMeanwhile ? say('sheet.page.typed-meanwhile') : chosen.notes.join(' '));
    this.choice.replaceChildren(...this.parts(chosen.said));
    this.of = typedMeanwhile ? [] : [brief, chosen.brief];
    if (!typedMeanwhile) this.brief.become(chosen.brief);
  }

  say(words) {
    if (this.told.textContent !== words) this.told.textContent = words;
  }

  /** The brief is another than the one that this was chosen for: said, not taken away. */
  stale() {
    if (this.working || !this.of.length || this.of.includes(this.brief.text)) return;
    this.of = [];
    this.say(say('sheet.page.chosen-before'));
  }

  parts(said) {
    const made = [text('p', say('sheet.page.mind-safety', { words: said.safety }), 'caution')];
    made.push(...said.says.map((words) => text('p', words, 'says')), text('p', said.by, 'note'));
    if (said.whichever.length) made.push(text('h3', say('sheet.page.whichever')), this.reasons(said.whichever));
    if (said.open.length) {
      made.push(text('h3', say('sheet.page.cannot-yet')), list(said.open.map((each) => text('li', say('sheet.page.type-key', each)))));
    }
    if (said.second) made.push(text('h3', say('sheet.page.second')), text('p', `${said.second.name}. ${said.second.why}`));
    if (said.to_win.length) made.push(text('h3', say('sheet.page.to-win')), list(said.to_win.map((words) => text('li', words))));
    made.push(text('h3', say('sheet.page.not-others')));
    made.push(said.refused.length ? list(said.refused.map((row) => this.refused(row)), 'refused') : text('p', say('sheet.page.nothing-refused')));
    const tried = document.createElement('details');
    tried.append(text('summary', say('sheet.page.what-tried')), ...said.searched.map((words) => text('p', words, 'note')));
    made.push(text('p', said.bounds, 'note'), tried);
    return made;
  }

  refused({ name, cost, reasons, more: others }) {
    const item = document.createElement('li');
    item.append(text('b', cost ? say('sheet.page.refused-by', { name, cost }) : name), this.reasons(reasons.slice(0, 1)));
    if (reasons.length > 1) {
      const more = document.createElement('details');
      const head = text('summary', say('sheet.page.more-refuse', { number: reasons.length - 1 }));
      head.setAttribute('aria-label', `${head.textContent}: ${name}`);
      more.append(head, this.reasons(reasons.slice(1)));
      item.append(more);
    }
    if (others) item.append(text('p', others, 'note'));
    return item;
  }

  /** What refuses, each with its finding; where the brief has the same finding, a press goes there. */
  reasons(reasons) {
    return list(
      reasons.map(({ id, key, title, where, numbers, words }) => {
        const item = document.createElement('li');
        item.append(text('span', [title, where].filter(Boolean).join(', '), 'title'), numbers ? `: ${numbers}. ` : '. ', words, ' ', text('code', id));
        if (this.answers.has(key)) {
          const to = press(say('sheet.page.to-finding'), () => this.answers.bring(key));
          to.setAttribute('aria-label', `${to.textContent}: ${title}`);
          item.append(' ', to);
        }
        return item;
      }),
    );
  }

  /** What is to be mended first, each with the way to its line. */
  mending(mistakes) {
    if (!mistakes.length) return [];
    const items = mistakes.map(({ line, at, wrong, instead }) => {
      const item = document.createElement('li');
      const where = press(line ? say('sheet.page.line', { line, at }) : at, () => this.goTo(line));
      item.append(where, ' ', [wrong, instead].filter(Boolean).join(' '));
      return item;
    });
    return [text('p', say('sheet.page.choose-mend')), list(items)];
  }
}

function list(items, kind = '') {
  const made = document.createElement('ul');
  if (kind) made.className = kind;
  made.append(...items);
  return made;
}
