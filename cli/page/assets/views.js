// SPDX-License-Identifier: GPL-3.0-or-later
// Three ways to look at what follows: the plan, the text, the wearers.
import { changed } from './state.js';

const names = ['plan', 'text', 'wearers'];

const tab = (name) => document.getElementById(`tab-${name}`);
const view = (name) => document.getElementById(`view-${name}`);

export function show_view(shown) {
  for (const name of names) {
    tab(name).setAttribute('aria-selected', name === shown ? 'true' : 'false');
    tab(name).tabIndex = name === shown ? 0 : -1;
    view(name).hidden = name !== shown;
  }
  changed();
}

function by_key(event) {
  const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
  if (!by) return;
  event.preventDefault();
  const next = names[(names.indexOf(event.target.id.slice(4)) + by + names.length) % names.length];
  show_view(next);
  tab(next).focus();
}

export function start_views() {
  for (const name of names) {
    tab(name).onclick = () => show_view(name);
    tab(name).onkeydown = by_key;
  }
}
