// SPDX-License-Identifier: GPL-3.0-or-later
// Where there is no job yet: those to start from, each with its picture.
import { h, draw } from './draw.js';
import { get, post } from './requests.js';

/** The first picture of a join among the fragments of a start's plan, as the program made it. */
async function picture_of(text) {
  const { sheet } = await post('plan', { text, width: 'narrow', have: {} });
  const name = Object.keys(sheet ?? {}).find((fragment) => /^join-\d+-picture$/.test(fragment));
  return name === undefined ? '' : sheet[name].html;
}

/** Shows the starts in `root`; `take` gets the text of the one that is chosen. */
export async function show_starts(root, take) {
  const starts = await get('starts');
  const pictures = new Map();
  const show = () => draw(root,
    h('h1', { key: 'title' }, 'What do you want to sew?'),
    h('p', { key: 'says' }, 'Take the one that is nearest; every figure of it can be changed. Nothing is written before you save.'),
    h('ul.starts', { key: 'starts' }, starts.map(({ name, summary, text }) => h('li', { key: name },
      h('div.picture', { 'aria-hidden': 'true', inert: true, html: pictures.get(name) ?? '' }),
      h('h2', {}, name.replaceAll('-', ' ')),
      h('p', {}, summary),
      h('button', { type: 'button', 'aria-label': `Start from ${name.replaceAll('-', ' ')}`, onClick: () => take(text) }, 'Start from this')))));
  show();
  for (const { name, text } of starts) {
    pictures.set(name, await picture_of(text));
    if (root.hidden) return;
    show();
  }
}
