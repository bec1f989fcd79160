// <up-plan>: the floor's plan, drawn and changed by mouse, touch and keyboard.
//
// It holds the brief's text (property ``text``) and says each new one by the event ``plan-changed`` (detail.text). What
// is done goes to the server as an act; text, figures and drawing come back from there. It works out no length.

import { Ahead, ask } from './ask.js';
import { drawChain, drawPlan, fieldAt, shape } from './draw.js';
import { Drawing } from './drawing.js';
import { element, field, Foot, keep, show } from './foot.js';
import { frameOf } from './frame.js';
import { Hand } from './hand.js';
import { arrow, cornerMoved, figure, letter, obstacleMoved, sideMoved } from './keys.js';

const LEAST = 16; // m that an empty sheet shows across

export class UpPlan extends HTMLElement {
  #text = '';
  #before = []; // texts to go back to
  #mistakes = [];
  #turn = Promise.resolve();
  #words = null;
  plan = null; // as the server handed it
  preview = null; // as it would be if what is dragged were left here
  frame = null;
  key = ''; // of what is chosen
  step = ''; // of the snap, as typed
  size = '4 in'; // of the next obstacle, as typed

  /** The words it speaks with: the subject "plan" of the page's words. */
  get words() {
    this.#words ??= JSON.parse(document.getElementById('words').textContent).plan;
    return this.#words;
  }

  get text() {
    return this.#text;
  }

  set text(text) {
    if (text === this.#text && this.plan) return;
    this.#text = text;
    this.#before = [];
    this.plan = null;
    if (this.svg?.clientWidth) this.#look();
  }

  connectedCallback() {
    if (this.svg) return;
    if (Object.hasOwn(this, 'text')) { // set before this module was there
      this.#text = this.text;
      delete this.text;
    }
    const { words } = this;
    const spoken = { role: 'application', tabindex: 0, 'aria-label': words.sheet, 'aria-describedby': 'plan-keys' };
    this.svg = shape('svg', { class: 'leaf', ...spoken });
    this.long = field('', words['length-help'], (typed) => this.side({ do: 'length', typed }));
    this.long.label.className = 'length';
    this.spoken = element('p', { class: 'aside', role: 'status' });
    const foot = element('div', { class: 'foot' });
    const keys = element('p', { id: 'plan-keys' }, words.keys);
    this.append(
      element('div', { class: 'drawn' }, this.svg, this.long.label),
      this.spoken, foot,
      element('details', { class: 'keys' }, element('summary', {}, words['keys-word']), keys),
    );
    this.ahead = new Ahead();
    this.drawing = new Drawing(this);
    this.foot = new Foot(foot, words, this.#does());
    new Hand(this);
    this.svg.addEventListener('keydown', (event) => this.#pressed(event));
    this.addEventListener('keydown', (event) => {
      if (event.key.toLowerCase() !== 'z' || !(event.ctrlKey || event.metaKey) || event.target.matches('input')) return;
      event.preventDefault();
      this.undo();
    });
    this.svg.addEventListener('focusin', (event) => {
      const key = event.target.closest('[data-key]')?.dataset.key;
      if (key && !this.drawing.on) this.choose(key);
    });
    // out of sight it asks for nothing
    new ResizeObserver(() => (this.plan || !this.svg.clientWidth ? this.draw() : this.#look())).observe(this.svg);
  }

  say = (key, given = {}) => this.words[key].replace(/\{([\w-]+)\}/g, (_, name) => given[name] ?? '');

  /** What is chosen, with its side (a corner's is the one that begins there) or its obstacle; null where nothing is. */
  get chosen() {
    return this.meant(this.key);
  }

  meant(key) {
    const [kind, ring, number] = key.split('-').map((part, n) => (n ? Number(part) : part));
    if (kind === 'obstacle') {
      const obstacle = this.plan?.obstacles[number - 1];
      return obstacle ? { kind, ring: 0, number, obstacle } : null;
    }
    const side = this.plan?.rings[ring]?.sides.find((each) => each.number === number);
    return side ? { kind, ring, number, side } : null;
  }

  choose(key, focus = false) {
    if (key !== this.key) {
      keep(this, true);
      for (const end of [this.foot.from, this.foot.to]) show(end.input, '');
      this.key = key;
      this.draw();
    }
    if (focus) this.svg.querySelector(`[data-key="${key}"]`)?.focus();
  }

  /** Does an act with the chosen side. */
  side(act) {
    const { ring, number } = this.chosen ?? {};
    if (number) this.act({ ...act, ring, side: number });
  }

  /** Does an act once those before it are done; a function gives the act then, or nothing. null only looks. */
  act(act, then = () => {}) {
    this.ahead.drop();
    const done = async () => {
      const asked = typeof act === 'function' ? act() : act;
      if (asked === undefined) return;
      const sent = this.#text;
      const answer = await ask({ brief: sent, act: asked, step: this.step, chain: this.drawing.typed });
      this.preview = null;
      if (sent !== this.#text) return; // another text was set meanwhile, and is looked at next
      this.#took(answer);
      if (answer.done) then(answer);
      this.draw();
    };
    this.#turn = this.#turn.then(done).catch((cause) => {
      this.preview = null;
      this.tell(cause.message && !(cause instanceof TypeError) ? cause.message : this.words.away);
      this.draw();
    });
    return this.#turn;
  }

  #took(answer) {
    this.#mistakes = answer.mistakes;
    keep(this, answer.done);
    if (answer.drawn) {
      this.plan = answer.drawn;
      this.step ||= answer.drawn.step_words;
    }
    const wrong = answer.mistakes.map((each) => `${each.wrong} ${each.instead}`);
    this.tell([answer.words, ...wrong].filter(Boolean).join(' '));
    if (answer.done && answer.brief !== this.#text) {
      this.#before.push(this.#text);
      this.#changed(answer.brief);
    }
  }

  #changed(text) {
    this.#text = text;
    this.dispatchEvent(new CustomEvent('plan-changed', { bubbles: true, detail: { text } }));
  }

  #look() {
    return this.act(null);
  }

  tell(words) {
    this.spoken.textContent = words;
  }

  undo() {
    if (this.drawing.typed.length) return this.drawing.back();
    this.act(() => {
      const text = this.#before.pop();
      if (text === undefined) {
        this.tell(this.words['nothing-to-undo']);
        return undefined;
      }
      this.#changed(text);
      return null;
    }, (answer) => this.tell(this.say('undone', answer.drawn)));
  }

  /** A corner more in the chosen side, or in the side that begins at the chosen corner. */
  add(steps) {
    const { ring, number, kind } = this.chosen ?? {};
    if (!kind || kind === 'obstacle') return;
    this.act({ do: 'add-corner', ring, side: number, steps }, () => this.choose(`corner-${ring}-${number + 1}`, true));
  }

  take() {
    const { kind, ring, number } = this.chosen ?? {};
    if (kind === 'corner') this.act({ do: 'take-corner', ring, corner: number });
    if (kind === 'obstacle') this.act({ do: 'take-obstacle', number });
  }

  #does() {
    return {
      draw: (becomes) => this.drawing.begin({ becomes }),
      stand: (kind) => this.drawing.begin({ stand: kind }),
      undo: () => this.undo(),
      step: (typed) => {
        this.step = typed;
        this.#look();
      },
      long: (typed) => this.drawing.next(typed),
      close: () => this.drawing.close(),
      back: () => this.drawing.back(),
      leave: () => this.drawing.end(),
      bend: (typed) => this.side({ do: 'bend', typed }),
      name: (typed) => this.side({ do: 'name', typed }),
      give: (edge, start, end) => this.side({ do: 'give', edge, start, end }),
      takeEdge: (edge) => this.act({ do: 'take-edge', edge }),
      add: () => this.add(),
      take: () => this.take(),
      place: (axis, typed) => {
        const { ring, number } = this.chosen;
        const own = { ring, corner: number };
        this.act({ do: 'move-corner', ring, corner: number, to: { x: own, y: own, [axis]: { typed } } });
      },
      takeHole: () => this.act({ do: 'take-hole', ring: this.chosen.ring }, () => this.choose('')),
      size: (size) => {
        if (this.drawing.on) this.size = size;
        else this.act({ do: 'size-obstacle', number: this.chosen.number, size });
      },
    };
  }

