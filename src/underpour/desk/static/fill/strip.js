// The strip of alternatives, each small and on the one scale. Press one to bring it up; with Shift for the difference.

import { opened } from '../draw/field.js';
import { elements, made } from '../draw/svg.js';
import { say } from '../talk/words.js';
import { text } from './answers.js';
import { putIn, takenOut } from './typed.js';

export class Strip {
  /** @param {HTMLElement} place @param {import('../talk/brief.js').Brief} brief @param {HTMLButtonElement} forMe choose for me */
  constructor(place, brief, forMe) {
    Object.assign(this, { place, brief, forMe, fields: [] });
    place.addEventListener('keydown', (event) => {
      const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
      const all = [...place.querySelectorAll('button.bring')];
      const at = all.indexOf(document.activeElement);
      if (by && at >= 0) all[at + by]?.focus();
    });
  }

  show(strip, moment, another) {
    const had = document.activeElement?.dataset?.version;
    const atForMe = document.activeElement === this.forMe;
    this.fields = [];
    this.place.replaceChildren(...strip.map((each) => this.one(each, moment)));
    const last = document.createElement('li');
    last.append(putIn(another, this.brief), this.forMe);
    this.place.append(last);
    if (atForMe) this.forMe.focus();
    this.choose();
    if (had) this.place.querySelector(`[data-version="${CSS.escape(had)}"]`)?.focus();
  }

  turn(moment) {
    for (const { field, drawn } of this.fields) field.show(drawn, moment);
  }

  /** Which is up, and which it is held against. */
  choose() {
    const { alternative, against } = this.brief.show;
    for (const bring of this.place.querySelectorAll('.bring')) {
      bring.setAttribute('aria-pressed', String(bring.dataset.version === alternative));
      bring.classList.toggle('against', bring.dataset.version === against);
    }
  }

  late(is) {
    this.place.classList.toggle('late', is);
  }

  one(each, moment) {
    const item = document.createElement('li');
    const bring = document.createElement('button');
    Object.assign(bring, { type: 'button', className: 'bring' });
    bring.dataset.version = each.name;
    const paper = text('span', '', 'small');
    paper.style.setProperty('aspect-ratio', `${each.wide} / ${each.high}`);
    const field = document.createElement('up-field');
    const over = made('svg', { viewBox: `0 0 ${each.wide} ${each.high}`, 'aria-hidden': 'true' });
    over.append(made('defs', {}, ...elements(each.defs)), made('g', { class: 'in-field' }, ...elements(each.outlines)));
    paper.append(field, over);
    const short = text('span', each.short, each.falls_short ? 'short' : '');
    const told = [each.corner, each.loses, each.warms].filter(Boolean).map((words) => text('span', words));
    bring.append(text('b', each.name), paper, ...told, short);
    const compare = Object.assign(document.createElement('button'), { type: 'button', className: 'compare', textContent: say('sheet.page.difference') });
    compare.setAttribute('aria-label', say('sheet.page.difference-to', { name: each.name }));
    bring.addEventListener('click', (event) => this.bring(each.name, event.shiftKey));
    compare.addEventListener('click', () => this.bring(each.name, true));
    item.append(bring, compare);
    if (each.path) item.append(takenOut({ out: each.path, label: say('sheet.page.take-out', { name: each.name }) }, this.goneFrom(each.name)));
    const drawn = { ...each, field: opened(each.field), tints: this.tints };
    this.fields.push({ field, drawn });
    queueMicrotask(() => field.show(drawn, moment));
    return item;
  }

  /** The brief, from which a version goes: where it is up, the brief itself comes up first. */
  goneFrom(name) {
    return {
      type: (changes) => {
        const { show } = this.brief;
        if (show.alternative === name) show.alternative = 'as briefed';
        if (show.against === name) show.against = '';
        this.brief.type(changes);
      },
    };
  }

  bring(name, against) {
    const { alternative, against: before } = this.brief.show;
    if (!against) this.brief.look({ alternative: name, against: '' });
    else this.brief.look({ against: before === name || name === alternative ? '' : name });
    this.choose();
  }
}
