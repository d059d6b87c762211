// SPDX-License-Identifier: GPL-3.0-or-later
// What can be done to a member of a list: rename, move, take out; and what adds one.
import { h } from './draw.js';
import { state, changed } from './state.js';
import { edit } from './work.js';
import { pointer as pointer_of } from './job_values.js';
import { faults_at, fault_line } from './faults.js';
import { id_of } from './fields.js';

let open = null; // the pointer whose tools are shown
let adding = null; // the list that is being added to
let renaming = null;

/** The button that shows what else can be done to the member called `name`. */
export function more_button(pointer, name) {
  return h('button.more', {
    type: 'button',
    key: 'more',
    'aria-label': `More for ${name}`,
    'aria-expanded': open === pointer ? 'true' : 'false',
    'aria-controls': open === pointer ? `${id_of(pointer)}-tools` : undefined,
    title: 'rename, move, remove',
    onClick: () => {
      open = open === pointer ? null : pointer;
      renaming = null;
      changed();
    },
  }, h('span', { 'aria-hidden': 'true' }, '⋯'));
}

function rename_form(pointer, name, rename) {
  const id = `${id_of(pointer)}-name`;
  const done = (event) => {
    event.preventDefault();
    const typed = document.getElementById(id).value.trim();
    renaming = null;
    open = null;
    if (typed !== '' && typed !== name) rename(typed);
    changed();
  };
  return h('form.rename', { key: 'rename', onSubmit: done, novalidate: true },
    h('label', { for: id }, `New name for ${name}`),
    h('input', { id, type: 'text', autocomplete: 'off', spellcheck: 'false', value: name, onInput: (event) => { event.target.typing = true; } }),
    h('button', { type: 'submit' }, 'Rename'));
}

/** The tools of a member: `place` among `count` others; `rename` where its name can be changed here. */
export function tools(pointer, name, place, count, rename) {
  const refusals = faults_at([`${pointer}#name`]);
  if (open !== pointer) return refusals.map((fault, i) => fault_line(fault, `${id_of(pointer)}-refused-${i}`, `${pointer}#name`));
  const move = (to) => edit({ pointer, move: to }, () => { open = moved(pointer, to); });
  return h('div.tools', { key: 'tools', id: `${id_of(pointer)}-tools`, role: 'group', 'aria-label': `Change ${name}` },
    rename && h('button', { type: 'button', 'aria-label': `Rename ${name}`, onClick: () => {
      renaming = renaming === pointer ? null : pointer;
      changed();
      document.getElementById(`${id_of(pointer)}-name`)?.select();
    } }, 'Rename'),
    h('button', { type: 'button', 'aria-label': `Move ${name} up`, disabled: place === 0, onClick: () => move(place - 1) }, 'Move up'),
    h('button', { type: 'button', 'aria-label': `Move ${name} down`, disabled: place === count - 1, onClick: () => move(place + 1) }, 'Move down'),
    h('button', { type: 'button', 'aria-label': `Remove ${name}`, onClick: () => {
      open = null;
      edit({ pointer, remove: true });
    } }, 'Remove'),
    renaming === pointer && rename_form(pointer, name, rename));
}

/** A member of an array has another pointer once it has moved. */
function moved(pointer, to) {
  const parent = pointer.slice(0, pointer.lastIndexOf('/'));
  const last = pointer.slice(parent.length + 1);
  return /^\d+$/.test(last) ? `${parent}/${to}` : pointer;
}

/** Renames the member of an object wherever its name stands. */
export function renaming_of(pointer) {
  return (name) => edit({ pointer, rename: name });
}

/** The button that opens the form which adds to a list. */
export function add_button(list, words) {
  return h('button.quiet', {
    type: 'button',
    key: 'add',
    'aria-expanded': adding === list ? 'true' : 'false',
    onClick: () => {
      adding = adding === list ? null : list;
      changed();
      if (adding) document.getElementById(`add-${list}-0`)?.focus();
    },
  }, words);
}

/**
 * The form that adds to a list: `asks` are [label, placeholder]; `make` makes the change of what was typed, null where
 * something is wanting.
 */
export function add_form(list, asks, make) {
  if (adding !== list) return null;
  const done = (event) => {
    event.preventDefault();
    const inputs = asks.map((_, i) => document.getElementById(`add-${list}-${i}`));
    const wish = make(inputs.map((input) => input.value.trim()));
    if (wish === null) {
      inputs.find((input) => input.value.trim() === '')?.focus();
      return;
    }
    for (const input of inputs) input.typing = false;
    edit(wish, () => { adding = null; });
  };
  const refusal = state.refused.size > 0 ? faults_at([...state.refused.keys()].filter((pointer) => pointer.startsWith(`/${list}/`))) : [];
  return h('form.add', { key: 'add-form', onSubmit: done, novalidate: true },
    asks.map(([label, empty], i) => h('div.field', { key: label },
      h('label', { for: `add-${list}-${i}` }, label),
      h('input', { id: `add-${list}-${i}`, type: 'text', placeholder: empty, autocomplete: 'off', spellcheck: 'false', value: '', onInput: (event) => { event.target.typing = true; } }))),
    h('div.buttons', {}, h('button', { type: 'submit' }, 'Add'),
      h('button.quiet', { type: 'button', onClick: () => { adding = null; changed(); } }, 'Leave it')),
    refusal.map((fault, i) => fault_line(fault, `add-${list}-fault-${i}`, fault.pointer)));
}

/** The change that adds a member of that name to the object `list` at the top of the job. */
export function insert_named(list, name, value) {
  const around = state.job?.get(list);
  return around === undefined
    ? { pointer: pointer_of(list), insert: { [name]: value } }
    : { pointer: pointer_of(list, name), insert: value };
}

/** The change that adds a member to the end of the array `list` at the top of the job. */
export function insert_last(list, value) {
  return state.job?.get(list) === undefined
    ? { pointer: pointer_of(list), insert: [value] }
    : { pointer: `${pointer_of(list)}/-`, insert: value };
}
