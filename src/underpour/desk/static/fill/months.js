// The month strip: press a letter and the field is that month's; press it again, the mean of the year.

import { say } from '../talk/words.js';
import { press } from './answers.js';

export class Months {
  constructor(place, brief, turned) {
    Object.assign(this, { place, brief, turned });
  }

  show(months, now) {
    this.months = months;
    if (!this.place.childElementCount) {
      this.place.append(...months.slice(0, 12).map(({ letter, name }, n) => this.one(letter, name, n + 1)));
      this.said = this.place.appendChild(document.createElement('output'));
    }
    [...this.place.querySelectorAll('button')].forEach((button, n) => button.setAttribute('aria-pressed', String(n + 1 === now)));
    this.said.textContent = now ? say('sheet.page.in-month', { month: months[now - 1].name }) : say('sheet.page.in-mean');
  }

  one(letter, name, month) {
    const button = press(letter, () => this.press(month));
    button.setAttribute('aria-label', name);
    return button;
  }

  press(month) {
    const to = this.brief.show.month === month ? 0 : month;
    this.show(this.months, to);
    this.turned(this.moment(to));
    this.brief.look({ month: to });
  }

  /** @param {number} month nought is the mean of the year */
  moment(month) {
    return this.months.at(month - 1);
  }
}