  #pressed(event) {
    if (event.target.matches('input') || !this.plan) return;
    const did = this.drawing.on ? this.drawing.pressed(event) : this.#on_plan(event);
    if (did) event.preventDefault();
  }

  /** A key at a corner, a side or an obstacle; whether it meant something. */
  #on_plan(event) {
    const { chosen, plan } = this;
    const way = arrow(event.key);
    if (event.key === 'Escape') return this.choose(''), true;
    if (!chosen) return event.key === 'Enter' && !plan.rings[0].sides.length && (this.drawing.begin({ becomes: 'outline' }), true);
    if (way) {
      const moved = { corner: cornerMoved, side: sideMoved, obstacle: obstacleMoved }[chosen.kind];
      this.act(() => moved(this.chosen, way, this.plan.step) ?? undefined);
      return true;
    }
    if (event.key === 'Enter') return this.add(), true;
    if (event.key === 'Delete' || event.key === 'Backspace') return this.take(), true;
    if (chosen.kind === 'obstacle') return false;
    if (figure(event)) {
      this.choose(`side-${chosen.ring}-${chosen.number}`);
      this.long.input.value = event.key;
      this.long.input.focus();
      return true;
    }
    const edge = letter(event);
    if (edge) this.side({ do: 'give', edge });
    return edge !== '';
  }

  draw() {
    const plan = this.preview ?? this.plan;
    const { clientWidth: wide, clientHeight: high } = this.svg;
    if (!plan || !wide) return;
    if (!this.preview && !this.drawing.on) this.frame = frameOf(placesOf(plan), wide, high, LEAST);
    const focused = document.activeElement?.closest?.('[data-key]')?.dataset.key;
    const within = this.svg.contains(document.activeElement);
    this.svg.setAttribute('class', `leaf ${this.drawing.on ? `drawing ${this.drawing.on.becomes ?? 'stand'}` : ''}`);
    const seen = { chosen: this.key, words: this.words, say: this.say };
    this.svg.replaceChildren(...drawPlan(plan, this.frame, seen), ...drawChain(plan.chain, this.drawing.cursor, this.frame));
    if (within) (this.svg.querySelector(`[data-key="${focused}"]`) ?? this.svg).focus();
    const { chosen, drawing } = this;
    this.foot.show(plan, { chosen, drawing: drawing.on, mistakes: this.#mistakes, step: this.step, size: this.size, say: this.say });
    this.#measure(chosen?.kind === 'side' && !drawing.on ? chosen.side : null);
  }

  /** The chosen side's dimension, which can be typed over where it stands. */
  #measure(side) {
    this.long.label.hidden = !side;
    if (!side) return;
    show(this.long.input, side.length);
    const { x, y } = fieldAt(side, this.frame);
    this.long.label.style.left = `${x}px`;
    this.long.label.style.top = `${y}px`;
  }
}

const placesOf = (plan) => [
  ...plan.rings.flatMap((ring) => ring.sides.flatMap((side) => [side.corner, side.middle])),
  ...plan.chain.corners,
];

customElements.define('up-plan', UpPlan);
