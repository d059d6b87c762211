// SPDX-License-Identifier: GPL-3.0-or-later
// One dialog at a time, a real one: the browser keeps the focus in it and gives it back.
import { h, draw } from './draw.js';

const dialog = () => document.getElementById('dialog');

/** Opens the dialog with a heading and content; where it is open already, draws it anew. */
export function show_dialog(heading, ...content) {
  const element = dialog();
  draw(element, h('h2', { key: 'heading', id: 'dialog-heading' }, heading), content);
  element.setAttribute('aria-labelledby', 'dialog-heading');
  if (!element.open) element.showModal();
}

export function close_dialog() {
  dialog().close();
}

export const close_button = (words) => h('button', { type: 'button', key: 'close', onClick: close_dialog }, words);
