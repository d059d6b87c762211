// SPDX-License-Identifier: GPL-3.0-or-later
// The pieces: how many, how large, and what is sewn to their sides.
import { h } from './draw.js';
import { state } from './state.js';
import { at, items } from './job_values.js';
import * as form from './form.js';
import { field, fields } from './fields.js';
import { put } from './work.js';
import { add_button, add_form, insert_last, more_button, renaming_of, tools } from './rows.js';
import { as_before } from './as_before.js';
import { card, folded } from './card.js';
import { own_cloth } from './cloth_card.js';
import { sides } from './sides.js';

/** One allowance for all four sides, or one a side. */
function allowances(at_it, of) {
  const written = at(state.job, `${at_it}/allowance`);
  const by_side = written instanceof Map;
  return [
    !by_side && field(`${at_it}/allowance`, { label: 'allowance of all sides', takes: 'quantity', empty: 'as the job’s' }, { says: `${of} allowance of all sides` }),
    form.sides.map((side) => field(`${at_it}/allowance/${side}`, {
      label: `allowance, ${side}`,
      takes: 'quantity',
      empty: by_side || written === undefined ? 'as the job’s' : shown_for_all(written),
      put: (inner, value) => {
        if (by_side || written === undefined || value === undefined) put(inner, value);
        else put(`${at_it}/allowance`, Object.fromEntries(form.sides.map((other) => [other, other === side ? value : written])));
      },
    }, { says: `${of} allowance, ${side}`, value: by_side ? written.get(side) : undefined })),
  ];
}

const shown_for_all = (written) => String(written);

function in_short(piece) {
  if (!(piece instanceof Map)) return '';
  const planned = state.plan?.pieces?.find(({ name }) => name === piece.get('name'));
  return planned ? `${planned.cut} of ${planned.cut_across.text} by ${planned.cut_along.text} ${state.plan.unit}` : '';
}

function piece_form(piece, place, count) {
  if (!(piece instanceof Map)) return null;
  const at_it = `/pieces/${place}`;
  const name = String(piece.get('name') ?? `piece ${place + 1}`);
  return h('details.member.piece', { key: `${at_it} ${name}` },
    h('summary', { key: 'summary' }, h('span.name', {}, name), ' ', h('span.short', {}, in_short(piece))),
    as_before(`${at_it} inside`, [state.written.pieces[place], count, state.written.joins], () => h('div.inside', { key: 'inside', role: 'group', 'aria-label': name },
      more_button(at_it, name),
      state.remarks.get(at_it) && h('p.remark', { key: 'remark' }, state.remarks.get(at_it)),
      tools(at_it, name, place, count, renaming_of(`${at_it}/name`)),
      fields(at_it, form.piece, { of: name }),
      sides(at_it, name),
      folded(`${at_it}-more`, 'Allowances, pairs and turning', allowances(at_it, name), fields(at_it, form.piece_more, { of: name })),
      folded(`${at_it}-cloth`, 'A cloth of its own', own_cloth(`${at_it}/fabric`, name)))));
}

/** What a piece of the plan shows here. */
export const shown_of_piece = (planned) => [planned.cut, planned.cut_across?.text, planned.cut_along?.text];

export function pieces_card() {
  const pieces = items(state.job?.get('pieces'));
  return card('pieces', 'Pieces', {
    beside: add_button('pieces', 'Add a piece'),
    says: 'Straight on the grain: across is from selvedge to selvedge, along is down the warp.',
    claims: ['/pieces', ...pieces.flatMap((_, i) => [`/pieces/${i}`, `/pieces/${i}/name`, `/pieces/${i}/fabric`, `/pieces/${i}/allowance`, `/pieces/${i}/sides`])],
  },
  pieces.map((piece, place) => as_before(`/pieces/${place}`, [state.written.pieces[place], pieces.length, state.written.joins, in_short(piece)],
    () => piece_form(piece, place, pieces.length))),
  add_form('pieces', [['name of the piece', 'sleeve'], ['across', 'sleeve'], ['along', '54 cm']],
    ([name, across, along]) => (name === '' || across === '' || along === '' ? null : insert_last('pieces', { name, across, along }))));
}
