// SPDX-License-Identifier: GPL-3.0-or-later
// What is sewn to the sides of a piece: each side takes nothing, one part of a seam, or several.
import { h } from './draw.js';
import { state } from './state.js';
import { at, items, without_maps } from './job_values.js';
import * as form from './form.js';
import { field } from './fields.js';
import { edit, put } from './work.js';

const seams = () => items(state.job?.get('joins')).map((join) => (join instanceof Map ? join.get('name') : undefined)).filter((name) => typeof name === 'string');

/** The parts of a side with their pointers, however it is written. */
function parts_of(at_side) {
  const side = at(state.job, at_side);
  if (side === undefined) return [];
  return Array.isArray(side) ? side.map((part, i) => [part, `${at_side}/${i}`]) : [[side, at_side]];
}

const seam_of = (part) => (part instanceof Map ? part.get('join') : part);

function choose_seam(part, pointer) {
  return (_, chosen) => {
    if (chosen === undefined || !(part instanceof Map)) put(pointer, chosen);
    else put(`${pointer}/join`, chosen);
  };
}

/** Sets a key of a part; one that is written as a name alone becomes an object. */
function set_key(part, pointer, key) {
  return (_, value) => (part instanceof Map ? put(`${pointer}/${key}`, value) : value !== undefined && put(pointer, { join: part, [key]: value }));
}

function part_fields(part, pointer, of) {
  const options = [['', 'nothing'], ...seams().map((name) => [name, name])];
  const value = (key) => (part instanceof Map ? part.get(key) : undefined);
  return h('div.part', { key: pointer },
    field(part instanceof Map ? `${pointer}/join` : pointer, { label: 'sewn to', takes: 'choice', options, put: choose_seam(part, pointer) }, { value: seam_of(part), says: `${of} sewn to`, claims: [pointer] }),
    field(`${pointer}/edge`, { label: 'takes', takes: 'choice', options: form.edges.slice(1), put: (_, chosen) => set_key(part, pointer, 'edge')(_, chosen) }, { value: value('edge') ?? 'long', says: `${of} takes` }),
    h('div.wishes', { key: 'wishes' }, form.side_part.map((spec) => field(`${pointer}/${spec.key}`, { ...spec, put: set_key(part, pointer, spec.key) }, { value: value(spec.key), says: `${of} ${spec.label}` }))));
}

/** One more part behind those there are. */
function add_part(at_side) {
  const side = at(state.job, at_side);
  const [name] = seams();
  if (Array.isArray(side)) edit({ pointer: `${at_side}/-`, insert: name });
  else put(at_side, [without_maps(side), name]);
}

function side_fields(at_it, side, piece) {
  const at_side = `${at_it}/sides/${side}`;
  const parts = parts_of(at_side);
  const of = `${piece} ${side}`;
  if (parts.length === 0) {
    const options = [['', 'nothing'], ...seams().map((name) => [name, name])];
    return field(at_side, { label: side, takes: 'choice', options }, { says: `${of} sewn to` });
  }
  return h('fieldset.side', { key: at_side }, h('legend', {}, side),
    Array.isArray(at(state.job, at_side)) && remark_of(at_side),
    parts.map(([part, pointer], i) => part_fields(part, pointer, parts.length === 1 ? of : `${of}, part ${i + 1}`)),
    h('button.quiet', { type: 'button', key: 'add-part', 'aria-label': `Another part on ${of}`, onClick: () => add_part(at_side) }, 'Another part'));
}

const remark_of = (pointer) => state.remarks.get(pointer) && h('p.remark', { key: 'remark' }, state.remarks.get(pointer));

export function sides(at_it, piece) {
  return h('div.sides', { key: 'sides' }, h('p.label', { key: 'label' }, 'sewn to its sides'), remark_of(`${at_it}/sides`), form.sides.map((side) => side_fields(at_it, side, piece)));
}
