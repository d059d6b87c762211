// SPDX-License-Identifier: GPL-3.0-or-later
// The sheet in its fragments: those that came anew are put in, the others stay as they are. What is in view is put in at
// once, or while a slider moves its pictures at once and its words soon; the rest when there is time. They are made by the
// program, which has escaped the job's text; nothing else on the page is put in as markup.
import { bring_in } from './bring_in.js';
import { take_verdict } from './verdict.js';
import { light_again } from './light.js';

const digests = new Map();
const elsewhere = new Set(['verdict', 'mend', 'savings']); // shown by the page itself, in view or with buttons
const first = new Set(['wrong']); // before what would put it right
const is_picture = (name) => /^cloth-|-(picture|drawn)$/.test(name);

const soon = new Map(); // element in view to what is still to be put in, which is no picture
const waiting = new Map(); // element out of view to what is still to be put in
const patience = 150; // ms after which what is out of view is put in, whether there is time or not
const when_idle = globalThis.requestIdleCallback?.bind(globalThis) ?? ((call) => setTimeout(() => call({ timeRemaining: () => 0 })));

const one_column = matchMedia('(max-width: 751.98px)'); // there the window scrolls

let timer;
let some_left = false; // fragments out of view, while a slider moves
let near = new Set(); // the fragments in view, or soon to be
let watch = null;

/** Watches what comes into view: below `root`, which scrolls by itself, or in the window. */
function watch_view(root) {
  watch?.observer.disconnect();
  near = new Set();
  watch = { root, observer: new IntersectionObserver((seen) => {
    for (const { target, isIntersecting } of seen) {
      near[isIntersecting ? 'add' : 'delete'](target);
      if (isIntersecting && waiting.has(target)) put_in(target, waiting.get(target));
    }
    light_again();
  }, { root, rootMargin: '100px 0px' }) };
  for (const element of document.querySelectorAll('.fragment')) watch.observer.observe(element);
}

/** Whether something is shown that is not of the last answer yet. */
function tell_busy(root) {
  const busy = some_left || soon.size > 0 || waiting.size > 0;
  if (busy === root.hasAttribute('aria-busy')) return;
  if (busy) root.setAttribute('aria-busy', 'true');
  else root.removeAttribute('aria-busy');
}

function put_in(element, html) {
  bring_in(element, html);
  soon.delete(element);
  waiting.delete(element);
}

/** Puts in what is in view and did not have to be shown at once. */
export function show_words(root) {
  if (soon.size === 0) return;
  for (const [element, html] of soon) put_in(element, html);
  tell_busy(root);
  light_again();
}

/** Puts it in now, or keeps it for later; `moving` while a slider moves. */
function take_in(element, html, moving) {
  soon.delete(element);
  waiting.delete(element);
  if (!near.has(element)) waiting.set(element, html);
  else if (moving && !is_picture(element.dataset.fragment)) soon.set(element, html);
  else put_in(element, html);
}

/** What is out of view, a fragment at a time, as long as nothing else is to be done. */
function put_in_waiting(root, deadline) {
  do {
    const next = waiting.entries().next();
    if (!next.done) put_in(...next.value);
  } while (waiting.size > 0 && deadline.timeRemaining() > 5);
  if (waiting.size > 0) return put_in_later(root);
  tell_busy(root);
  light_again();
}

function put_in_later(root) {
  clearTimeout(timer);
  timer = setTimeout(() => when_idle((deadline) => put_in_waiting(root, deadline), { timeout: patience }), 0);
}

/** The names of what is in view, or of the pictures there, and of what must be told at once. */
export function seen(only_pictures = false) {
  const names = [...near].map((element) => element.dataset.fragment);
  return ['verdict', ...first, ...(only_pictures ? names.filter(is_picture) : names)];
}

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
    near.add(element); // until it is known better
    watch.observer.observe(element);
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
    for (const gone of [place, ...place.querySelectorAll('.fragment')]) {
      watch.observer.unobserve(gone);
      near.delete(gone);
      soon.delete(gone);
      waiting.delete(gone);
    }
    place = next;
  }
}

const orders = new Map(); // the fragments' names in each root, as they stand there, and their elements

/** Puts in what came anew where the same fragments stand there in the same order; whether they do. */
function show_in_place(root, entries, moving) {
  const order = orders.get(root);
  if (order?.names !== entries.map(([name]) => name).join(' ')) return false;
  for (const [i, [, { html }]] of entries.entries()) if (html !== undefined) take_in(order.elements[i], html, moving);
  return true;
}

function show_in(root, entries, moving) {
  if (show_in_place(root, entries, moving)) return;
  let place = root.firstChild;
  const inner = new Map(); // of each join's section the place that has been reached
  const elements = [];
  for (const [name, { html }] of entries) {
    const parent = section_of(root, name);
    const element = fragment_of(parent, name);
    elements.push(element);
    if (html !== undefined) take_in(element, html, moving);
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
  orders.set(root, { names: entries.map(([name]) => name).join(' '), elements });
}

/**
 * Shows the fragments of an answer: what is wrong in `wrong`, the rest in `root`; `half` is what they scroll in. While a
 * slider is `moving` only the pictures; what else is in view waits for show_words().
 */
export function show(sheet, wrong, root, half, moving) {
  const scrolls = one_column.matches ? null : half;
  if (watch?.root !== scrolls) watch_view(scrolls);
  const entries = Object.entries(sheet);
  for (const name of [...digests.keys()]) if (!(name in sheet)) digests.delete(name);
  for (const [name, { digest }] of entries) if (digest !== undefined) digests.set(name, digest); // the others stay as they were
  if (sheet.verdict?.html !== undefined) take_verdict(sheet.verdict.html);
  const shown = entries.filter(([name]) => !elsewhere.has(name));
  show_in(wrong, shown.filter(([name]) => first.has(name)), moving);
  show_in(root, shown.filter(([name]) => !first.has(name)), moving);
  light_again();
  some_left = shown.some(([, { digest }]) => digest === undefined);
  tell_busy(root);
  if (waiting.size > 0) put_in_later(root);
}

/** All that is had is of no use any more, as when the window is another width. */
export function forget() {
  digests.clear();
}
