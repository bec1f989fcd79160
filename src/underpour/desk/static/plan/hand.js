// Mouse, pen and finger on the plan: press chooses, drag moves, two presses put a corner in.

import { dragged } from './drag.js';
import { inPlan } from './frame.js';

const SLIPPED = { mouse: 3, pen: 6, touch: 10 }; // px that a press may slip and still be one
const REACH = { mouse: 10, pen: 14, touch: 22 }; // px that the snap reaches

export class Hand {
  #held = null;

  /** @param {import('./plan.js').UpPlan} sheet */
  constructor(sheet) {
    this.sheet = sheet;
    const on = (name, does) => sheet.svg.addEventListener(name, does);
    on('pointerdown', (event) => this.#down(event));
    on('mousedown', (event) => this.#held?.kind && event.preventDefault()); // the focus is where it was put
    on('pointermove', (event) => this.#move(event));
    on('pointerup', (event) => this.#up(event));
    on('pointercancel', () => this.#drop());
    on('dblclick', (event) => this.#twice(event));
  }

  #down(event) {
    const { sheet } = this;
    if (event.button || !sheet.plan) return;
    const point = this.#point(event);
    this.#held = { start: point, moved: false };
    if (sheet.drawing.on) return sheet.drawing.point(point, REACH[event.pointerType]);
    const key = event.target.closest('[data-key]')?.dataset.key ?? '';
    const bow = !!event.target.closest('[data-bow]');
    if (key) {
      this.#held = { ...this.#held, ...sheet.meant(key), bow };
      sheet.svg.setPointerCapture(event.pointerId);
    } else if (!sheet.plan.rings[0].sides.length) {
      sheet.drawing.begin({ becomes: 'outline' });
      sheet.drawing.point(point, REACH[event.pointerType]);
    }
    sheet.choose(key, true);
  }

  #move(event) {
    const { sheet } = this;
    const point = this.#point(event);
    const held = this.#held;
    if (held) held.moved ||= Math.hypot(point.x - held.start.x, point.y - held.start.y) > SLIPPED[event.pointerType];
    if (sheet.drawing.on) {
      if (event.pointerType === 'mouse' || held) sheet.drawing.point(point, REACH[event.pointerType]);
      return;
    }
    if (!held?.kind || !held.moved) return;
    const act = this.#act(point, event.pointerType);
    const asked = () => ({ brief: sheet.text, act, step: sheet.step, chain: [] });
    sheet.ahead.look(asked, (answer) => {
      if (!this.#held || !answer.drawn) return;
      sheet.preview = answer.drawn;
      sheet.draw();
    });
  }

  #up(event) {
    const { sheet } = this;
    const [held, point] = [this.#held, this.#point(event)];
    if (sheet.drawing.on && held) {
      this.#held = null;
      sheet.drawing.point(point, REACH[event.pointerType]);
      return sheet.drawing.next();
    }
    if (held?.kind && held.moved) sheet.act(this.#act(point, event.pointerType));
    this.#held = null;
  }

  #drop() {
    this.#held = null;
    this.sheet.ahead.drop();
    this.sheet.preview = null;
    this.sheet.draw();
  }

  #act(point, kind) {
    const { plan, frame } = this.sheet;
    return dragged(this.#held, point, { plan, frame, reach: REACH[kind] });
  }

  #twice(event) {
    const { sheet } = this;
    const { chosen } = sheet;
    if (sheet.drawing.on || chosen?.kind !== 'side') return;
    const [x, y] = inPlan(sheet.frame, this.#point(event));
    const [a, b] = [chosen.side.lines[0].start, chosen.side.lines.at(-1).end];
    const along = ((x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1])) / chosen.side.along;
    const steps = Math.round(along / sheet.plan.step);
    sheet.add(steps > 0 && steps * sheet.plan.step < chosen.side.along ? steps : null);
  }

  #point(event) {
    const box = this.sheet.svg.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  }
}
