// SPDX-License-Identifier: GPL-3.0-or-later
// The lengths: those that are found and those that are given, each with its tape.
import { h, draw_again } from './draw.js';
import { state, changed } from './state.js';
import { entries, pointer, shown } from './job_values.js';
import * as form from './form.js';
import { breakable, field } from './fields.js';
import { add_button, add_form, insert_named, more_button, renaming_of, tools } from './rows.js';
import { aside, put } from './work.js';
import { post } from './requests.js';
import { held_slider, is_held, moved_along, slider } from './slider.js';
import { as_before } from './as_before.js';
import { card } from './card.js';
import { way_to } from './ways.js';
import { sentence } from './faults.js';

const rests = new Map(); // a formula, whatever its figures, to why it cannot be slid, or null where it can

const is_free = (value) => value instanceof Map && !value.has('is');
const given_of = (value) => (value instanceof Map ? value.get('is') : value);

/** Whether what is written does not say by itself what it comes to. */
const comes_to_another = (written, length) => typeof written !== 'number' && written !== length.text;

/** Asks once whether a formula can be slid, where nothing but the program can tell. */
function ask_if_it_rests(at_it, value) {
  const key = shown(given_of(value)).replace(/\d+/g, '#');
  if (rests.has(key)) return rests.get(key);
  rests.set(key, null);
  aside(async () => {
    const answer = await post('change', { text: state.text, pointer: at_it, slide: 1 });
    if (answer.faults?.length > 0) {
      rests.set(key, sentence(answer.faults[0]));
      changed();
    }
  });
  return null;
}

function tape_of(at_it, name, value, length, tape) {
  const why = is_free(value) || !comes_to_another(given_of(value), length) ? null : ask_if_it_rests(at_it, value);
  const drawn = { ...tape, step: state.plan.tape_step, rests: why !== null, says: [length.text, tape.says].filter(Boolean).join(', ') };
  return [slider(at_it, name, drawn), why !== null && h('p.why', { key: 'rests' }, `It cannot be slid: ${why}.`), reasons(at_it, name, length, tape)];
}

const as_sentence = (words) => `${words.slice(0, 1).toUpperCase()}${words.slice(1)}. `;

/** What binds at either end, leading there, and what moved along. */
function reasons(at_it, name, length, tape) {
  const along = moved_along(at_it, name);
  const beyond = ['Below', 'Above'];
  const binds = length.binds ?? [];
  return [
    h('p.why', { key: 'why' }, tape.says ? as_sentence(tape.says) : 'Moving it alone puts nothing right. ',
      binds.map((bind, end) => bind && way_to(bind, `${beyond[end]}: ${bind.says.replace(/^The /, 'the ')}`, `bind-${end}`))),
    along.length > 0 && h('p.along', { key: 'along', role: 'status' }, 'Moved along: ', along.map(([other, before, now]) => `${other} ${before} → ${now}`).join('; '), '.'),
  ];
}

/** Whether a length is kept where nothing is written: a formula that names a measure is. */
function kept_as_usual(value) {
  const names = new Set(String(given_of(value) ?? '').match(/\p{L}[\p{L}\p{N}_]*/gu) ?? []);
  return !is_free(value) && entries(state.job.get('measures')).some(([name]) => names.has(name));
}

function keep_tick(at_it, name, value) {
  const written = value instanceof Map ? value.get('keep') : undefined;
  return field(`${at_it}/keep`, { label: 'keep: no advice may touch it', takes: 'tick', usual: kept_as_usual(value) }, { value: written, says: `keep ${name}: no advice may touch it` });
}

function found_or_given(at_it, name, value) {
  const free = is_free(value);
  const kept = value instanceof Map && value.has('keep') ? { keep: value.get('keep') } : {};
  const text = state.lengths?.get(name)?.text ?? '';
  const other = free ? (value.has('keep') ? { is: text, ...kept } : text) : { aim: shown(given_of(value)), ...kept };
  return h('button', { type: 'button', key: 'other', onClick: () => put(at_it, other) }, free ? 'Give it yourself' : 'Let it be found');
}

function wishes(at_it, name, value) {
  return h('div.wishes', { key: 'wishes' }, form.free_length.map((spec) => field(`${at_it}/${spec.key}`, spec, { says: `${name} ${spec.label}`, value: value.get(spec.key) })));
}

function length_row([name, value], place, count) {
  const at_it = pointer('lengths', name);
  const free = is_free(value);
  const length = state.lengths.get(name);
  const tape = state.tapes.get(name);
  const inside = value instanceof Map ? '/is' : '';
  const comes_to = length && !free && comes_to_another(given_of(value), length);
  return h('div.member.length', { key: at_it, class: [free && 'found', is_held(at_it) && 'held'].filter(Boolean).join(' ') },
    free
      ? h('div.field', { key: 'head', 'data-pointer': at_it }, h('span.name', {}, breakable(name)), h('output.value', {}, length?.text ?? '?'), more_button(at_it, name))
      : field(`${at_it}${inside}`, { label: name, takes: 'quantity', empty: 'how long?', required: true }, { claims: inside ? [at_it] : [], beside: more_button(at_it, name), below: comes_to && h('p.comes', { key: 'comes' }, `comes to ${length.text}`) }),
    tools(at_it, name, place, count, renaming_of(at_it)),
    tape && tape_of(at_it, name, value, length, tape),
    free && wishes(at_it, name, value),
    h('div.small-row', { key: 'row' }, keep_tick(at_it, name, value), found_or_given(at_it, name, value)));
}

function row_as_before(entry, place, count) {
  const [name] = entry;
  const at_it = pointer('lengths', name);
  if (is_held(at_it)) return length_row(entry, place, count);
  const shows = [state.written.lengths[name], place, count, state.written.measures, state.lengths.get(name), state.tapes.get(name), state.plan?.tape_step, state.plan?.unit, moved_along(at_it, name)];
  return as_before(at_it, shows, () => length_row(entry, place, count));
}

/** The length that is being slid, as it comes to now; all else on the left follows a little later. */
export function draw_slid_length() {
  const held = held_slider();
  const row = held?.input.closest('.length');
  const all = entries(state.job?.get('lengths'));
  const place = all.findIndex(([name]) => pointer('lengths', name) === held?.pointer);
  if (row && place >= 0 && state.faults.length === 0) draw_again(row, length_row(all[place], place, all.length));
}

export function lengths_card() {
  const all = entries(state.job?.get('lengths'));
  const rows = (free) => all.map((entry, place) => [entry, place]).filter(([[, value]]) => is_free(value) === free).map(([entry, place]) => row_as_before(entry, place, all.length));
  const found = rows(true);
  const given = rows(false);
  return card('lengths', 'Lengths', {
    beside: add_button('lengths', 'Add a length'),
    says: all.length === 0 ? 'Of cloth, between seams. None are written yet.' : 'Between seams. Within the shaded room nothing else need change.',
    claims: ['/lengths'],
  },
  add_form('lengths', [['name of the length', 'one word: cuff'], ['how long', 'empty: found for you']],
    ([name, size]) => (name === '' ? null : insert_named('lengths', name, size === '' ? {} : size))),
  found.length > 0 && h('h3', { key: 'found' }, 'Found for you'), found,
  given.length > 0 && h('h3', { key: 'given' }, 'Given'), given);
}
