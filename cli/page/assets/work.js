// SPDX-License-Identifier: GPL-3.0-or-later
// One request at a time. Every change of a field is made, in order; of the moves of a slider and of the plans only the
// latest counts.
import { Gone, post } from './requests.js';
import { state, changed, step, take } from './state.js';
import { at, shown } from './job_values.js';

const edits = [];
let edited = () => {};
let slide = null; // { pointer, before, steps, after }
let wants_plan = false;
let asides = []; // small questions that can wait
let running = false;
let holding = false; // a slider: what would save cloth is asked when it is let go
const resting = 200; // ms in which a slider that is held does not move, until the whole sheet is drawn
let rest;
const steady = 400; // ms: while a slider moves its own figure and the pictures follow at once, all else no more often than this
let words;
let told = -Infinity; // when words were asked for last
let fragments = { width: () => 'wide', have: () => ({}), seen: () => [], show: () => {}, show_words: () => {}, show_slid: () => {} };

/**
 * What shows fragments: the width to draw for, the digests it has, which are in view, how it takes new ones, whether a
 * slider is moving or not, how it shows those that it kept back meanwhile, and the length that is slid.
 */
export function shows_fragments(shown) {
  fragments = shown;
}

/** While a slider moves only what is in view is drawn: its pictures, and the rest of it now and then. */
function seen_now() {
  if (performance.now() - told < steady) return fragments.seen(true);
  told = performance.now();
  return fragments.seen();
}

/** What is planned of `text`, changed before as `change` has it; null where that change cannot be made. */
async function plan_of(text, change) {
  const seen = change && { seen: seen_now() };
  const answer = await post('plan', { text, ...change, ...seen, width: fragments.width(), have: fragments.have(), held: holding });
  if (answer.refused) return refuse(change.pointer, answer.faults);
  return answer;
}

/** Words first, figures on the left half a turn later: neither keeps a picture waiting for both. */
function show_words() {
  fragments.show_words();
  words = setTimeout(show_figures, steady / 2);
}

function show_figures() {
  clearTimeout(words);
  words = undefined;
  changed(true);
}

function show(text, answer) {
  state.held = holding;
  take(text, answer);
  if (answer.plan && answer.sheet) fragments.show(answer.sheet, holding);
  if (holding) {
    fragments.show_slid();
    words ??= setTimeout(show_words, steady / 2);
  } else {
    fragments.show_words();
    show_figures();
  }
}

async function plan_now() {
  wants_plan = false;
  const text = state.text;
  show(text, await plan_of(text));
}

function refuse(pointer, faults) {
  for (const fault of faults) state.refused.set(fault.pointer || pointer, fault);
  if (faults.length > 0) state.refused.set(pointer, faults[0]);
  return null;
}

async function edit_now() {
  const { ask, after } = edits[0];
  const wish = ask();
  let answer;
  try {
    answer = wish && (await post('change', { text: state.text, ...wish }));
  } catch (error) {
    if (!(error instanceof Gone)) edits.shift(); // it would fail again
    throw error;
  }
  edits.shift(); // only now: where nobody answered it is still to be done
  if (answer?.faults) {
    refuse(wish.pointer, answer.faults);
  } else if (answer) {
    state.refused.clear();
    step(answer.text);
    wants_plan = true;
    after?.();
  }
  edited();
  changed();
}

/** A move of a slider and what comes of it are asked in one: it is the page's quickest touch. */
async function slide_now() {
  const { pointer, before, steps, after } = slide;
  slide = null;
  const answer = await plan_of(before, { pointer, slide: steps });
  if (answer === null) {
    changed();
    return;
  }
  state.refused.delete(pointer);
  step(answer.text, before);
  after(answer.text);
  wants_plan = false;
  show(answer.text, answer);
  clearTimeout(rest);
  rest = setTimeout(plan, resting);
}

async function next() {
  if (edits.length > 0) return edit_now();
  if (slide) return slide_now();
  if (wants_plan) return plan_now();
  return asides.shift()();
}

async function run() {
  if (running) return;
  running = true;
  try {
    while (edits.length > 0 || slide || wants_plan || asides.length > 0) await next();
  } catch (error) {
    if (!(error instanceof Gone)) state.trouble = error.message;
    changed();
  } finally {
    running = false;
  }
}

/** `hear()` is called when a change was made, was not needed, or was refused. */
export function when_edited(hear) {
  edited = hear;
}

/** Plans the text as it is. */
export function plan() {
  wants_plan = true;
  run();
}

/** What was left undone when the program did not answer. */
export function resume() {
  if (edits.length > 0) run();
  else if (state.planned !== state.text) plan();
}

/** Asks the program something when there is nothing else to do. */
export function aside(ask) {
  asides.push(ask);
  run();
}

/** One change of the text. `ask` says which when its turn has come, from the job as it is then; null for none. */
export function edit(ask, after) {
  edits.push({ ask: typeof ask === 'function' ? ask : () => ask, after });
  run();
}

/** The slider of the length at `pointer` stands `steps` off where it stood in the text `before`; `after` hears the text. */
export function move_slider(pointer, before, steps, after) {
  holding = true;
  slide = { pointer, before, steps, after };
  run();
}

/** No slider is held any more. */
export function let_slider_go() {
  if (!holding) return;
  holding = false;
  clearTimeout(rest);
  plan();
}

/** Another whole text: a step of its own. */
export function set_text(text) {
  step(text);
  state.refused.clear();
  state.typed.clear();
  changed();
  plan();
}

/** Puts a value at the pointer, with whatever it has to stand in; undefined takes it away. */
export function put(pointer, value, after) {
  edit(() => {
    const now = at(state.job, pointer);
    if (now === undefined ? value === undefined : typeof now === typeof value && shown(now) === shown(value)) return null;
    return { pointer, value: value ?? null };
  }, after);
}
