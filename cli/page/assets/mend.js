// SPDX-License-Identifier: GPL-3.0-or-later
// What would put it right and what would save cloth: each sentence of the plan with a button that does it.
import { h, draw } from './draw.js';
import { state } from './state.js';
import { edit } from './work.js';

function offers(list, key, name, rests) {
  return h('ul.offers', { key: name }, list.map(([offer, place]) => h('li', { key: String(place) }, h('p', {}, offer.says),
    h('button', { type: 'button', disabled: rests, 'aria-label': `Do this: ${offer.says}`, onClick: () => edit({ pointer: '', [key]: place }) }, 'Do this'))));
}

/** The remedies for the whole job, then those for each join, in the plan's order. */
function by_join(remedies) {
  const groups = new Map();
  for (const [place, remedy] of remedies.entries()) {
    const join = remedy.join ?? '';
    if (!groups.has(join)) groups.set(join, []);
    groups.get(join).push([remedy, place]);
  }
  return groups;
}

export function draw_mend(root) {
  const remedies = state.plan?.remedies ?? [];
  const savings = state.savings;
  const rests = state.held || state.faults.length > 0 || state.good?.text !== state.text;
  draw(root,
    remedies.length > 0 && h('section.mend', { key: 'mend', 'aria-labelledby': 'mend-heading' },
      h('h2', { id: 'mend-heading' }, 'What would put it right ', h('span.made', {}, '(one of these)')),
      [...by_join(remedies)].map(([join, list]) => [join !== '' && h('h3', { key: `h ${join}` }, join), offers(list, 'remedy', `o ${join}`, rests)])),
    savings.length > 0 && h('section.save', { key: 'save', 'aria-labelledby': 'savings-heading' },
      h('h2', { id: 'savings-heading' }, 'What would save cloth'),
      offers([...savings.entries()].map(([place, saving]) => [saving, place]), 'saving', 'savings', rests)));
}
