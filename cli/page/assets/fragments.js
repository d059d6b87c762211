// SPDX-License-Identifier: GPL-3.0-or-later
// The sheet in its fragments: those that came anew are put in, the others stay as they are. They are made by the program,
// which has escaped the job's text; nothing else on the page is put in as markup.
import { take_verdict } from './verdict.js';
import { light_again } from './light.js';

const digests = new Map();
const elsewhere = new Set(['verdict', 'mend']); // shown by the page itself, in view or with buttons
const first = new Set(['wrong']); // before what would put it right

/** The digests of what is shown, for the program to send only what differs. */
export const have = () => Object.fromEntries(digests);

const join_of = (name) => /^join-(\d+)/.exec(name)?.[1];

function section_of(root, name) {
  const join = join_of(name);
  if (join === undefined) return root;
  let section = root.querySelector(`:scope > [data-join="${Number(join) - 1}"]`);
  if (!section) {
    section = document.createElement('section');
    section.className = 'join';
    section.dataset.join = String(Number(join) - 1);
    section.setAttribute('aria-labelledby', `join-${join}`);
  }
  return section;
}

function fragment_of(parent, name) {
  let element = parent.querySelector(`:scope > [data-fragment="${name}"]`);
  if (!element) {
    element = document.createElement('div');
    element.dataset.fragment = name;
    element.className = 'fragment';
  }
  return element;
}

/** Puts the node at the place, and gives the place behind it. */
function settle(parent, node, place) {
  if (node === place) return place.nextSibling;
  parent.insertBefore(node, place);
  return place;
}

function clear_from(parent, place) {
  while (place) {
    const next = place.nextSibling;
    place.remove();
    place = next;
  }
}

function show_in(root, entries) {
  let place = root.firstChild;
  const inner = new Map(); // of each join's section the place that has been reached
  for (const [name, { digest, html }] of entries) {
    const parent = section_of(root, name);
    const element = fragment_of(parent, name);
    if (html !== undefined) element.innerHTML = html;
    element.dataset.digest = digest;
    if (parent === root) {
      place = settle(root, element, place);
    } else {
      if (!inner.has(parent)) {
        place = settle(root, parent, place);
        inner.set(parent, parent.firstChild);
      }
      inner.set(parent, settle(parent, element, inner.get(parent)));
    }
  }
  for (const [parent, rest] of inner) clear_from(parent, rest);
  clear_from(root, place);
}

/** Shows the fragments of an answer: what is wrong in `wrong`, the rest in `root`. */
export function show(sheet, wrong, root) {
  const entries = Object.entries(sheet);
  digests.clear();
  for (const [name, { digest }] of entries) digests.set(name, digest);
  if (sheet.verdict?.html !== undefined) take_verdict(sheet.verdict.html);
  const shown = entries.filter(([name]) => !elsewhere.has(name));
  show_in(wrong, shown.filter(([name]) => first.has(name)));
  show_in(root, shown.filter(([name]) => !first.has(name)));
  light_again();
}

/** All that is had is of no use any more, as when the window is another width. */
export function forget() {
  digests.clear();
}
