// SPDX-License-Identifier: GPL-3.0-or-later
// The seams: each join of a long edge to a band, with its stretches.
import { h } from './draw.js';
import { state } from './state.js';
import { items } from './job_values.js';
import * as form from './form.js';
import { fields } from './fields.js';
import { edge_fields, edge_more } from './edge.js';
import { add_button, add_form, insert_last, more_button, renaming_of, tools } from './rows.js';
import { as_before } from './as_before.js';
import { card, folded } from './card.js';
import { marking, threading } from './thread_card.js';
import { stretches } from './stretches.js';

function in_short(join, place) {
  const planned = state.plan?.joins?.[place];
  if (!planned || planned.name !== join.get('name')) return '';
  return `${planned.fullness.toFixed(2)} to 1`;
}

function seam(join, place, count) {
  const at_it = `/joins/${place}`;
  const name = String(join instanceof Map ? join.get('name') ?? `seam ${place + 1}` : `seam ${place + 1}`);
  if (!(join instanceof Map)) return null;
  return h('details.member.seam', { key: `${at_it} ${name}`, 'data-join': String(place) },
    h('summary', { key: 'summary' }, h('span.name', {}, name), ' ', h('span.short', {}, in_short(join, place))),
    as_before(`${at_it} inside`, [state.written.joins[place], count, state.plan?.joins?.[place]?.segments?.map(({ band }) => band)], () => h('div.inside', { key: 'inside', role: 'group', 'aria-label': name },
      more_button(at_it, name),
      tools(at_it, name, place, count, renaming_of(`${at_it}/name`)),
      edge_fields(`${at_it}/long`, 'long edge', name),
      edge_fields(`${at_it}/band`, 'band', name),
      stretches(at_it, place, join, name),
      folded(`${at_it}-more`, 'Make, mirror, edges, allowances',
        fields(at_it, form.join_more, { of: name }), edge_more(`${at_it}/long`, 'long edge', name), edge_more(`${at_it}/band`, 'band', name)),
      folded(`${at_it}-own`, 'Its own cloth, marks and thread',
        fields(`${at_it}/fabric`, form.cloth.filter(({ key }) => key !== 'selvedge'), { of: name }),
        marking(`${at_it}/marks`, `${name} `), threading(`${at_it}/gathering`, name)))));
}

/** What a join of the plan shows here. */
export const shown_of_join = (planned) => planned && [planned.name, planned.fullness.toFixed(2), planned.segments?.map(({ band }) => band)];

export function seams_card() {
  const joins = items(state.job?.get('joins'));
  return card('seams', 'Seams', {
    beside: add_button('joins', 'Add a seam'),
    says: 'Each sews a long edge to a shorter one, its band.',
    claims: ['/joins', ...joins.flatMap((_, i) => [`/joins/${i}`, `/joins/${i}/name`])],
  },
  joins.map((join, place) => as_before(`/joins/${place}`, [state.written.joins[place], joins.length, shown_of_join(state.plan?.joins?.[place])],
    () => seam(join, place, joins.length))),
  add_form('joins', [['name of the seam', 'sleeve into cuff'], ['long edge', 'sleeve'], ['band', 'cuff']],
    ([name, long, band]) => (name === '' || long === '' || band === '' ? null : insert_last('joins', { name, long, band }))));
}
