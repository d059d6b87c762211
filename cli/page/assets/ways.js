// SPDX-License-Identifier: GPL-3.0-or-later
// Ways from a word to the place that it speaks of. They are buttons: a link would leave an entry in the browser's history.
import { h } from './draw.js';
import { state } from './state.js';
import { entries, items, pointer } from './job_values.js';
import { control_of } from './fields.js';

/** Shows an element and puts the focus there, whatever is folded around it. */
export function go_to(element) {
  if (!element) return false;
  for (let around = element.closest('details'); around; around = around.parentElement?.closest('details')) around.open = true;
  element.scrollIntoView({ block: 'center', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' });
  if (element.tabIndex < 0 && !element.hasAttribute('tabindex')) element.setAttribute('tabindex', '-1');
  element.focus({ preventScroll: true });
  return true;
}

const place_of_named = (list, name) => items(state.job?.get(list)).findIndex((one) => one instanceof Map && one.get('name') === name);

function rule_control(name) {
  const place = items(state.job?.get('rules')).findIndex((rule) => (rule instanceof Map ? rule.get('name') ?? rule.get('holds') : rule) === name);
  return place < 0 ? null : (control_of(`/rules/${place}/holds`) ?? control_of(`/rules/${place}`));
}

function length_control(name) {
  const at_it = pointer('lengths', name);
  const value = entries(state.job?.get('lengths')).find(([key]) => key === name)?.[1];
  if (value === undefined) return null;
  return control_of(at_it) ?? control_of(`${at_it}/is`) ?? control_of(`${at_it}/to`);
}

/** The element that a finding or a bound speaks of, found when it is wanted. */
export function element_of({ rule, join, length, piece, cloth }) {
  if (rule !== undefined) return rule_control(rule);
  if (join !== undefined) return document.getElementById(`join-${place_of_named('joins', join) + 1}`);
  if (length !== undefined) return length_control(length);
  if (piece !== undefined) return control_of(`/pieces/${place_of_named('pieces', piece)}/across`);
  if (cloth !== undefined) return control_of('/fabric/stock');
  return null;
}

/** Words that lead to what `about` names. */
export function way_to(about, words, key) {
  return h('button.link', { type: 'button', key, onClick: () => go_to(element_of(about)) }, words);
}
