// SPDX-License-Identifier: GPL-3.0-or-later
// An edge of a seam: how long it is, or the line it is drawn as: through points, in a drawing, or as path data.
import { h } from './draw.js';
import { state } from './state.js';
import { at, items, keys_of, without_maps } from './job_values.js';
import * as form from './form.js';
import { faults_at, fault_line } from './faults.js';
import { field, fields, id_of } from './fields.js';
import { edit, put } from './work.js';

/** By what an edge is given: a key of form.edge_ways. */
const way_of = (edge) => (edge instanceof Map && form.edge_ways.map(([way]) => way).find((way) => edge.has(way))) || 'length';

/** As long as it was planned last, for a line to begin with. */
function planned_length(at_it) {
  const [, place, side] = keys_of(at_it);
  const length = state.plan?.joins?.[Number(place)]?.[side];
  return typeof length === 'number' ? `${Number(length.toFixed(2))} ${state.plan.unit}` : '';
}

/** An edge given in another way, with what it says besides. */
function given_by(way, at_it) {
  const edge = at(state.job, at_it);
  const length = planned_length(at_it);
  const begun = { length: { length }, points: { points: [['0', '0'], [length, '0']] }, drawing: { drawing: '', id: '' }, path: { path: '' } }[way];
  const besides = edge instanceof Map ? [...edge].filter(([key]) => form.edge_besides(way).includes(key)) : [];
  if (way === 'length' && besides.length === 0) return length;
  return { ...begun, ...Object.fromEntries(besides.map(([key, value]) => [key, without_maps(value)])) };
}

const place_of = (point) => items(point instanceof Map ? point.get('at') : point);

/** One point: so far to the right, so far up, and whether the line turns sharply there. */
function point_fields(at_point, point, number, of, count) {
  const inside = point instanceof Map ? `${at_point}/at` : at_point;
  const says = `${of} point ${number}`;
  const turns = (_, corner) => put(at_point, corner ? { at: place_of(point), corner: true } : place_of(point));
  return h('fieldset.point', { key: at_point, 'aria-label': says },
    h('div.wishes', {},
      form.point.map((spec, i) => field(`${inside}/${i}`, { ...spec, label: i === 0 ? `${number}: ${spec.label}` : spec.label, required: true }, { says: `${says} ${spec.label}`, claims: i === 0 ? [at_point] : [] }))),
    h('div.small-row', {},
      field(`${at_point}/corner`, { ...form.corner, put: turns }, { value: point instanceof Map ? point.get('corner') : undefined, says: `${says} ${form.corner.label}` }),
      h('button', { type: 'button', key: 'behind', 'aria-label': `A point behind ${says}`, onClick: () => edit({ pointer: `${at_point.slice(0, at_point.lastIndexOf('/'))}/${number}`, insert: ['', ''] }) }, 'Add behind'),
      h('button', { type: 'button', key: 'remove', 'aria-label': `Remove ${says}`, disabled: count <= 2, onClick: () => edit({ pointer: at_point, remove: true }) }, 'Remove')));
}

function points_fields(at_it, label, of) {
  const at_points = `${at_it}/points`;
  const points = items(at(state.job, at_points));
  return h('fieldset.points', { key: at_points }, h('legend', {}, `${label}, through points`),
    faults_at([at_it, at_points]).map((fault, i) => fault_line(fault, `${id_of(at_points)}-fault-${i}`, fault.pointer)),
    [at_it, at_points].map((pointer) => state.remarks.get(pointer) && h('p.remark', { key: `remark ${pointer}` }, state.remarks.get(pointer))),
    points.map((point, i) => point_fields(`${at_it}/points/${i}`, point, i + 1, of, points.length)));
}

/** The fields that say how long an edge is, or how it runs. */
export function edge_fields(at_it, label, of) {
  const edge = at(state.job, at_it);
  const says = `${of} ${label}`;
  const length = { label, takes: 'quantity', empty: 'how long?', required: true };
  if (!(edge instanceof Map)) return field(at_it, length, { says });
  const way = way_of(edge);
  if (way === 'length') return field(`${at_it}/length`, length, { says, claims: [at_it] });
  if (way === 'points') return points_fields(at_it, label, says);
  if (way === 'drawing') return form.edge_in_drawing.map((spec, i) => field(`${at_it}/${spec.key}`, { ...spec, label: `${label} ${spec.label}` }, { says: `${says} ${spec.label}`, claims: i === 0 ? [at_it] : [] }));
  return field(`${at_it}/path`, { ...form.edge_path, label }, { says, claims: [at_it], class: 'wide-field' });
}

/** The lengths at the ends of an edge that is not drawn: both are written, or neither. */
function ends_fields(at_it, label, of) {
  const edge = at(state.job, at_it);
  const written = at(state.job, `${at_it}/ends`);
  return form.edge_ends.labels.map((words, place) => field(`${at_it}/ends/${place}`, {
    takes: 'quantity',
    label: `${label}: ${words}`,
    empty: form.edge_ends.empty,
    put: (_, value) => {
      const both = [0, 1].map((i) => (i === place ? value : at(state.job, `${at_it}/ends/${i}`)));
      if (both.every((one) => one === undefined)) put(`${at_it}/ends`, undefined);
      else if (written !== undefined && value !== undefined) put(`${at_it}/ends/${place}`, value);
      else if (edge instanceof Map) put(`${at_it}/ends`, both.map((one) => one ?? ''));
      else put(at_it, { length: edge, ends: both.map((one) => one ?? '') });
    },
  }, { says: `${of} ${label} ${words}`, claims: place === 0 ? [`${at_it}/ends`] : [] }));
}

/** What else an edge has: by what it is given, its ends, and what a drawn one needs. */
export function edge_more(at_it, label, of) {
  const way = way_of(at(state.job, at_it));
  const choice = { label: `${label} given by`, takes: 'choice', options: form.edge_ways, put: (_, chosen) => put(at_it, given_by(chosen, at_it)) };
  return [
    field(`${at_it}#way`, choice, { value: way, says: `${of} ${label} given by` }),
    way === 'length' ? ends_fields(at_it, label, of) : fields(at_it, form.edge_drawn(way), { of: `${of} ${label}` }),
  ];
}
