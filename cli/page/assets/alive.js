// SPDX-License-Identifier: GPL-3.0-or-later
// Whether the program is there, asked every ten seconds, and whether the file is still the one that was read.
import { h, draw } from './draw.js';
import { state, changed, is_saved } from './state.js';
import { get, when_heard } from './requests.js';
import { plan, resume, set_text } from './work.js';
import { keep_as_file } from './save.js';

const every = 10000; // ms

async function look() {
  try {
    const { read } = await get('alive');
    const other = state.name !== null && read !== state.read;
    if (other !== state.on_disk) {
      state.on_disk = other;
      state.on_disk_gone = read === null;
      changed();
    }
  } catch {
    // That nobody answers is told by when_heard; all else is no news.
  }
}

async function read_again() {
  const { text, read } = await get('job');
  Object.assign(state, { saved: text, read, on_disk: false });
  set_text(text);
}

export function watch_the_program() {
  when_heard((heard) => {
    if (state.gone === !heard) return;
    state.gone = !heard;
    changed();
    if (heard) resume();
  });
  setInterval(look, every);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && look());
  // A drawing beside the job may have been changed in another window.
  addEventListener('focus', () => state.started && /"drawing"\s*:/.test(state.text) && plan());
}

/** What is told above both halves: trouble, the program gone, the file changed. */
export function draw_notices(root) {
  draw(root,
    state.gone && h('div.notice', { key: 'gone', role: 'alert' },
      h('p', {}, h('strong', {}, 'The program has stopped. '), 'All that you wrote is still here, but nothing is planned or saved until it is started again.'),
      h('button', { type: 'button', onClick: keep_as_file }, 'Keep the text as a file')),
    state.on_disk && h('div.notice', { key: 'disk', role: 'status' },
      h('p', {}, state.on_disk_gone ? 'The file is not on the disk any more. Save writes it again.' : 'The file was changed on the disk. Saving will ask which of the two it shall be.'),
      !state.on_disk_gone && h('button', { type: 'button', onClick: read_again }, is_saved() ? 'Read it again' : 'Read it again and put yours aside')),
    state.trouble && h('div.notice', { key: 'trouble', role: 'alert' }, h('p', {}, state.trouble),
      h('button', { type: 'button', onClick: () => { state.trouble = null; changed(); } }, 'All right')));
}
