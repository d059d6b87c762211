// SPDX-License-Identifier: GPL-3.0-or-later
// Saving: the file is written as the text is; where it is no longer what was read, both are shown and one is chosen.
import { h } from './draw.js';
import { state, changed, is_saved } from './state.js';
import { Failed, Gone, post } from './requests.js';
import { set_text } from './work.js';
import { close_button, close_dialog, show_dialog } from './dialogs.js';
import { sentence } from './faults.js';

async function sent(body) {
  try {
    return { answer: await post('save', body) };
  } catch (error) {
    if (error instanceof Gone) return { gone: true };
    if (error instanceof Failed) return { failed: error };
    throw error;
  }
}

function saved(text, answer) {
  Object.assign(state, { saved: text, read: answer.read, name: answer.name ?? state.name, on_disk: false, trouble: null });
  close_dialog();
  changed();
}

async function save_as(read, name) {
  const text = state.text;
  const { answer, failed } = await sent(name === undefined ? { text, read } : { text, read, name });
  if (answer && !answer.faults) return saved(text, answer);
  if (answer?.faults) return ask_name(name, answer.faults[0]);
  if (failed?.status === 409 && failed.body?.faults) return ask_name(name, failed.body.faults[0]);
  if (failed?.status === 409) return ask_which(text, failed.body);
  if (failed) {
    state.trouble = `Not saved: ${failed.message}`;
    changed();
  }
}

/** Saves the text; the first time it asks for a name. */
export function save() {
  document.activeElement?.blur?.(); // a field that is being typed in is left
  if (state.name === null) ask_name('');
  else save_as(state.read);
}

function ask_name(typed, fault) {
  const done = (event) => {
    event.preventDefault();
    const input = document.getElementById('save-name');
    save_as(null, input.value.trim());
  };
  show_dialog('Save under which name?',
    h('form', { key: 'name', onSubmit: done, novalidate: true },
      h('div.field', {}, h('label', { for: 'save-name' }, 'Name'),
        h('input', { id: 'save-name', type: 'text', maxlength: 64, autocomplete: 'off', value: typed ?? '', 'aria-describedby': fault ? 'save-fault' : 'save-hint', 'aria-invalid': fault ? 'true' : undefined, onInput: (event) => { event.target.typing = true; } })),
      h('p.hint', { id: 'save-hint', key: 'hint' }, 'Letters, digits, spaces, - and _. It goes into the folder where the page was started, as NAME.json.'),
      fault && h('p.fault', { id: 'save-fault', key: 'fault', role: 'alert' }, `${sentence(fault)}.`),
      h('div.buttons', { key: 'buttons' }, h('button.main', { type: 'submit' }, 'Save'), close_button('Not now'))));
}

/** A text line by line, those that the other one has not are marked. */
function compared(text, other) {
  const there = new Set(other.split('\n'));
  return text.split('\n').map((line, i) => h('span.line', { key: String(i), class: there.has(line) ? undefined : 'differs' }, line, '\n'));
}

function ask_which(text, disk) {
  const keep_mine = () => save_as(disk.read ?? null);
  const take_disk = () => {
    Object.assign(state, { saved: disk.text, read: disk.read, on_disk: false });
    close_dialog();
    set_text(disk.text);
  };
  const there = typeof disk.text === 'string';
  show_dialog(there ? 'The file was changed meanwhile' : 'The file is not there any more',
    h('p', { key: 'why' }, there ? 'It was written elsewhere since it was read here. Lines that differ are marked. Which of the two shall it be? If you take the one on the disk, Undo brings yours back; if you save yours, the other is gone.'
      : 'It was moved or removed. Your text is all here.'),
    there && h('div.both', { key: 'both' },
      h('section', { 'aria-labelledby': 'yours' }, h('h3', { id: 'yours' }, 'Yours, here'), h('pre', { tabindex: '0', 'aria-label': 'Your text' }, compared(text, disk.text))),
      h('section', { 'aria-labelledby': 'theirs' }, h('h3', { id: 'theirs' }, 'On the disk'), h('pre', { tabindex: '0', 'aria-label': 'Text on the disk' }, compared(disk.text, text)))),
    h('div.buttons', { key: 'buttons' },
      h('button.main', { type: 'button', onClick: keep_mine }, there ? 'Save yours over it' : 'Save it again'),
      there && h('button', { type: 'button', onClick: take_disk }, 'Take the one on the disk'),
      close_button('Not now')));
  for (const first of document.querySelectorAll('.both pre')) first.querySelector('.differs')?.scrollIntoView({ block: 'nearest' });
}

/** Gives the text as a file that the browser keeps. */
export function keep_as_file() {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([state.text], { type: 'application/json' }));
  link.download = state.name ?? 'job.json';
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/** Before the page is left with something unsaved, the browser asks. */
export function ask_before_leaving() {
  window.addEventListener('beforeunload', (event) => {
    if (!state.started || is_saved()) return;
    event.preventDefault();
    event.returnValue = '';
  });
}
