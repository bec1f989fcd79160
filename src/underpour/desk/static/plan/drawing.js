// An outline, a hole or an obstacle on its way into the plan: corner after corner, by pointer, by keys, by typed lengths.

import { known } from './drag.js';
import { frameOf, inPlan, isShown, onScreen } from './frame.js';
import { show } from './foot.js';
import { arrow, figure } from './keys.js';
import { nextLine, snap } from './snap.js';

export class Drawing {
  on = null; // {becomes: 'outline' or 'hole'} or {stand: kind}; null while nothing is drawn
  typed = []; // the corners so far, in the brief's words
  cursor = null; // {x, y, where, how, length}

  /** @param {import('./plan.js').UpPlan} sheet */
  constructor(sheet) {
    this.sheet = sheet;
  }

  begin(on) {
    const { sheet } = this;
    this.on = on;
    this.typed = [];
    sheet.choose('');
    const places = sheet.plan.rings[0].sides.map((side) => side.corner);
    const { wide, high } = sheet.frame;
    if (places.length && on.becomes === 'outline') this.#widen(places);
    const [x, y] = places.length ? inPlan(sheet.frame, { x: wide / 2, y: high / 2 }) : [0, 0];
    this.#aim(snap(x, y, { step: sheet.plan.step, reach: 0, corners: [] }));
    sheet.draw();
    sheet.svg.focus();
  }

  end() {
    this.on = null;
    this.typed = [];
    this.cursor = null;
    this.sheet.act(null);
  }

  /** What is pointed at, in px. */
  point(point, reach) {
    const { plan, frame } = this.sheet;
    const [x, y] = inPlan(frame, point);
    const chain = this.#chain();
    const corners = this.on.becomes === 'outline' ? chain : [...known(plan), ...chain];
    const around = { step: plan.step, reach: reach / frame.scale, corners, last: chain.at(-1), before: chain.at(-2) };
    this.#aim(snap(x, y, around));
  }

  /** Sets what is pointed at; with a length, so far along that way. */
  next(long = '') {
    const { sheet, on, cursor } = this;
    if (on.stand) {
      sheet.act({ do: 'stand', kind: on.stand, at: cursor.where, size: sheet.size }, (answer) => {
        this.on = this.cursor = null;
        sheet.choose(`obstacle-0-${answer.drawn.obstacles.length}`, true);
      });
      return;
    }
    if (!long && this.typed.length > 2 && this.#at_first()) return this.close();
    sheet.act({ do: 'next', at: cursor.where, long }, (answer) => this.#took(answer.drawn.chain));
  }

  close() {
    const becomes = this.on.becomes;
    this.sheet.act({ do: 'close', becomes }, (answer) => {
      this.on = this.cursor = null;
      this.typed = [];
      const ring = becomes === 'hole' ? answer.drawn.rings.length - 1 : 0;
      this.sheet.frame = null;
      this.sheet.plan = answer.drawn;
      this.sheet.choose(`side-${ring}-1`, true);
    });
  }

  back() {
    this.typed = this.typed.slice(0, -1);
    this.sheet.act(null, (answer) => this.#took(answer.drawn.chain));
  }

  /** A key while something is drawn; whether it meant something. */
  pressed(event) {
    const way = arrow(event.key);
    if (way) return this.#move(way), true;
    if (event.key === 'Enter') return this.next(), true;
    if (event.key === 'Escape') return this.end(), true;
    if (event.key === 'Backspace' || event.key === 'Delete') return this.typed.length && this.back(), true;
    if (figure(event) && this.typed.length) {
      const { input } = this.sheet.foot.long;
      input.value = event.key;
      input.focus();
      return true;
    }
    return false;
  }

  #took(chain) {
    const { sheet } = this;
    this.typed = chain.typed;
    show(sheet.foot.long.input, '');
    const last = this.#chain().at(-1);
    if (last) {
      const same = { ring: -1, corner: last.corner };
      this.cursor = { x: last.x, y: last.y, where: { x: same, y: same }, how: '' };
      if (!chain.corners.every((place) => isShown(sheet.frame, place, 40))) this.#widen(chain.corners);
    }
    sheet.svg.focus();
  }

  /** The arrows move the cross by the snap; the figure that does not change stays what it was taken for. */
  #move(way) {
    const { step } = this.sheet.plan;
    const { x, y, where } = this.cursor;
    const at = [x, y];
    const along = (axis, said) => (way[axis] ? { steps: nextLine(at[axis], step, way[axis]) } : said ?? { steps: Math.round(at[axis] / step) });
    const to = { x: along(0, where.x), y: along(1, where.y) };
    const moved = way.map((sign, axis) => (sign ? nextLine(at[axis], step, sign) * step : at[axis]));
    this.#aim({ x: moved[0], y: moved[1], where: to, how: 'grid' });
    if (!isShown(this.sheet.frame, moved, 20)) this.#widen([...this.sheet.plan.chain.corners, moved]);
    this.sheet.draw();
  }

  #aim(to) {
    const { sheet } = this;
    if (this.cursor && this.cursor.x === to.x && this.cursor.y === to.y && this.cursor.length) return;
    this.cursor = to;
    sheet.draw();
    if (!this.typed.length || this.on.stand) return;
    const asked = () => ({ brief: sheet.text, act: { do: 'next', at: to.where }, step: sheet.step, chain: this.typed });
    sheet.ahead.look(asked, (answer) => {
      if (this.cursor !== to || !answer.done) return;
      to.length = answer.drawn.chain.lengths.at(-1);
      sheet.tell(to.length);
      sheet.draw();
    });
  }

  #chain() {
    return this.sheet.plan.chain.corners.map(([x, y], n) => ({ ring: -1, corner: n + 1, x, y }));
  }

  #at_first() {
    const first = this.#chain()[0];
    return first && Math.hypot(first.x - this.cursor.x, first.y - this.cursor.y) < 1e-9;
  }

  /** More room round what is drawn: half as much again as it takes. */
  #widen(places) {
    const { sheet } = this;
    const { wide, high } = sheet.frame;
    const [middle, far] = [0, 1].map((axis) => places.map((place) => place[axis])).reduce(
      ([low, high_], along) => [[...low, Math.min(...along)], [...high_, Math.max(...along)]], [[], []]);
    const grown = [0, 1].map((axis) => (far[axis] - middle[axis]) / 2 + 2);
    sheet.frame = frameOf([middle.map((at, n) => at - grown[n]), far.map((at, n) => at + grown[n])], wide, high, 1);
  }
}
