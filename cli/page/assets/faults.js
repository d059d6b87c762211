// SPDX-License-Identifier: GPL-3.0-or-later
// Faults at their fields: each is told where it belongs, once, with what would be right and a way back.
import { h } from './draw.js';
import { state, changed } from './state.js';
import { put, set_text } from './work.js';
import { at, shown } from './job_values.js';

let claimed = new Set();

/** Before the cards are drawn anew: no fault has its field yet. */
export function forget_claims() {
  claimed = new Set();
}

/** What is wrong at one of these pointers, the fault of a change that could not be made among it. */
export function faults_at(pointers) {
  const found = [];
  for (const pointer of pointers) {
    const refused = state.refused.get(pointer);
    if (refused) found.push({ ...refused, refused: true });
    for (const fault of state.faults) {
      if (fault.pointer === pointer && !claimed.has(fault)) {
        claimed.add(fault);
        found.push(fault);
      }
    }
  }
  return found;
}

/** The faults that no field has claimed. */
export const left_over = () => state.faults.filter((fault) => !claimed.has(fault));

/** A fault's two halves as one sentence. */
export function sentence(fault) {
  return fault.instead ? `${fault.what}; ${fault.instead}` : fault.what;
}

function back_button(pointer, field) {
  if (!state.good || state.good.text === state.text) return null;
  const before = at(state.good.job, pointer);
  const simple = before === undefined || typeof before !== 'object';
  const words = !simple ? 'Back to how it was' : before === undefined ? 'Back to empty' : `Back to ${shown(before)}`;
  const go = () => {
    if (simple) put(pointer, before);
    else set_text(state.good.text);
    field?.()?.focus();
  };
  return h('button.back', { type: 'button', onClick: go }, words);
}

function forget(pointer, field) {
  state.refused.delete(pointer);
  state.typed.delete(pointer);
  const input = field?.();
  if (input) input.typing = false;
  changed();
  input?.focus();
}

/** The paragraph of a fault at the field of `pointer`; `field` finds the control. */
export function fault_line(fault, id, pointer, field) {
  const back = fault.refused
    ? h('button.back', { type: 'button', onClick: () => forget(pointer, field) }, 'Leave it as it was')
    : back_button(pointer, field);
  return h('p.fault', { key: id, id }, h('span.sign', { 'aria-hidden': 'true' }, '✗ '), `${sentence(fault)}. `, back);
}
