// SPDX-License-Identifier: GPL-3.0-or-later
// The stretches of a seam: a bar of them as they lie along the band, and the fields of the one that is looked at.
import { h } from './draw.js';
import { state, changed } from './state.js';
import { at, items } from './job_values.js';
import * as form from './form.js';
import { field, fields } from './fields.js';
import { edit, put } from './work.js';

const looked_at = new Map(); // pointer of a seam to the place of the stretch

const kind_of = (segment) => (segment instanceof Map ? segment.get('kind') : undefined) ?? form.usual_kind;
const word_of = (kind) => form.kinds.find(([key]) => key === kind)?.[1] ?? String(kind);
const called = (segment, place) => (segment instanceof Map && segment.get('name')) || `stretch ${place + 1}`;

function pattern(kind, fills = false) {
  const drawing = state.patterns.get(kind) ?? '';
  return h('span.pattern', { key: 'pattern', 'aria-hidden': 'true', html: fills ? drawing.replace('<svg ', '<svg preserveAspectRatio="none" ') : drawing });
}

/** How much of the bar each takes: as much as of the band, as it was planned last. */
function shares(place, count) {
  const planned = state.plan?.joins?.[place]?.segments ?? [];
  if (planned.length !== count) return Array(count).fill(1);
  return planned.map((segment) => Math.max(segment.band, 0) || 1);
}

function bar(at_it, place, segments, now, seam) {
  const parts = shares(place, segments.length);
  return h('div.bar', { key: 'bar', role: 'group', 'aria-label': `stretches of ${seam}` }, segments.map((segment, i) => h('button.stretch', {
    type: 'button',
    key: String(i),
    'aria-pressed': i === now ? 'true' : 'false',
    'aria-label': `${called(segment, i)}, ${word_of(kind_of(segment))}, ${i + 1} of ${segments.length}`,
    title: called(segment, i),
    'data-stretch': String(i),
    style: { 'flex-grow': String(parts[i]) },
    onClick: () => {
      looked_at.set(at_it, i);
      changed();
    },
  }, pattern(kind_of(segment), true))));
}

function ways(at_it, segment, of) {
  const now = kind_of(segment);
  return h('div.kinds', { key: 'kinds', role: 'radiogroup', 'aria-label': `${of} worked as` }, form.kinds.map(([kind, word], i) => h('button.kind', {
    type: 'button',
    key: kind,
    role: 'radio',
    'aria-checked': kind === now ? 'true' : 'false',
    tabindex: kind === now || (i === 0 && !form.kinds.some(([key]) => key === now)) ? '0' : '-1',
    onClick: () => put(`${at_it}/kind`, kind),
    onKeydown: (event) => {
      const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
      if (!by) return;
      event.preventDefault();
      const buttons = [...event.currentTarget.parentNode.children];
      buttons[(i + by + buttons.length) % buttons.length].focus();
      buttons[(i + by + buttons.length) % buttons.length].click();
    },
  }, pattern(kind), h('span', {}, word))));
}

function spread_fields(at_it, of) {
  const spread = at(state.job, `${at_it}/spread`);
  const way = spread instanceof Map ? (spread.has('fade') ? 'fade' : 'shape') : spread ?? 'even';
  const choose = (_, chosen) => {
    if (chosen === 'fade') put(`${at_it}/spread`, { fade: ['', ''] });
    else if (chosen === 'shape') put(`${at_it}/spread`, { shape: [[0, 1], [1, 1]] });
    else put(`${at_it}/spread`, chosen === 'even' ? undefined : chosen);
  };
  return [
    field(`${at_it}/spread`, { label: 'fullness spread', takes: 'choice', options: form.spreads, put: choose }, { value: way, says: `${of} fullness spread`, claims: [`${at_it}/spread/fade`, `${at_it}/spread/shape`] }),
    way === 'fade' && form.fade.map((label, i) => field(`${at_it}/spread/fade/${i}`, { label, takes: 'quantity', empty: '3 cm', required: true }, { says: `${of} ${label}` })),
    way === 'shape' && h('p.hint', { key: 'shape' }, 'The shape is written in the text.'),
  ];
}

function stretch_tools(at_it, list, i, count, name) {
  const move = (to) => edit({ pointer: at_it, move: to }, () => { looked_at.set(list, to); });
  return h('div.tools', { key: 'stretch-tools', role: 'group', 'aria-label': `Change ${name}` },
    h('button', { type: 'button', 'aria-label': `Move ${name} towards the start`, disabled: i === 0, onClick: () => move(i - 1) }, 'To the start'),
    h('button', { type: 'button', 'aria-label': `Move ${name} towards the end`, disabled: i === count - 1, onClick: () => move(i + 1) }, 'To the end'),
    h('button', { type: 'button', 'aria-label': `Add a stretch after ${name}`, onClick: () => edit({ pointer: `${list}/segments/${i + 1 === count ? '-' : i + 1}`, insert: { kind: form.usual_kind } }, () => { looked_at.set(list, i + 1); }) }, 'Add one after'),
    h('button', { type: 'button', 'aria-label': `Remove ${name}`, disabled: count === 1, onClick: () => edit({ pointer: at_it, remove: true }, () => { looked_at.set(list, Math.max(0, i - 1)); }) }, 'Remove'));
}

const first_worked = (segments) => Math.max(0, segments.findIndex((segment) => kind_of(segment) !== 'flat'));

/** The stretches of the seam at `at_it`, the `place`th of the job. */
export function stretches(at_it, place, join, seam) {
  const segments = items(join.get('segments'));
  if (segments.length === 0) {
    return h('div.undivided', { key: 'undivided' }, h('p.hint', {}, 'One gathered stretch from end to end.'),
      h('button', { type: 'button', 'aria-label': `Divide ${seam} into stretches`, onClick: () => put(`${at_it}/segments`, [{ kind: form.usual_kind }]) }, 'Divide it'));
  }
  const now = Math.min(looked_at.get(at_it) ?? first_worked(segments), segments.length - 1);
  const segment = segments[now];
  const inner = `${at_it}/segments/${now}`;
  const name = called(segment, now);
  const of = `${name}:`;
  return h('div.stretches', { key: 'stretches', 'data-stretch': String(now) },
    bar(at_it, place, segments, now, seam),
    h('p.which', { key: 'which' }, `${now + 1} of ${segments.length}: `, h('b', {}, name), segment instanceof Map && segment.get('to') ? `, to the mark ${segment.get('to')}` : ''),
    h('p.label', { key: 'worked' }, 'worked as'),
    ways(inner, segment, of),
    fields(inner, form.stretch, { of }),
    stretch_tools(inner, at_it, now, segments.length, name),
    kind_of(segment) !== 'flat' && h('details.folded-away', { key: 'stretch-more' }, h('summary', {}, 'Share, limits and spread'),
      h('div.inside', {}, fields(inner, form.stretch_more, { of }), spread_fields(inner, of))));
}
