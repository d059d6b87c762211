// SPDX-License-Identifier: GPL-3.0-or-later
// The measures of a body.
import { h } from './draw.js';
import { state } from './state.js';
import { entries, pointer } from './job_values.js';
import { field } from './fields.js';
import { add_button, add_form, insert_named, more_button, renaming_of, tools } from './rows.js';
import { card } from './card.js';

function measure(name, place, count) {
  const at_it = pointer('measures', name);
  return h('div.member', { key: at_it },
    field(at_it, { label: name, takes: 'quantity', empty: 'how much?', required: true }, { beside: more_button(at_it, name) }),
    tools(at_it, name, place, count, renaming_of(at_it)));
}

export function measures_card() {
  const measures = entries(state.job?.get('measures'));
  return card('measures', 'Measures', {
    beside: add_button('measures', 'Add a measure'),
    says: measures.length === 0 ? 'Of the body: never altered. None are written yet.' : null,
    claims: ['/measures'],
  },
  measures.map(([name], place) => measure(name, place, measures.length)),
  add_form('measures', [['name of the measure', 'one word: wrist'], ['its size', '17 cm']], ([name, size]) => (name === '' || size === '' ? null : insert_named('measures', name, size))));
}
