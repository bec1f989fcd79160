// The list: a file taken in as a brief, and words where the desk refuses or nobody answers. The rest is htmx.

import { Away, Refused, post } from '../talk/ask.js';

const words = JSON.parse(document.getElementById('words').textContent).list;
const refused = document.getElementById('refused');

function tell(text) {
  refused.textContent = text;
  refused.hidden = !text;
}

document.getElementById('import')?.addEventListener('change', async ({ target }) => {
  const [file] = target.files;
  if (!file) return;
  tell('');
  try {
    const brief = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(await file.arrayBuffer());
    const kept = await post('/api/briefs/import', { brief });
    location.assign(`/briefs/${kept.number}`);
  } catch (cause) {
    if (cause instanceof Refused) tell([cause.told.words, ...cause.told.mistakes.map(said)].join(' '));
    else if (cause instanceof Away) tell(words.away);
    else if (cause instanceof TypeError) tell(words['not-text']);
    else throw cause;
  }
  target.value = '';
});

function said(mistake) {
  const line = mistake.line ? words.line.replace('{line}', mistake.line) : '';
  return `${line} ${mistake.wrong} ${mistake.instead}`.trim();
}

document.addEventListener('htmx:before:request', () => tell(''));
document.addEventListener('htmx:response:error', ({ detail }) => tell(wordsOf(detail.ctx.text)));
document.addEventListener('htmx:error', () => tell(words.away));

function wordsOf(body) {
  try {
    return JSON.parse(body).words;
  } catch {
    return words.refused;
  }
}
