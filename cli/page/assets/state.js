// SPDX-License-Identifier: GPL-3.0-or-later
// What the page holds: the text, which is the one truth, the steps that led to it, and the last answer to it.
import { with_maps } from './job_values.js';

export const state = {
  name: null, // of the file; null where there is none yet
  read: null, // the digest of what stands on the disk, as far as the page knows
  saved: null, // the text that stands there
  text: '',
  planned: null, // the text that was answered last
  job: null, // its values as Maps; null where it is no JSON
  written: null, // the same as the program sent them, to be compared
  remarks: new Map(), // by pointer
  faults: [],
  plan: null, // the last good one
  lengths: new Map(), // its lengths by name
  tapes: new Map(), // of those whose size is known, as the sliders show them, by name
  rules: new Map(), // what the plan says of each rule, by its place
  good: null, // { text, job } of that plan
  held: false, // that plan is of a slide which goes on, without what would save cloth
  savings: [], // as they were told last
  refused: new Map(), // pointer to the fault of a change that could not be made
  typed: new Map(), // pointer to what was typed there and is not in the text yet
  patterns: new Map(), // kind of segment to the program's own pattern
  gone: false,
  on_disk: false, // the file was changed by somebody else
};

const past = [];
const future = [];
const hearers = [];

/** `hear(by_plan)` is called after every change of the state; `by_plan` where only an answer of the program came. */
export function when_changed(hear) {
  hearers.push(hear);
}

export function changed(by_plan = false) {
  for (const hear of hearers) hear(by_plan);
}

export function start(text, name, read) {
  Object.assign(state, { text, name, read, saved: read === null ? null : text });
  past.length = 0;
  future.length = 0;
}

/** The text is another one. All that is told with the same `before`, the text where it began, is one step. */
export function step(text, before = state.text) {
  if (past.at(-1) === before) past.pop();
  if (text !== before) {
    past.push(before);
    future.length = 0;
  }
  state.text = text;
}

export const can_undo = () => past.length > 0;
export const can_redo = () => future.length > 0;

export function undo() {
  if (!can_undo()) return false;
  future.push(state.text);
  state.text = past.pop();
  return true;
}

export function redo() {
  if (!can_redo()) return false;
  past.push(state.text);
  state.text = future.pop();
  return true;
}

export const is_saved = () => state.saved === state.text;

/** Takes over an answer of the program to `text`. */
export function take(text, answer) {
  state.planned = text;
  state.faults = answer.faults ?? [];
  state.written = answer.job ?? null;
  state.job = answer.job === undefined || answer.job === null ? null : with_maps(answer.job);
  state.remarks = new Map(Object.entries(answer.remarks ?? {}));
  if (answer.plan) {
    state.plan = answer.plan;
    state.lengths = new Map(Object.entries(answer.plan.lengths ?? {}));
    state.tapes = new Map(Object.entries(answer.tapes ?? {}));
    state.rules = new Map((answer.rules ?? []).map(({ rule, says }) => [rule, says]));
    if (!state.held) state.savings = answer.plan.savings ?? [];
    state.good = { text, job: state.job };
  }
}
