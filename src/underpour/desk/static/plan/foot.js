// The lines below the drawing: what is chosen and what can be typed or done with it, in words.

/** @returns {HTMLElement} */
export function element(name, given = {}, ...inside) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(given)) {
    if (key.startsWith('on')) made.addEventListener(key.slice(2), value);
    else if (value !== undefined) made.setAttribute(key, value);
  }
  made.append(...inside);
  return made;
}

/** A word that does something when it is pressed. */
export const press = (words, done, given = {}) => element('button', { type: 'button', onclick: done, ...given }, words);

/**
 * A field with its word before it. What is typed goes to the server when Enter is pressed or the field is left.
 * @param {string} word before it
 * @param {string} help for screen readers
 * @param {(typed: string) => void} typed
 */
export function field(word, help, typed) {
  const input = element('input', { type: 'text', autocomplete: 'off', spellcheck: 'false', 'aria-label': help });
  const send = () => {
    if (input.value === input.dataset.was) return;
    input.dataset.was = input.dataset.sent = input.value;
    typed(input.value);
  };
  input.addEventListener('change', send);
  input.addEventListener('keydown', (event) => {
    event.stopPropagation();
    if (event.key === 'Enter') send();
    if (event.key === 'Escape') input.value = input.dataset.was ?? '';
  });
  const label = element('label', {}, element('span', {}, word), input);
  return { label, input };
}

/** Words that were not done stay where they were typed, to be mended; any other field shows what stands. */
export function keep(home, done) {
  for (const input of home.querySelectorAll('input')) {
    if (!done && input.dataset.sent !== undefined) input.setAttribute('aria-invalid', 'true');
    else input.removeAttribute('aria-invalid');
    delete input.dataset.sent;
  }
}

/** What a field shows, left alone while somebody types in it and where what was typed is to be mended. */
export function show(input, value) {
  if (document.activeElement === input && input.value !== input.dataset.was) return;
  if (input.hasAttribute('aria-invalid')) return;
  input.value = value;
  input.dataset.was = value;
}

export class Foot {
  /** @param {HTMLElement} home @param {object} words @param {object} does what each word and field does */
  constructor(home, words, does) {
    this.words = words;
    this.does = does;
    const row = (name, ...inside) => home.appendChild(element('div', { class: `row ${name}` }, ...inside));
    this.state = row('state');
    this.kinds = element('select', { 'aria-label': words.stand });
    for (const kind of ['column', 'post', 'pipe', 'drain', 'pit']) {
      this.kinds.append(element('option', { value: kind }, words[kind]));
    }
    this.draw = press(words.draw, () => does.draw('outline'));
    this.hole = press(words.hole, () => does.draw('hole'));
    this.stand = press(words.stand, () => does.stand(this.kinds.value));
    this.standing = element('span', { class: 'together' }, this.stand, this.kinds);
    this.undo = press(words.undo, does.undo);
    this.step = field(words.step, words['step-help'], does.step);
    row('acts', this.draw, this.hole, this.standing, this.undo, this.step.label);

    this.long = field(words.long, words['long-help'], does.long);
    this.close = press(words.close, does.close);
    this.where = element('span');
    this.back = press(words.back, does.back);
    this.leave = press(words.leave, does.leave);
    this.drawing = row('drawing', this.where, this.long.label, this.close, this.back, this.leave);

    this.named = element('b');
    this.bow = field(words.bow, words['bow-help'], does.bend);
    this.name = field(words.name, words['name-help'], does.name);
    this.letters = element('span', { class: 'letters', role: 'group', 'aria-label': words['give-label'] });
    this.from = field(words.from, words['from-help'], () => {});
    this.to = field(words.to, words['to-help'], () => {});
    this.add = press(words['add-corner'], does.add);
    this.side = row(
      'side-row', this.named, this.bow.label, this.name.label,
      element('span', { class: 'together' }, words['give-label'], this.letters, this.from.label, this.to.label),
      this.add,
    );
    this.corner = element('b');
    this.x = field(words.x, words['x-help'], (typed) => does.place('x', typed));
    this.y = field(words.y, words['y-help'], (typed) => does.place('y', typed));
    this.take = press(words['take-corner'], does.take);
    this.takeHole = press(words['take-hole'], does.takeHole);
    this.corners = row('corner-row', this.corner, this.x.label, this.y.label, this.take);
    this.holes = row('hole-row', this.takeHole);
    this.obstacle = element('b');
    this.size = field(words.size, words['size-help'], does.size);
    this.obstacles = row('obstacle-row', this.obstacle, this.size.label, press(words['take-obstacle'], does.takeObstacle));
    this.edges = row('edges');
    this.mistakes = home.appendChild(element('ul', { class: 'mistakes' }));
  }

