// The brief's text is the one state. What is typed changes the text, the text is answered, the answer is drawn.

import { Away, Refused, ask, post } from './ask.js';

const CALM = 500; // ms without a change before everything is worked out
const QUIET = 1200; // ms after that before it is asked what would decide
const AGAIN = 2000; // ms before the desk is asked again whether it is back
const UNDER_WAY = ['waiting', 'working', 'left'];
const REMEMBERED = 200; // texts that can be gone back to

/**
 * Tells what happens by events: `told` (an answer, or mistakes), `asking` (working, or not), `asked` (what to ask the
 * caller), `kept` (saved), `raced` (somebody else was faster), `away` and `back`, `refused`.
 */
export class Brief extends EventTarget {
  /** @param {{number: number, version: number, brief: string}} kept @param {object} show */
  constructor(kept, show) {
    super();
    Object.assign(this, { number: kept.number, version: kept.version, text: kept.brief, saved: kept.brief, show });
    this.sheet = crypto.randomUUID();
    this.sitting = crypto.randomUUID();
    this.turn = 0;
    this.before = [];
    this.after = [];
    this.chain = Promise.resolve();
    this.away = false;
  }

  /** Words typed at places of the brief; one after another, since each stands on the text before it. */
  type(changes, { sameAs = null } = {}) {
    performance.mark('typed');
    const next = this.chain.then(async () => {
      const said = await this.asking(() => post('/api/edit', { brief: this.text, changes }));
      if (!said) return;
      if (said.mistakes?.length && said.brief === this.text) this.tell('told', { read: false, mistakes: said.mistakes });
      this.become(said.brief, sameAs);
    });
    this.chain = next.catch(() => {}); // what broke is said by the browser; the next words are taken all the same
    return next;
  }

  /** Another text. Changes with the same `sameAs` are one to go back over: a word is not undone letter by letter. */
  become(text, sameAs = null) {
    if (text === this.text) return;
    if (sameAs === null || sameAs !== this.sameAs) this.before.push(this.text);
    if (this.before.length > REMEMBERED) this.before.shift();
    this.after = [];
    this.sameAs = sameAs;
    this.put(text);
  }

  undo() {
    if (!this.before.length) return;
    this.after.push(this.text);
    this.sameAs = null;
    this.put(this.before.pop());
  }

  redo() {
    if (!this.after.length) return;
    this.before.push(this.text);
    this.sameAs = null;
    this.put(this.after.pop());
  }

  put(text) {
    this.text = text;
    this.remember();
    this.answer(true);
  }

  /** Looked at otherwise: another edge, month or alternative. */
  look(show) {
    Object.assign(this.show, show);
    this.answer();
  }

  /** At once what moves, everything once it is calm. Only the last turn counts; one first answer is asked at a time. */
  async answer(typed = false) {
    this.turn += 1;
    clearTimeout(this.calm);
    if (typed) this.tell('asking', { working: true });
    if (this.flying) return;
    this.flying = true;
    try {
      let turn;
      do {
        turn = this.turn;
        const said = await this.asking(() => this.question('first'));
        if (this.away || turn !== this.turn) continue;
        if (said) this.tell('told', said);
        if (said?.stage === 'whole' || said?.read === false) this.settled(said);
        else this.calm = setTimeout(() => this.everything(), CALM);
      } while (turn !== this.turn && !this.away);
    } finally {
      this.flying = false;
    }
  }

  async everything() {
    const turn = this.turn;
    const said = await this.asking(() => this.question('whole'));
    if (!said || said.late || turn !== this.turn) return;
    this.tell('told', said);
    this.settled(said);
  }

  async settled(said) {
    const turn = this.turn;
    this.tell('asking', { working: false });
    await this.keep();
    if (!said.read || this.askedOf === this.text) return;
    await new Promise((resolve) => setTimeout(resolve, QUIET));
    if (turn === this.turn) await this.questions();
  }

  /** What would decide: told on the way how far it is, until it is there or somebody stops it. */
  questions(anew = false) {
    const { text } = this;
    if (anew || this.pursued?.text !== text) this.pursued = { text, end: this.pursue(text) };
    return this.pursued.end;
  }

  async pursue(text) {
    this.unasked = null;
    for (;;) {
      const said = await this.asking(() => post('/api/ask', { brief: text }));
      if (!said || text !== this.text || this.unasked === text) return;
      this.tell('asked', said);
      if (said.state === 'done') this.askedOf = text;
      if (!UNDER_WAY.includes(said.state)) return;
    }
  }

  /** Nobody waits for what would decide. */
  stopAsking() {
    const { text: brief } = this;
    this.unasked = brief;
    this.tell('asked', { state: 'stopped' });
    return this.asking(() => post('/api/ask', { brief, stop: true }));
  }

  /** A line may soon be drawn: the desk makes its sizes ready. */
  ahead(path) {
    const wish = `${path}\n${this.text}`;
    if (this.away || this.wish === wish) return;
    this.wish = wish;
    this.asking(() => post('/api/ahead', { brief: this.text, path }));
  }

  question(stage) {
    const { text: brief, turn, sheet, show } = this;
    return post('/api/answer', { brief, stage, turn, sheet, show });
  }

  /** Saved in the book, on what it stood on when it was opened. */
  async keep() {
    if (this.text === this.saved || !this.number) return;
    const { text } = this;
    try {
      const kept = await ask('PUT', `/api/briefs/${this.number}`, { brief: text, version: this.version, sitting: this.sitting });
      Object.assign(this, { saved: text, version: kept.version });
      sessionStorage.removeItem(this.drawer);
      this.tell('kept', kept);
    } catch (cause) {
      if (cause instanceof Away) this.gone();
      else if (cause instanceof Refused && cause.status === 409) this.tell('raced', cause.told);
      else if (cause instanceof Refused) this.tell('refused', cause.told);
      else throw cause;
    }
  }

  /** The text went out as a file or a paper, or was said to somebody: it stays in the history, and a new step begins. */
  async handedOut() {
    await this.keep();
    this.sitting = crypto.randomUUID();
  }

  /** What nobody saved yet outlives the window's being loaded anew. */
  remember() {
    sessionStorage.setItem(this.drawer, JSON.stringify({ version: this.version, text: this.text }));
  }

  remembered() {
    const held = JSON.parse(sessionStorage.getItem(this.drawer) ?? 'null');
    return held && held.version === this.version && held.text !== this.text ? held.text : null;
  }

  get drawer() {
    return `brief-${this.number}`;
  }

  /** What is asked of the desk; null where nobody answered or it was refused. */
  async asking(question) {
    try {
      const said = await question();
      if (this.away) this.back();
      return said;
    } catch (cause) {
      if (cause instanceof Away) this.gone();
      else if (cause instanceof Refused) this.tell('refused', cause.told);
      else throw cause;
      return null;
    }
  }

  gone() {
    if (!this.away) this.tell('away');
    this.away = true;
    clearTimeout(this.waiting);
    this.waiting = setTimeout(async () => {
      if (await this.asking(() => ask('GET', '/api/choices'))) this.answer();
    }, AGAIN);
  }

  back() {
    this.away = false;
    this.tell('back');
  }

  tell(name, detail = null) {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
}
