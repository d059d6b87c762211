// SPDX-License-Identifier: GPL-3.0-or-later
// Printing: what the program makes for paper, opened as a file of the browser's own.
import { h } from './draw.js';
import { state } from './state.js';
import { items } from './job_values.js';
import { papers } from './form.js';
import { Failed, post_for_file } from './requests.js';
import { close_button, show_dialog } from './dialogs.js';
import { sentence } from './faults.js';

let made = null; // { words, address }: the file that was made last
let says = null; // what went wrong

const outputs = [
  ['strips', 'Marking strips', 'True to scale, to be laid along the cloth. Print at 100 %, and measure the bar.'],
  ['sheet', 'Worksheet', 'All of the plan, for the table.'],
  ['layout', 'Pieces on their cloth', 'One page for the wall.'],
];

const checked_joins = () => [...document.querySelectorAll('#dialog input[name="join"]:checked')].map((input) => input.value);

async function make(path, words) {
  if (made) URL.revokeObjectURL(made.address);
  made = null;
  says = null;
  const paper = document.getElementById('print-paper').value;
  const joins = path === 'strips' ? checked_joins() : undefined;
  try {
    const file = await post_for_file(path, { text: state.text, paper, form: 'pdf', joins });
    if (file instanceof Blob) made = { words, address: URL.createObjectURL(file) };
    else says = (file.faults ?? []).map(sentence).join('; ');
  } catch (error) {
    says = error instanceof Failed ? error.message : 'The program does not answer.';
  }
  show_print();
  document.getElementById('print-made')?.click();
}

function seam_ticks() {
  const names = items(state.job?.get('joins')).map((join) => join.get?.('name')).filter((name) => typeof name === 'string');
  return names.length > 1 && h('fieldset', { key: 'joins' }, h('legend', {}, 'Strips of'), names.map((name) => h('label.ticked', { key: name },
    h('input', { type: 'checkbox', name: 'join', value: name, checked: true }), h('span', {}, name))));
}

export function show_print() {
  const rests = state.faults.length > 0 || !state.plan;
  const layout = (state.plan?.cloth ?? []).length > 0;
  show_dialog('Print',
    rests && h('p.fault', { key: 'rests' }, 'There is a fault to mend first.'),
    h('div.field', { key: 'paper' }, h('label', { for: 'print-paper' }, 'Paper'),
      h('select', { id: 'print-paper' }, papers.map(([key, words]) => h('option', { key, value: key }, words)))),
    seam_ticks(),
    h('ul.offers', { key: 'outputs' }, outputs.filter(([path]) => path !== 'layout' || layout).map(([path, words, about]) => h('li', { key: path },
      h('p', {}, h('b', {}, words), h('br'), about),
      h('button', { type: 'button', disabled: rests, 'aria-label': `${words} as PDF`, onClick: () => make(path, words) }, 'PDF')))),
    says && h('p.fault', { key: 'says', role: 'alert' }, says),
    made && h('p', { key: 'made', role: 'status' }, h('a', { id: 'print-made', href: made.address, target: '_blank', rel: 'noopener' }, `Open: ${made.words}`)),
    h('div.buttons', { key: 'buttons' }, close_button('Done')));
}
