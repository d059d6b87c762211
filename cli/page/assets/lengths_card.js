// SPDX-License-Identifier: GPL-3.0-or-later
// The lengths: those that are found and those that are given, each with its tape.
import { h } from './draw.js';
import { state, changed } from './state.js';
import { entries, pointer, shown } from './job_values.js';
import * as form from './form.js';
import { field } from './fields.js';
import { add_button, add_form, insert_named, more_button, renaming_of, tools } from './rows.js';
import { aside, put } from './work.js';
import { post } from './requests.js';
import { steps_down, steps_near, steps_up, reading } from './figures.js';
import { is_held, moved_along, slider } from './slider.js';
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

function tape_of(at_it, name, value, length) {
  const step = state.plan.tape_step;
  const asked = state.asked.get(name) ?? {};
  const is = steps_near(length.is, step);
  const pin = asked.aim === undefined ? is : steps_near(asked.aim, step);
  const ends = [asked.from === undefined ? Math.floor(Math.min(pin, is) / 2) : steps_up(asked.from, step),
    asked.to === undefined ? Math.max(Math.ceil(Math.max(pin, is) * 1.5), 1) : steps_down(asked.to, step)];
  ends[0] = Math.min(ends[0], pin);
  ends[1] = Math.max(ends[1], pin, ends[0] + 1);
  const room = length.room && [length.room[0] === null ? null : steps_up(length.room[0], step), length.room[1] === null ? null : steps_down(length.room[1], step)];
  const why = is_free(value) || !comes_to_another(given_of(value), length) ? null : ask_if_it_rests(at_it, value);
  const drawn = { ends, pin, notch: is, room, rests: why !== null, says: `${length.text}${room_in_words(room, step, ', ')}` };
  return [slider(at_it, name, step, drawn), why !== null && h('p.why', { key: 'rests' }, `It cannot be slid: ${why}.`), reasons(at_it, name, length, room, step)];
}

function room_in_words(room, step, before = '') {
  if (!room) return '';
  const [least, most] = room.map((end) => end !== null && reading(end, step));
  const unit = state.plan.unit;
  if (room[0] === null && room[1] === null) return `${before}any will do`;
  if (room[1] === null) return `${before}${least} ${unit} and more will do`;
  if (room[0] === null || room[0] === 0) return `${before}up to ${most} ${unit} will do`;
  if (room[0] >= room[1]) return `${before}${most} ${unit} alone will do`;
  return `${before}${least} to ${most} ${unit} will do`;
}

/** What binds at either end, leading there, and what moved along. */
function reasons(at_it, name, length, room, step) {
  const along = moved_along(at_it, name);
  const beyond = ['Below', 'Above'];
  const binds = length.binds ?? [];
  return [
    h('p.why', { key: 'why' }, room ? `${room_in_words(room, step)}. ` : 'Moving it alone puts nothing right. ',
      binds.map((bind, end) => bind && way_to(bind, `${beyond[end]}: ${bind.says}`, `bind-${end}`))),
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
  const length = state.lengths?.get(name);
  const inside = value instanceof Map ? '/is' : '';
  const comes_to = length && !free && comes_to_another(given_of(value), length);
  return h('div.member.length', { key: at_it, class: [free && 'found', is_held(at_it) && 'held'].filter(Boolean).join(' ') },
    free
      ? h('div.field', { key: 'head', 'data-pointer': at_it }, h('span.name', {}, name), h('output.value', {}, length?.text ?? '?'), more_button(at_it, name))
      : field(`${at_it}${inside}`, { label: name, takes: 'quantity', empty: 'how long?', required: true }, { claims: inside ? [at_it] : [], beside: more_button(at_it, name), below: comes_to && h('p.comes', { key: 'comes' }, `comes to ${length.text}`) }),
    tools(at_it, name, place, count, renaming_of(at_it)),
    length?.is !== undefined && tape_of(at_it, name, value, length),
    free && wishes(at_it, name, value),
    h('div.small-row', { key: 'row' }, keep_tick(at_it, name, value), found_or_given(at_it, name, value)));
}

export function lengths_card() {
  const all = entries(state.job?.get('lengths'));
  const rows = (free) => all.map((entry, place) => [entry, place]).filter(([[, value]]) => is_free(value) === free).map(([entry, place]) => length_row(entry, place, all.length));
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
