// SPDX-License-Identifier: GPL-3.0-or-later
// Marks and thread: how the stretches are marked, and how they are run.
import { h } from './draw.js';
import { state, changed } from './state.js';
import { at } from './job_values.js';
import * as form from './form.js';
import { field, fields } from './fields.js';
import { put } from './work.js';
import { card } from './card.js';

const started = new Map(); // a way of marking that was chosen and has no figure yet

/** The fields of how to mark, at `pointer`; `of` goes before their names. */
export function marking(pointer, of) {
  const now = at(state.job, pointer);
  const written = now instanceof Map ? form.ways_to_mark.find(([key]) => now.has(key))?.[0] : undefined;
  const way = written ?? started.get(pointer) ?? '';
  const choose = (_, chosen) => {
    started.delete(pointer);
    if (chosen === undefined) put(pointer, undefined);
    else if (now === undefined) started.set(pointer, chosen);
    else put(pointer, { [chosen]: written ? at(state.job, `${pointer}/${written}`) : '' });
    changed();
  };
  const words = form.ways_to_mark.find(([key]) => key === way)[1];
  return [
    field(pointer, { key: '', label: 'marks', takes: 'choice', options: form.ways_to_mark, put: choose }, { value: way, says: `${of}marks`, key: `${pointer}#way` }),
    way !== '' && field(`${pointer}/${way}`, { label: words, takes: way === 'parts' ? 'number' : 'quantity', empty: 'how many?' }, { says: `${of}marks ${words}` }),
    way === 'apart' && field(`${pointer}/halves`, { label: 'found by folding in halves', takes: 'tick' }, { says: `${of}marks found by folding in halves` }),
  ];
}

/** The fields of the thread, at `pointer`: a stitch that is counted on the cloth has its own. */
export function threading(pointer, of) {
  const stitch = at(state.job, `${pointer}/stitch`);
  const counted = at(state.job, `${pointer}/threads`) !== undefined;
  return [
    fields(pointer, counted && stitch === undefined ? form.thread.slice(1) : form.thread, { of }),
    counted && h('div.pair', { key: 'counted' },
      field(`${pointer}/threads/0`, { label: 'threads taken up', takes: 'number', required: true }, { says: of && `${of} threads taken up`, claims: [`${pointer}/threads`] }),
      field(`${pointer}/threads/1`, { label: 'threads passed', takes: 'number', required: true }, { says: of && `${of} threads passed` }),
      field(`${pointer}/count`, { label: 'threads counted', takes: 'text' }, { says: of && `${of} threads counted` })),
  ];
}

export function thread_card() {
  return card('thread', 'Marks and thread', { claims: ['/gathering'] }, marking('/marks', ''), threading('/gathering'));
}
