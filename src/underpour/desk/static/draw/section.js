// The section that fills the sheet: tints below, the desk's lines and letters above, then what can be typed and dragged.

import { say } from '../talk/words.js';
import { text } from '../fill/answers.js';
import { renew } from '../fill/typed.js';
import { opened } from './field.js';
import { grip } from './grip.js';
import { Cross } from './cross.js';
import { elements, made } from './svg.js';

const BODY = ['hatches', 'lines', 'outlines'];

export class SectionSheet {
  /** @param {HTMLElement} place @param {import('../talk/brief.js').Brief} brief */
  constructor(place, brief) {
    Object.assign(this, { place, brief });
    this.paper = text('div', '', 'paper');
    this.field = document.createElement('up-field');
    this.picture = made('svg', { class: 'over', role: 'img' });
    this.rows = text('ul', '', 'rows');
    this.grips = text('div', '', 'grips');
    this.paper.append(this.field, this.picture, this.grips);
    place.append(this.paper, this.rows);
    this.cross = new Cross(this);
  }

  /** @param {object} drawn as it was sent @param {object} moment its cosine and sine @param {boolean} whole */
  show(drawn, moment, whole) {
    const same = this.drawn && this.drawn.edge === drawn.edge && this.drawn.alternative === drawn.alternative;
    const names = drawn.names ?? (same ? this.names : '');
    this.names = names;
    this.drawn = { ...drawn, field: opened(drawn.field) };
    this.moment = moment;
    const { wide, high, frame } = drawn;
    this.paper.style.setProperty('--millimetre', `calc(100cqw / ${wide})`);
    this.paper.style.setProperty('aspect-ratio', `${wide} / ${high}`);
    for (const [name, value, of] of [['left', frame.left, wide], ['top', frame.top, high], ['width', frame.width, wide], ['height', frame.height, high]]) {
      this.field.style.setProperty(name, `${(100 * value) / of}%`);
    }
    this.picture.setAttribute('viewBox', `0 0 ${wide} ${high}`);
    this.picture.setAttribute('aria-label', drawn.label);
    this.picture.replaceChildren(...this.layers(drawn, names, whole || drawn.names !== null));
    this.field.show(this.drawn, moment);
    this.showRows(drawn.layers, wide, high);
    if (!this.grips.querySelector('.dragged')) {
      this.grips.replaceChildren(...drawn.grips.map((each) => grip(each, this.drawn, this.brief)));
    }
    this.cross.again();
  }

  /** The tints of another month at once; its lines follow from the desk. */
  turn(moment) {
    if (!this.drawn) return;
    this.moment = moment;
    this.field.show(this.drawn, moment);
    this.picture.querySelector('.lines')?.classList.add('late');
    this.cross.again();
  }

  layers(drawn, names, fresh) {
    const group = (kind, inner, more = {}) => made('g', { class: kind, ...more }, ...elements(inner));
    const window_ = made('g', { 'clip-path': `url(#${drawn.prefix}-window)` }, ...BODY.map((name) => group(name, drawn[name])));
    const patterns = this.patternsOf(drawn.patterns);
    const clip = made('clipPath', { id: `${drawn.prefix}-air` }, made('path', { d: drawn.air }));
    const air = made('g', { class: `in-air${fresh ? '' : ' late'}`, 'clip-path': `url(#${drawn.prefix}-air)` }, ...elements(names));
    const body = made('g', { class: `in-body${fresh ? '' : ' late'}`, 'clip-path': `url(#${drawn.prefix}-solid)` }, ...elements(names));
    const stem = drawn.layers.inside ? [this.stem(drawn.layers)] : [];
    return [
      made('defs', {}, ...elements(drawn.clips), clip, ...patterns),
      window_,
      group('outside', drawn.border + drawn.marks + drawn.floor + drawn.bar),
      air,
      body,
      ...stem,
      made('g', { class: 'cross-layer' }),
    ];
  }

  /** Hatches, most of which a change leaves as they are: only the others are read anew. */
  patternsOf(patterns) {
    this.hatches = new Map(patterns.map((pattern) => [pattern, this.hatches?.get(pattern) ?? elements(pattern)[0]]));
    return [...this.hatches.values()];
  }

  /** The line through the floor's layers, with a dot in each. */
  stem({ along, rows }) {
    const first = rows[0].base - 1.2;
    const d = `M${along} ${first}V${rows.at(-1).depth}${rows.map(({ base }) => `M${along} ${base - 1.2}h1.6`).join('')}`;
    return made('g', { class: 'stem' }, made('path', { d }), ...rows.map(({ depth }) => made('circle', { cx: along, cy: depth, r: 0.5 })));
  }

  showRows({ along, inside, rows }, wide, high) {
    this.place.classList.toggle('listed', !inside);
    const items = [...this.rows.children];
    while (items.length > rows.length) items.pop().remove();
    rows.forEach((each, n) => {
      const item = items[n] ?? this.rows.appendChild(document.createElement('li'));
      item.style.setProperty('--x', `${(100 * (along + 2)) / wide}%`);
      item.style.setProperty('--y', `${(100 * each.base) / high}%`);
      renew(item, each.parts, this.brief);
    });
    (inside ? this.paper : this.place).append(this.rows);
    this.rows.setAttribute('aria-label', say('sheet.page.layers'));
  }
}
