// SPDX-License-Identifier: GPL-3.0-or-later
// The verdict, which stays in view, is told half a second after the last change, and stands at the foot of narrow windows.
import { h, draw } from './draw.js';
import { state } from './state.js';
import { control_of } from './fields.js';
import { keys_of } from './job_values.js';
import { show_line } from './text_view.js';
import { go_to } from './ways.js';

const pause = 500; // ms

let timer;
let told = '';
let html = '';

/** The program's own words, of the last good plan. */
export function take_verdict(fragment) {
  html = fragment;
}

const count_in_words = (count) => (count === 1 ? 'One fault' : `${count} faults`) + ' to mend';

function way_to_fault(fault, key) {
  const control = control_of(fault.pointer);
  const name = keys_of(fault.pointer).at(-1);
  const words = control ? (control.getAttribute('aria-label') ?? control.labels?.[0]?.textContent ?? name) : `line ${fault.line}`;
  return h('button.link', { type: 'button', key, onClick: () => (control ? go_to(control) : show_line(fault.line)) }, words);
}

function faults_in_words() {
  return [h('strong', {}, h('span.sign', { 'aria-hidden': 'true' }, '✎ '), count_in_words(state.faults.length)), ': ',
    state.faults.flatMap((fault, i) => [i > 0 && ', ', way_to_fault(fault, `fault-${i}`)]),
    state.plan ? '. Below is the plan from before.' : '.'];
}

function spoken(bar) {
  return state.faults.length > 0 ? state.faults.map((fault) => `${fault.what}; ${fault.instead}`).join('. ') : bar.textContent;
}

function announce(live, bar) {
  clearTimeout(timer);
  timer = setTimeout(() => {
    const words = spoken(bar).trim();
    if (words !== told) live.textContent = told = words;
  }, pause);
}

export function draw_verdict(bar, live) {
  if (state.faults.length > 0) draw(bar, h('p.verdict.faulty', { key: 'faults' }, faults_in_words()));
  else draw(bar, h('div', { key: 'verdict', html }));
  announce(live, bar);
}

/** One figure that says most: the join with the weightiest verdict, or the fullest. */
function telling_join() {
  const joins = state.plan?.joins ?? [];
  return joins.find((join) => join.verdict === state.plan.verdict && join.verdict !== 'within limits')
    ?? joins.reduce((fullest, join) => (!fullest || join.fullness > fullest.fullness ? join : fullest), null);
}

export function draw_foot(foot, to_the_plan) {
  const join = telling_join();
  const good = state.faults.length === 0 && state.plan?.verdict === 'within limits';
  const words = document.querySelector('#verdict strong')?.textContent ?? '';
  draw(foot, h('p', { key: 'words', class: good ? '' : 'bad' }, h('strong', {}, words),
    join && h('span.figure', {}, `${join.name}: ${join.fullness.toFixed(2)} to 1`)),
  to_the_plan());
}
