// The sheet: what is told is put where it belongs, and what is pressed goes to the brief.

import './draw/field.js';
import { readings } from './draw/cross.js';
import { SectionSheet } from './draw/section.js';
import { elements, made } from './draw/svg.js';
import { Answers, press, text } from './fill/answers.js';
import { Choosing } from './fill/choose.js';
import { Handing } from './fill/hand.js';
import { showAssumed, showMistakes, showQuestions } from './fill/margin.js';
import { Months } from './fill/months.js';
import { showNotes } from './fill/notes.js';
import { KeyPlan } from './fill/plan.js';
import { Strip } from './fill/strip.js';
import { Back } from './fill/text.js';
import { lists, renew } from './fill/typed.js';
import { get } from './talk/ask.js';
import { Brief } from './talk/brief.js';
import { say } from './talk/words.js';

const one = (id) => document.getElementById(id);
const MILLIMETRE = 3.8; // px at which the drawing's letters are 14 px high
const [LEAST, MOST] = [84, 420]; // mm

const kept = JSON.parse(one('kept').textContent);
const wide = () => Math.round(Math.min(Math.max(one('drawing').clientWidth / MILLIMETRE, LEAST), MOST));
const brief = new Brief(kept, { alternative: 'as briefed', edge: '', month: 1, lanes: false, against: '', wide: wide() });
const section = new SectionSheet(one('drawing'), brief);
const answers = new Answers(one('answers'), one('counted'), brief, (line) => brief.look({ edge: line.edge, ...(line.month ? { month: line.month } : {}) }));
const choosing = new Choosing({ place: one('chosen'), head: one('chosen-head'), told: one('choosing'), choice: one('choice') }, brief, (line) => back.turn(line), answers);
const strip = new Strip(one('strip'), brief, choosing.act);
const months = new Months(one('months'), brief, (moment) => {
  section.turn(moment);
  strip.turn(moment);
});
const plan = new KeyPlan(one('key-plan'), brief, fillWithPlan);
const back = new Back(document.body, brief);
const handing = new Handing(one('handing'), brief);
let units = '';

brief.addEventListener('told', ({ detail: told }) => {
  performance.mark('told');
  showMistakes(one('mistakes'), told.mistakes ?? [], (line) => back.turn(line));
  back.show();
  choosing.stale();
  if (!one('plan-place').hidden && one('plan-editor').text !== brief.text) one('plan-editor').text = brief.text;
  document.body.classList.toggle('unread', !told.read);
  if (told.read) show(told.sheet, told.stage === 'whole');
  one('undo').disabled = !brief.before.length;
  one('redo').disabled = !brief.after.length;
  document.body.dataset.turn = String(told.turn ?? brief.turn);
  document.body.dataset.stage = told.read ? told.stage : 'mistaken';
  requestAnimationFrame(() => performance.mark('drawn', { detail: told.turn }));
});
brief.addEventListener('asking', ({ detail }) => {
  document.body.classList.toggle('working', detail.working);
  if (detail.working) strip.late(true);
});
brief.addEventListener('asked', ({ detail }) => showQuestions(one('questions'), detail, brief));
brief.addEventListener('kept', ({ detail }) => state(say('sheet.page.kept', { version: detail.version })));
brief.addEventListener('away', () => state(say('sheet.page.away'), true));
brief.addEventListener('back', () => state(say('sheet.page.back')));
brief.addEventListener('refused', ({ detail }) => state(detail?.words ?? say('sheet.page.away'), true));
brief.addEventListener('raced', ({ detail }) => raced(detail));

