// The key plan with its lettered edges: press a letter and that edge's section fills the sheet; press the plan to draw it.

import { picture } from '../draw/svg.js';
import { say } from '../talk/words.js';
import { press } from './answers.js';

export class KeyPlan {
  constructor(place, brief, fill) {
    Object.assign(this, { place, brief });
    this.letters = place.appendChild(Object.assign(document.createElement('div'), { className: 'letters' }));
    this.letters.setAttribute('role', 'group');
    this.letters.setAttribute('aria-label', say('sheet.page.edges'));
    this.drawn = press('', fill);
    this.drawn.className = 'plan outside';
    this.drawn.setAttribute('aria-label', say('sheet.page.draw-plan'));
    place.prepend(this.drawn);
  }

  show(plan, edges, now) {
    if (plan) this.drawn.replaceChildren(picture(plan));
    const had = this.letters.contains(document.activeElement) ? document.activeElement.textContent : '';
    this.letters.replaceChildren(
      ...edges.map(({ letter, kind }) => {
        const button = press(letter, () => this.brief.look({ edge: letter }));
        button.setAttribute('aria-pressed', String(letter === now));
        button.setAttribute('aria-label', say('sheet.page.edge', { letter, kind }));
        return button;
      }),
    );
    if (had) [...this.letters.children].find((each) => each.textContent === had)?.focus();
  }
}
