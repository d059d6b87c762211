// SPDX-License-Identifier: GPL-3.0-or-later
// The text itself, to be read and edited: its lines numbered, its remarks paler, its faults at their lines.
import { h, draw } from './draw.js';
import { state, changed, step } from './state.js';
import { plan } from './work.js';
import { after_edit, as_edited } from './lines.js';
import { show_view } from './views.js';
import { sentence } from './faults.js';

const pause = 250; // ms after a key before the text is planned

let editing = null; // { before }: the text where this edit began; it is one step until the text is left
let timer;

const area = () => document.getElementById('text-area');

function edited(event) {
  editing ??= { before: state.text };
  step(after_edit(state.text, event.target.value), editing.before);
  changed();
  clearTimeout(timer);
  timer = setTimeout(plan, pause);
}

export function leave_text() {
  editing = null;
}

/** A line's parts that are remarks, strings and the rest; `inside` tells whether it begins within a remark. */
function parts_of(line, inside) {
  const parts = [];
  let rest = line;
  while (rest !== '') {
    const [found] = inside ? (/^.*?\*\//.exec(rest) ?? [rest]) : (/^(?:\/\/.*|\/\*.*?\*\/|\/\*.*|"(?:[^"\\]|\\.)*"?|[^"/]+|\/)/.exec(rest) ?? [rest]);
    const remark = inside || found.startsWith('//') || found.startsWith('/*');
    if (inside) inside = !found.endsWith('*/');
    else if (found.startsWith('/*')) inside = !(found.length > 3 && found.endsWith('*/'));
    parts.push([found, remark]);
    rest = rest.slice(found.length);
  }
  return [parts, inside];
}

function shown_lines(lines, faulty) {
  let inside = false;
  return lines.map((line, i) => {
    let parts;
    [parts, inside] = parts_of(line, inside);
    return h('span.line', { key: String(i), class: faulty.has(i + 1) ? 'faulty' : undefined }, parts.map(([words, remark]) => (remark ? h('i', {}, words) : words)), '\n');
  });
}

/** Shows a line of the text and puts the cursor there. */
export function show_line(line) {
  show_view('text');
  const lines = as_edited(state.text).split('\n');
  const start = lines.slice(0, line - 1).reduce((sum, words) => sum + words.length + 1, 0);
  area().focus();
  area().setSelectionRange(start, start + (lines[line - 1]?.length ?? 0));
  document.querySelectorAll('#view-text .line')[line - 1]?.scrollIntoView({ block: 'center' });
}

export function draw_text(root) {
  if (root.hidden) return;
  const text = as_edited(state.text);
  const lines = text.split('\n');
  const faulty = new Map(state.faults.map((fault) => [fault.line, fault]));
  draw(root,
    h('ul.text-faults', { key: 'faults', 'aria-label': 'Faults in the text' }, state.faults.map((fault, i) => h('li', { key: String(i) },
      h('button.link', { type: 'button', onClick: () => show_line(fault.line) }, `Line ${fault.line}`), `: ${sentence(fault)}.`))),
    h('div.text', { key: 'text' },
      h('div.numbers', { key: 'numbers', 'aria-hidden': 'true' }, lines.map((_, i) => h('span', { key: String(i), class: faulty.has(i + 1) ? 'faulty' : undefined }, faulty.has(i + 1) ? `✗ ${i + 1}` : String(i + 1)))),
      h('div.written', { key: 'written' },
        h('pre', { key: 'pre', 'aria-hidden': 'true' }, shown_lines(lines, faulty)),
        h('textarea', {
          key: 'area',
          id: 'text-area',
          'aria-label': 'The text of the job',
          'aria-invalid': state.faults.length > 0 ? 'true' : undefined,
          value: text,
          spellcheck: 'false',
          autocapitalize: 'off',
          autocomplete: 'off',
          wrap: 'off',
          rows: lines.length,
          onInput: edited,
          onBlur: leave_text,
        }))));
}