async function show(sheet, whole) {
  if (sheet.units !== units) {
    units = sheet.units;
    get(`/api/readings/${units}`).then((words) => Object.assign(readings, words));
  }
  await ready;
  const moment = months.moment ? sheet.months.at(sheet.month - 1) : null;
  months.show(sheet.months, sheet.month);
  renew(one('title'), [sheet.title], brief);
  renew(one('sentence'), sheet.sentence, brief);
  renew(one('edge-sentence'), sheet.edge, brief);
  renew(one('floor-sentence'), sheet.on_floor, brief);
  one('fixed').textContent = sheet.fixed;
  one('head').textContent = sheet.section.head;
  section.show(sheet.section, moment, whole);
  plan.show(sheet.plan, sheet.edges, sheet.section.edge);
  answers.show(sheet, whole);
  showAssumed(one('assumed'), sheet.assumed, brief);
  one('lanes').setAttribute('aria-pressed', String(brief.show.lanes));
  one('lane-words').textContent = sheet.section.lanes;
  const row = sheet.section.apart || sheet.scale.tints;
  one('scale').replaceChildren(made('svg', { viewBox: `0 0 ${sheet.scale.wide + (sheet.section.apart ? 40 : 0)} ${sheet.scale.high}`, class: 'outside', role: 'img', 'aria-label': say('sheet.page.scale') }, ...elements(row)));
  one('size').textContent = sheet.size;
  one('number').textContent = sheet.number ? say('sheet.page.number', { number: sheet.number }) : '';
  one('prepared').textContent = sheet.prepared;
  one('units').textContent = say(units === 'US' ? 'sheet.page.to-si' : 'sheet.page.to-us');
  if (!whole) return;
  handing.keys = sheet.keys;
  strip.tints = sheet.section.tints;
  strip.show(sheet.strip, moment, sheet.another);
  strip.late(false);
  one('cautions').replaceChildren(...sheet.cautions.map((words) => text('li', words)));
  one('data-notes').replaceChildren(...[...sheet.notes, ...sheet.credits].map((words) => text('li', words)));
}

/** The plan fills the sheet; the small sections below stay. */
async function fillWithPlan() {
  await import('./plan/plan.js');
  const editor = one('plan-editor');
  one('plan-place').hidden = false;
  one('drawn').hidden = true;
  editor.text = brief.text;
  one('plan-away').focus();
}

function state(words, urgent = false) {
  one('state').textContent = words;
  one('state').classList.toggle('urgent', urgent);
}

/** Somebody else was faster: keep theirs, keep yours, or see both. */
function raced({ theirs }) {
  const place = one('raced');
  const end = (act) => () => {
    act();
    place.hidden = true;
  };
  const mine = brief.text;
  place.replaceChildren(
    text('p', say('sheet.page.raced')),
    press(say('sheet.page.keep-theirs'), end(() => {
      Object.assign(brief, { version: theirs.version, saved: theirs.brief });
      brief.become(theirs.brief);
    })),
    press(say('sheet.page.keep-yours'), end(() => {
      brief.version = theirs.version;
      brief.keep();
    })),
    press(say('sheet.page.see-both'), () => {
      const both = text('div', '', 'both');
      both.append(text('pre', theirs.brief), text('pre', mine));
      place.append(both);
    }),
  );
  place.hidden = false;
  place.querySelector('button').focus();
}

one('plan-editor').addEventListener('plan-changed', ({ detail }) => brief.become(detail.text));
one('plan-away').addEventListener('click', () => {
  one('plan-place').hidden = true;
  one('drawn').hidden = false;
  plan.drawn.focus();
});
one('undo').addEventListener('click', () => brief.undo());
one('redo').addEventListener('click', () => brief.redo());
one('units').addEventListener('click', () => brief.type([{ path: 'project.units', typed: units === 'US' ? 'SI' : 'US' }]));
one('lanes').addEventListener('click', () => brief.look({ lanes: !brief.show.lanes, ...(brief.show.lanes ? {} : { month: 0 }) }));
one('hand-over').addEventListener('click', () => handing.open());
document.addEventListener('keydown', (event) => {
  const typing = event.target.matches('input[type="text"], textarea');
  if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z' && !typing && !event.defaultPrevented) {
    event.preventDefault();
    if (event.shiftKey) brief.redo();
    else brief.undo();
  }
});
addEventListener('resize', () => {
  if (Math.abs(wide() - brief.show.wide) > 8) brief.look({ wide: wide() });
});

const ready = get('/api/choices').then((every) => Object.assign(lists, every));
if (kept.demo) showNotes(one('notes'), kept.number);
const unsaved = brief.remembered();
if (unsaved) brief.become(unsaved);
else brief.answer();
