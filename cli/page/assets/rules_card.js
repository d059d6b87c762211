// SPDX-License-Identifier: GPL-3.0-or-later
// Rules that must hold, and whether they do.
import { h } from './draw.js';
import { state } from './state.js';
import { items } from './job_values.js';
import { field } from './fields.js';
import { put } from './work.js';
import { add_button, add_form, insert_last, more_button, tools } from './rows.js';
import { card } from './card.js';

const parts_of = (rule) => (rule instanceof Map ? { name: rule.get('name'), holds: rule.get('holds'), inside: '/holds' } : { name: undefined, holds: rule, inside: '' });

export const name_of_rule = (rule, place) => parts_of(rule).name ?? `rule ${place + 1}`;

function told(place) {
  const says = state.rules.get(place);
  if (says === undefined || items(state.good?.job?.get('rules')).length <= place) return null;
  const { holds } = state.plan.rules[place];
  return h('p.told', { key: 'told', class: holds ? 'good' : 'bad' },
    h('span.sign', { 'aria-hidden': 'true' }, holds ? '✓ ' : '✗ '), `${holds ? 'holds' : 'does not hold'}: ${says}`);
}

function rule_fields(rule, place, count) {
  const at_it = `/rules/${place}`;
  const { name, holds, inside } = parts_of(rule);
  const called = name_of_rule(rule, place);
  const rename = (typed) => (inside === '' ? put(at_it, { name: typed, holds: rule }) : put(`${at_it}/name`, typed));
  return h('div.member.rule', { key: at_it },
    field(`${at_it}${inside}`, { label: called, takes: 'quantity', empty: 'this >= that', required: true }, {
      label: h('span.name', {}, called), says: `rule: ${called}`, claims: [at_it, `${at_it}/name`], beside: more_button(at_it, called), class: 'wide-field', below: told(place),
    }),
    tools(at_it, called, place, count, rename));
}

export function rules_card() {
  const rules = items(state.job?.get('rules'));
  return card('rules', 'Rules', {
    beside: add_button('rules', 'Add a rule'),
    says: rules.length === 0 ? 'What must hold, whatever is chosen. None are written yet.' : null,
    claims: ['/rules'],
  },
  rules.map((rule, place) => rule_fields(rule, place, rules.length)),
  add_form('rules', [['name of the rule', 'the hand goes through'], ['what holds', 'cuff + 2 * slit >= hand + 3 cm']],
    ([name, holds]) => (holds === '' ? null : insert_last('rules', name === '' ? holds : { name, holds }))));
}
