// Handing over: the reply in three sentences, and the papers, which are made in the background.

import { Refused, ask, get, post } from '../talk/ask.js';
import { say } from '../talk/words.js';
import { press, text } from './answers.js';
import { typed } from './typed.js';

const PAPERS = ['submittal', 'submittal-chosen', 'one-page', 'guide', 'page'];
const CHOSEN = '-chosen'; // a paper that also says what is recommended
const LOOK = 400; // ms between two looks at what is being made

export class Handing {
  constructor(place, brief) {
    Object.assign(this, { place, brief, keys: {} });
    this.reply = text('div', '', 'reply');
    this.papers = text('div', '', 'papers');
    place.append(this.reply, this.papers);
    this.papers.append(text('h2', say('sheet.page.papers')), ...PAPERS.map((kind) => this.paper(kind)));
  }

  async open() {
    this.place.hidden = !this.place.hidden;
    if (this.place.hidden) return;
    this.place.scrollIntoView({ block: 'nearest' });
    this.reply.replaceChildren(text('p', say('sheet.page.working'), 'working'));
    this.brief.handedOut();
    const told = document.createElement('output');
    const { text: brief } = this.brief;
    const first = await this.told(brief, told);
    if (first?.whole !== false) return;
    await this.brief.questions();
    if (!this.place.hidden && brief === this.brief.text) await this.told(brief, told, true);
  }

  /** The reply as far as it is known; what is still needed may take long. */
  async told(brief, told, again = false) {
    const said = await this.brief.asking(() => post('/api/reply', { brief }));
    if (again && !said?.sentences?.length) return said;
    const words = said?.sentences?.join(' ') ?? '';
    const box = Object.assign(document.createElement('p'), { className: 'sentences', textContent: words || say('sheet.page.mend-first') });
    const copy = press(say('sheet.page.copy'), async () => {
      await navigator.clipboard.writeText(words);
      told.textContent = say('sheet.page.copied');
    });
    copy.className = 'main';
    this.reply.replaceChildren(text('h2', say('sheet.page.reply')), box, ...(words ? [copy, ' ', told] : []));
    if (!again) (words ? copy : box).focus();
    return said;
  }

  paper(kind) {
    const line = text('p', '', 'paper-line');
    const told = document.createElement('output');
    const make = press(say(`sheet.page.paper-${kind}`), () => this.make(kind, line, told, make));
    line.append(make, ' ', told);
    return line;
  }

  async make(kind, line, told, make, draft = false) {
    make.disabled = true;
    told.replaceChildren(say('sheet.page.making'));
    this.brief.handedOut();
    try {
      const asked = kind.endsWith(CHOSEN) ? { kind: kind.slice(0, -CHOSEN.length), choose: true } : { kind };
      let { job, ...state } = await post('/api/jobs', { ...asked, brief: this.brief.text, ...(draft ? { draft } : {}) });
      const stop = press(say('sheet.page.stop'), () => ask('DELETE', `/api/jobs/${job}`));
      do {
        state = await get(`/api/jobs/${job}`);
        told.replaceChildren(state.words ?? '', ' ', ...(ended(state) ? [] : [stop]));
        if (!ended(state)) await new Promise((resolve) => setTimeout(resolve, LOOK));
      } while (!ended(state));
      if (state.state === 'done') this.link(told, job, kind);
      else told.replaceChildren(...this.mending(state), ...(kind.startsWith('submittal') && !draft && state.state === 'refused' ? [this.asDraft(kind, line, told, make)] : []));
    } catch (cause) {
      told.replaceChildren(...(cause instanceof Refused ? this.mending(cause.told) : [say('sheet.page.away')]));
    }
    make.disabled = false;
  }

  asDraft(kind, line, told, make) {
    return press(say('sheet.page.as-draft'), () => this.make(kind, line, told, make, true));
  }

  /** What is to be mended, with a place to type what is lacking; then the paper is ordered again. */
  mending({ words = '', mistakes = [] }) {
    return [words, ...mistakes.map((m) => {
      const line = text('span', `${m.at}: ${m.wrong} ${m.instead ?? ''} `, 'mend');
      if (this.keys[m.at]) line.append(typed(this.keys[m.at], this.brief));
      return line;
    })];
  }

  link(told, job, kind) {
    const link = Object.assign(document.createElement('a'), { href: `/api/jobs/${job}/file`, target: '_blank', textContent: say('sheet.page.open-paper', { paper: say(`sheet.page.paper-${kind}`) }) });
    told.replaceChildren(link);
    link.focus();
  }
}

function ended({ state }) {
  return !['waiting', 'working'].includes(state);
}