  /** @param {object} plan @param {{chosen: object|null, drawing: object|null, mistakes: object[], say: Function}} now */
  show(plan, { chosen, drawing, mistakes, step, size, say }) {
    const { words } = this;
    const drawn = plan.rings[0].sides.length > 0;
    this.state.replaceChildren();
    if (plan.area) this.state.append(element('span', {}, `${say('area', plan)}, ${say('around', plan)}`));
    else if (!drawn && !drawing) this.state.append(words.empty);
    if (plan.bare) this.state.append(element('span', { class: 'bare' }, plan.bare));
    this.draw.textContent = drawn ? words.redraw : words.draw;
    this.hole.hidden = this.standing.hidden = !drawn;
    for (const each of [this.draw, this.hole, this.stand]) each.disabled = !!drawing;
    show(this.step.input, step);

    this.drawing.hidden = !drawing;
    if (drawing) {
      const n = plan.chain.corners.length;
      this.where.textContent = drawing.stand ? say('place-here', { n: words[drawing.stand] }) : say('drawing', { n: n + 1 });
      this.long.label.hidden = !n || !!drawing.stand;
      this.close.hidden = n < 3;
      this.back.hidden = !n;
    }
    const side = chosen?.kind === 'side' ? chosen.side : null;
    this.side.hidden = !side || !!drawing;
    if (side) {
      this.named.textContent = say('named-side', { n: chosen.ring ? `${chosen.ring}.${side.number}` : side.number });
      show(this.bow.input, side.bend);
      show(this.name.input, side.name);
      this.#letters(plan, side);
    }
    const corner = chosen?.kind === 'corner' ? chosen.side : null;
    this.corners.hidden = !corner || !!drawing;
    if (corner) {
      this.corner.textContent = say('named-corner', { n: chosen.ring ? `${chosen.ring}.${corner.number}` : corner.number });
      show(this.x.input, corner.corner_x);
      show(this.y.input, corner.corner_y);
    }
    this.holes.hidden = !chosen?.ring || !!drawing;
    const obstacle = chosen?.kind === 'obstacle' ? chosen.obstacle : null;
    this.obstacles.hidden = !obstacle && !drawing?.stand;
    if (obstacle || drawing?.stand) {
      this.obstacle.textContent = obstacle ? `${words[obstacle.kind]}, ${obstacle.at_words}` : words[drawing.stand];
      this.obstacles.lastChild.hidden = !obstacle;
      show(this.size.input, obstacle ? obstacle.size : size);
    }
    this.#edges(plan, side);
    this.mistakes.replaceChildren(
      ...mistakes.filter((each) => !plan.bare || each.at !== 'edge').map((each) => element('li', {}, element('b', {}, each.wrong), ` ${each.instead}`)),
    );
  }

  /** The letters that a side may be given to; the next free one makes an edge. */
  #letters(plan, side) {
    const has = new Set(side.lines.flatMap((line) => line.edges));
    const focused = this.letters.contains(document.activeElement) ? document.activeElement.dataset.edge : '';
    const offered = plan.edges.map((edge) => edge.letter);
    if (plan.next_letter) offered.push(plan.next_letter);
    this.letters.replaceChildren(
      ...offered.map((edge) => {
        const made = !plan.edges.some((each) => each.letter === edge);
        const spoken = this.#say(made ? 'give-new' : 'give', { edge });
        const given = { 'data-edge': edge, 'aria-label': spoken, title: spoken, 'aria-pressed': has.has(edge) };
        return press(made ? `+ ${edge}` : edge, () => this.does.give(edge, this.from.input.value, this.to.input.value), given);
      }),
    );
    if (focused) this.letters.querySelector(`[data-edge="${focused}"]`)?.focus();
  }

  #edges(plan, side) {
    const SVG = 'http://www.w3.org/2000/svg';
    this.edges.replaceChildren(
      ...plan.edges.map((edge) => {
        const sample = document.createElementNS(SVG, 'svg');
        sample.setAttribute('aria-hidden', 'true');
        const line = document.createElementNS(SVG, 'path');
        for (const [key, value] of [['d', 'M3 10h54'], ['class', 'edge'], ['stroke-dasharray', edge.dashes]]) {
          if (value) line.setAttribute(key, value);
        }
        sample.append(line);
        const said = element('span', {}, element('b', {}, edge.letter), sample, edge.name ? `${edge.name}: ${edge.words}` : edge.words);
        const taken = plan.edges.length > 1 && side?.lines.some((line) => line.edges.includes(edge.letter));
        if (taken) said.append(' ', press(this.#say('take-edge', { edge: edge.letter }), () => this.does.takeEdge(edge.letter)));
        return said;
      }),
    );
  }

  #say(key, given) {
    return this.words[key].replace(/\{([\w-]+)\}/g, (_, name) => given[name] ?? '');
  }
}
