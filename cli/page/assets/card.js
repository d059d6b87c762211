// SPDX-License-Identifier: GPL-3.0-or-later
// A card of the forms, and the parts of one that are folded away.
import { h } from './draw.js';
import { faults_at, fault_line } from './faults.js';

/** A card: its heading, what stands beside that, a word on it, and its content. Faults at `claims` stand under the heading. */
export function card(name, heading, { beside, says, claims }, ...content) {
  const faults = faults_at(claims ?? []);
  return h('section.card', { key: name, 'aria-labelledby': `card-${name}` },
    h('header', { key: 'head' }, h('h2', { id: `card-${name}` }, heading), beside),
    faults.map((fault, i) => fault_line(fault, `card-${name}-fault-${i}`, fault.pointer)),
    says && h('p.hint', { key: 'says' }, says),
    content);
}

/** A part of a card that is folded away until it is asked for. */
export function folded(key, heading, ...content) {
  return h('details.folded-away', { key }, h('summary', {}, heading), h('div.inside', {}, content));
}
