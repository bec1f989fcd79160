// The plan's talk with the server: every act is done there, and comes back as a text and as something to draw.

/** @returns {string} what the page was handed to sign its changes with */
const token = () => document.querySelector('meta[name="desk-token"]')?.content ?? '';

/**
 * @param {{brief: string, act: object|null, step: string, chain: string[]}} asked
 * @returns {Promise<object>} the brief, what is wrong, what is to be drawn
 */
export async function ask(asked) {
  const answer = await fetch('/api/plan', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', 'X-Desk-Token': token() },
    body: JSON.stringify(asked),
  });
  const told = await answer.json();
  if (!answer.ok) throw new Error(told.words ?? '');
  return told;
}

/** Looks ahead while something is dragged: one question at a time, the newest next, those between left out. */
export class Ahead {
  #away = false;
  #next = null;

  /** @param {() => object} asked @param {(answer: object) => void} shown */
  look(asked, shown) {
    this.#next = { asked, shown };
    if (!this.#away) this.#go();
  }

  drop() {
    this.#next = null;
    this.shown = null;
  }

  async #go() {
    this.#away = true;
    while (this.#next) {
      const { asked, shown } = this.#next;
      this.#next = null;
      this.shown = shown;
      const answer = await ask(asked()).catch(() => null);
      if (answer && this.shown === shown) shown(answer);
    }
    this.#away = false;
  }
}
