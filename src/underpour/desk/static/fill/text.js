// The back of the sheet: the brief as text, to be edited, taken away as a file, and put back. Nothing is lost.

import { say } from '../talk/words.js';

const PAUSE = 500; // ms after the last key

export class Back {
  constructor(sheet, brief) {
    Object.assign(this, { brief, front: document.getElementById('front'), back: document.getElementById('back') });
    this.text = document.getElementById('text');
    this.turners = [...document.querySelectorAll('.turn-over')];
    for (const turner of this.turners) turner.addEventListener('click', () => this.turn());
    document.getElementById('download').addEventListener('click', () => this.download());
    document.getElementById('upload').addEventListener('change', async (event) => {
      const [file] = event.target.files;
      if (file) this.take(await file.text());
      event.target.value = '';
    });
    this.text.addEventListener('input', () => {
      clearTimeout(this.waiting);
      this.waiting = setTimeout(() => brief.become(this.text.value, 'text'), PAUSE);
    });
    this.text.addEventListener('change', () => brief.become(this.text.value, 'text'));
  }

  /** What was typed elsewhere stands here as well, unless somebody types here. */
  show() {
    if (document.activeElement !== this.text && this.text.value !== this.brief.text) this.text.value = this.brief.text;
  }

  turn(line = 0) {
    const to = this.back.hidden;
    this.text.value = this.brief.text;
    this.back.hidden = !to;
    this.front.hidden = to;
    for (const turner of this.turners) turner.setAttribute('aria-pressed', String(to));
    if (to) this.at(line);
    else this.turners[0].focus();
  }

  /** The cursor on a line, counted from 1. */
  at(line) {
    const lines = this.text.value.split('\n');
    const start = lines.slice(0, Math.max(line - 1, 0)).join('\n').length + (line > 1 ? 1 : 0);
    this.text.focus();
    this.text.setSelectionRange(start, line ? start + lines[line - 1].length : 0);
  }

  take(text) {
    this.brief.become(text);
    this.text.value = text;
  }

  download() {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([this.brief.text], { type: 'application/toml' }));
    link.download = say('sheet.page.file');
    link.click();
    URL.revokeObjectURL(link.href);
    this.brief.handedOut();
  }
}
