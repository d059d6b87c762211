// SPDX-License-Identifier: GPL-3.0-or-later
// The wearers: a list pasted or dropped from a spreadsheet, planned row by row, those that do not come right first.
import { h, draw } from './draw.js';
import { state, changed } from './state.js';
import { Failed, post } from './requests.js';
import { sentence } from './faults.js';

let list = '';
let answer = null; // { text, rows, faults }
let says = null;

const example = 'wearer;wrist;neck\nfirst porter;17;39\nsecond porter;18,5;41';

async function plan_all() {
  says = null;
  try {
    answer = { text: state.text, ...(await post('cast', { text: state.text, list })) };
  } catch (error) {
    answer = null;
    says = error instanceof Failed ? error.message : 'The program does not answer.';
  }
  changed();
}

async function take_file(file) {
  list = await file.text();
  const area = document.getElementById('wearers-list');
  area.typing = false;
  changed();
  plan_all();
}

function drop_place() {
  return {
    onDragover: (event) => event.preventDefault(),
    onDrop: (event) => {
      const [file] = event.dataTransfer.files;
      if (!file) return;
      event.preventDefault();
      take_file(file);
    },
  };
}

const is_right = (row) => row.verdict === 'within limits';

function table() {
  const rows = answer.rows ?? [];
  if (rows.length === 0) return null;
  const wrong = rows.filter((row) => !is_right(row)).length;
  const ordered = [...rows.filter((row) => !is_right(row)), ...rows.filter(is_right)];
  const lengths = [...new Set(rows.flatMap((row) => Object.keys(row.lengths ?? {})))];
  const values = ordered.map((row) => new Map(Object.entries(row.lengths ?? {})));
  const shown = (value) => (typeof value === 'object' && value !== null ? value.text : value) ?? '';
  return h('div.scroll', { key: 'table', role: 'region', tabindex: '0', 'aria-label': 'Wearers' }, h('table.wearers', {},
    h('caption', {}, `${rows.length === 1 ? 'One wearer' : `${rows.length} wearers`}, ${wrong === 0 ? 'none' : wrong} not within limits`),
    h('thead', {}, h('tr', {}, ['wearer', 'verdict', 'why', ...lengths].map((head, i) => h('th', { key: head, scope: 'col', class: i > 2 ? 'figure' : undefined }, head)))),
    h('tbody', {}, ordered.map((row, i) => h('tr', { key: `${i} ${row.wearer}`, class: is_right(row) ? undefined : 'bad' },
      h('th', { scope: 'row' }, row.wearer),
      h('td', {}, h('span.sign', { 'aria-hidden': 'true' }, is_right(row) ? '✓ ' : '✗ '), row.verdict),
      h('td', {}, row.reason ?? ''),
      lengths.map((name) => h('td.figure', { key: name }, shown(values[i].get(name)))))))));
}

export function draw_wearers(root) {
  if (root.hidden) return;
  draw(root,
    h('h2', { key: 'heading' }, 'Wearers'),
    h('p', { key: 'says' }, 'Paste a list from a spreadsheet, or drop its file here: first the column “wearer”, then a column a measure. Cells left empty take the job’s own.'),
    h('div.field.wide-field', { key: 'list', ...drop_place() },
      h('label', { for: 'wearers-list' }, 'List of wearers'),
      h('textarea', { id: 'wearers-list', rows: 6, value: list, placeholder: example, spellcheck: 'false', wrap: 'off', onInput: (event) => { event.target.typing = true; list = event.target.value; } })),
    h('div.buttons', { key: 'buttons' },
      h('button.main', { type: 'button', onClick: plan_all }, 'Plan them all'),
      h('label.file', { for: 'wearers-file' }, 'or take a file ', h('input', { id: 'wearers-file', type: 'file', accept: '.csv,.txt,.tsv,text/csv,text/plain', onChange: (event) => event.target.files[0] && take_file(event.target.files[0]) }))),
    says && h('p.fault', { key: 'trouble', role: 'alert' }, says),
    answer?.faults?.length > 0 && h('ul.text-faults', { key: 'faults', 'aria-label': 'Faults in the list' }, answer.faults.map((fault, i) => h('li', { key: String(i) }, `${fault.line ? `Line ${fault.line}: ` : ''}${sentence(fault)}.`))),
    answer && answer.text !== state.text && h('p.hint', { key: 'older' }, 'The job has changed since; plan them again.'),
    answer && table(),
    answer?.not_planned > 0 && h('p.hint', { key: 'left' }, `${answer.not_planned} more are too many for a job so large: plan them with gatherwright cast.`));
}
