// SPDX-License-Identifier: GPL-3.0-or-later
// The left half: what is known, card by card.
import { h, draw } from './draw.js';
import { state } from './state.js';
import { as_before, make_all_anew } from './as_before.js';
import { forget_claims, left_over, sentence } from './faults.js';
import { measures_card } from './measures_card.js';
import { cloth_card } from './cloth_card.js';
import { lengths_card } from './lengths_card.js';
import { rules_card } from './rules_card.js';
import { seams_card, shown_of_join } from './seams_card.js';
import { pieces_card, shown_of_piece } from './pieces_card.js';
import { thread_card } from './thread_card.js';
import { job_card } from './job_card.js';
import { show_line } from './text_view.js';

/** The cards, each with what of an answer it shows: where that is the same, the card is too. */
const cards = [
  { make: measures_card, shows: ({ measures }) => [measures] },
  { make: cloth_card, shows: ({ fabric }) => [fabric] },
  { make: lengths_card, shows: null },
  { make: rules_card, shows: ({ rules }, plan) => [rules, plan?.rules] },
  { make: seams_card, shows: ({ joins }, plan) => [joins, plan?.joins?.map(shown_of_join)] },
  { make: pieces_card, shows: ({ pieces, joins }, plan) => [pieces, joins?.map?.((join) => join?.name), plan?.pieces?.map(shown_of_piece)] },
  { make: thread_card, shows: ({ marks, gathering }) => [marks, gathering] },
  { make: job_card, shows: ({ title, unit, tape_step, allowance, tolerance, wearer }) => [title, unit, tape_step, allowance, tolerance, wearer] },
];

let remarks = '';

/** Whether only figures can have moved since the cards were drawn last. */
function only_figures(by_plan) {
  const now = JSON.stringify([...state.remarks]);
  const same = now === remarks;
  remarks = now;
  return by_plan && same && state.faults.length === 0 && state.refused.size === 0;
}

const drawn_card = ({ make, shows }, i) => (shows ? as_before(`card ${i}`, shows(state.written, state.plan), make) : make());

function others() {
  const faults = left_over();
  if (faults.length === 0) return null;
  return h('section.card.others', { key: 'others', 'aria-label': 'Faults in the text' },
    faults.map((fault, i) => h('p.fault', { key: String(i) }, h('span.sign', { 'aria-hidden': 'true' }, '✗ '), `Line ${fault.line}: ${sentence(fault)}. `,
      h('button.back', { type: 'button', onClick: () => show_line(fault.line) }, `To line ${fault.line}`))));
}

export function draw_known(root, by_plan) {
  forget_claims();
  root.classList.toggle('rests', state.job === null);
  // Text that is no JSON: the forms stay as they were and rest until the text is mended.
  if (state.job === null) {
    root.setAttribute('inert', '');
    return;
  }
  root.removeAttribute('inert');
  const quiet = only_figures(by_plan);
  make_all_anew(!quiet);
  const drawn = quiet ? cards.map(drawn_card) : cards.map(({ make }) => make()); // they claim their faults
  draw(root, others(), drawn);
}
