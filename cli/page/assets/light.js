// SPDX-License-Identifier: GPL-3.0-or-later
// The stretch or mark under the pointer or the focus is lit wherever it stands: in picture, curve and table, and in the bar.

let lit = null; // { join, what, which }

function found(target) {
  const element = target?.closest?.('[data-mark], [data-stretch]');
  const join = element?.closest('[data-join]');
  if (!join) return null;
  const what = element.dataset.mark !== undefined ? 'mark' : 'stretch';
  return { join: join.dataset.join, what, which: element.dataset[what] };
}

const same = (one, other) => one?.join === other?.join && one?.what === other?.what && one?.which === other?.which;

/** Lights anew what came since. */
export function light_again() {
  for (const element of document.querySelectorAll('.lit')) element.classList.remove('lit');
  if (!lit) return;
  for (const join of document.querySelectorAll(`[data-join="${CSS.escape(lit.join)}"]`)) {
    for (const element of join.querySelectorAll(`[data-${lit.what}="${CSS.escape(lit.which)}"]`)) element.classList.add('lit');
  }
}

function light(target) {
  const now = found(target);
  if (same(now, lit)) return;
  lit = now;
  light_again();
}

export function watch_for_light() {
  document.addEventListener('pointerover', (event) => light(event.target));
  document.addEventListener('pointerleave', () => light(document.activeElement));
  document.addEventListener('focusin', (event) => light(event.target));
}
