// SPDX-License-Identifier: GPL-3.0-or-later
// One field of the forms: its label, its control, the remark that the file has for it, and what is wrong with it.
import { h } from './draw.js';
import { state, changed } from './state.js';
import { put, when_edited } from './work.js';
import { at, shown } from './job_values.js';
import { without_commas } from './comma.js';
import { faults_at, fault_line } from './faults.js';

const asked = new Map(); // pointer to the two texts that a comma leaves open

export const id_of = (pointer) => `at-${encodeURIComponent(pointer).replaceAll('%', '-')}`;
export const control_of = (pointer) => document.getElementById(id_of(pointer));

function value_typed(spec, typed, before) {
  if (typed.trim() === '') return spec.required ? '' : undefined;
  if (spec.takes === 'number' || typeof before === 'number') {
    const number = Number(typed);
    if (/^-?\d+(\.\d+)?$/.test(typed.trim()) && Number.isFinite(number)) return number;
  }
  return typed;
}

function commit(pointer, spec, typed, input) {
  if (input) input.typing = false;
  asked.delete(pointer);
  state.refused.delete(pointer);
  state.typed.set(pointer, typed);
  if (spec.takes !== 'text') {
    const read = without_commas(typed);
    if (read.asks) {
      asked.set(pointer, read.asks);
      changed();
      return;
    }
    typed = read.text;
    state.typed.set(pointer, typed);
  }
  (spec.put ?? put)(pointer, value_typed(spec, typed, at(state.job, pointer)));
  changed();
}

/** What was typed and is in the text by now; a question that is open holds what it asks of. */
function forget_typed() {
  for (const pointer of [...state.typed.keys()]) if (!asked.has(pointer) && !state.refused.has(pointer)) state.typed.delete(pointer);
}
when_edited(forget_typed);

function comma_question(pointer, spec) {
  const asks = asked.get(pointer);
  if (!asks) return null;
  const choose = (text) => {
    commit(pointer, { ...spec, takes: 'text' }, text);
    control_of(pointer)?.focus();
  };
  return h('p.asks', { key: 'asks', role: 'group', 'aria-label': 'Which is meant?' }, 'Is that ',
    asks.map((text) => [h('button.back', { type: 'button', key: text, onClick: () => choose(text) }, text), text === asks[0] ? ' or ' : '?']));
}

function typed_control(pointer, spec, value, attributes) {
  const tag = spec.long ? 'textarea' : 'input';
  return h(tag, {
    ...attributes,
    type: spec.long ? undefined : 'text',
    rows: spec.long ? 3 : undefined,
    value: state.typed.get(pointer) ?? shown(value),
    placeholder: spec.empty,
    autocomplete: 'off',
    autocapitalize: 'off',
    spellcheck: 'false',
    onInput: (event) => { event.target.typing = true; },
    onChange: (event) => commit(pointer, spec, event.target.value, event.target),
  });
}

function choice_control(pointer, spec, value, attributes) {
  const options = spec.options.some(([key]) => key === (value ?? '')) ? spec.options : [...spec.options, [value, shown(value)]];
  return h('select', {
    ...attributes,
    value: shown(value),
    onChange: (event) => {
      const [chosen] = options.find(([key]) => String(key) === event.target.value);
      (spec.put ?? put)(pointer, chosen === '' ? undefined : chosen);
    },
  }, options.map(([key, words]) => h('option', { key: String(key), value: String(key) }, words)));
}

function tick_control(pointer, spec, value, attributes) {
  return h('input', {
    ...attributes,
    type: 'checkbox',
    checked: value ?? spec.usual ?? false,
    onChange: (event) => (spec.put ?? put)(pointer, event.target.checked === (spec.usual ?? false) && value === undefined ? undefined : event.target.checked),
  });
}

/** A name of several words, broken where they meet and nowhere else. */
export function breakable(name) {
  return typeof name === 'string' ? name.split(/(?<=_)/).flatMap((part, i) => (i > 0 ? [h('wbr'), part] : [part])) : name;
}

/**
 * A field for the value at `pointer`. In `more`: `value` where it does not simply stand there, `says` the control's whole
 * name where the label alone does not tell it, `claims` further pointers whose faults belong here, `beside` what stands
 * behind the control, `below` what stands under it.
 */
export function field(pointer, spec, more = {}) {
  const id = id_of(pointer);
  const value = 'value' in more ? more.value : at(state.job, pointer);
  const faults = faults_at([pointer, ...(more.claims ?? [])]);
  const remark = [...new Set([...(more.claims ?? []), pointer])].map((place) => state.remarks.get(place)).filter(Boolean).join(' ');
  const described = [remark && `${id}-remark`, ...faults.map((_, i) => `${id}-fault-${i}`)].filter(Boolean).join(' ');
  const words = more.label ?? spec.label;
  const attributes = {
    id,
    'aria-label': more.says ?? (typeof words === 'string' && words.includes('_') ? words : undefined), // spoken in one
    'aria-describedby': described || undefined,
    'aria-invalid': faults.length > 0 ? 'true' : undefined,
    key: 'control',
  };
  const control = spec.takes === 'choice' ? choice_control(pointer, spec, value, attributes)
    : spec.takes === 'tick' ? tick_control(pointer, spec, value, attributes)
      : typed_control(pointer, spec, value, attributes);
  const label = h('label', { for: id, key: 'label' }, breakable(words));
  return h(spec.takes === 'tick' ? 'div.field.ticked' : 'div.field', { key: more.key ?? pointer, class: more.class },
    spec.takes === 'tick' ? [control, label] : [label, control], more.beside,
    more.below,
    remark !== '' && h('p.remark', { id: `${id}-remark`, key: 'remark' }, remark),
    comma_question(pointer, spec),
    faults.map((fault, i) => fault_line(fault, `${id}-fault-${i}`, fault.pointer ?? pointer, () => control_of(pointer))));
}

function pair_fields(pointer, spec, more) {
  return spec.labels.map((label, place) => field(`${pointer}/${place}`, {
    ...spec,
    label,
    takes: 'quantity',
    // The two are written together, or not at all.
    put: (inner, value) => {
      const both = [0, 1].map((i) => (i === place ? value : at(state.job, `${pointer}/${i}`)));
      if (both.every((one) => one === undefined)) put(pointer, undefined);
      else if (Array.isArray(at(state.job, pointer)) && value !== undefined) put(inner, value);
      else put(pointer, both.map((one) => one ?? ''));
    },
  }, { says: more.of && `${more.of} ${label}`, claims: place === 0 ? [pointer] : [] }));
}

/** The fields of a list of specs below `pointer`; `more.of` goes before their labels in the controls' names. */
export function fields(pointer, specs, more = {}) {
  return specs.flatMap((spec) => {
    const place = `${pointer}/${spec.key}`;
    if (spec.takes === 'pair') return pair_fields(place, spec, more);
    return [field(place, spec, { says: more.of && `${more.of} ${spec.label}` })];
  });
}
