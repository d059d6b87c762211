// SPDX-License-Identifier: GPL-3.0-or-later
// The left half: what is known, card by card.
import { h, draw } from './draw.js';
import { state } from './state.js';
import { forget_claims, left_over, sentence } from './faults.js';
import { measures_card } from './measures_card.js';
import { cloth_card } from './cloth_card.js';
import { lengths_card } from './lengths_card.js';
import { rules_card } from './rules_card.js';
import { seams_card } from './seams_card.js';
import { pieces_card } from './pieces_card.js';
import { thread_card } from './thread_card.js';
import { job_card } from './job_card.js';
import { show_line } from './text_view.js';

/** The cards, each with what of an answer it shows: where that is the same, the card is too. */
const cards = [
  { make: measures_card, shows: ({ measures }) => [measures] },
  { make: cloth_card, shows: ({ fabric }) => [fabric] },
  { make: lengths_card, shows: null },
  { make: rules_card, shows: ({ rules }, plan) => [rules, plan?.rules] },
  { make: seams_card, shows: ({ joins }, plan) => [joins, plan?.joins?.map(({ fullness, segments }) => [fullness, segments?.map(({ band }) => band)])] },
  { make: pieces_card, shows: ({ pieces, joins }, plan) => [pieces, joins?.map?.((join) => join?.name), plan?.pieces?.map((piece) => [piece.cut, piece.cut_across?.text, piece.cut_along?.text])] },
  { make: thread_card, shows: ({ marks, gathering }) => [marks, gathering] },
  { make: job_card, shows: ({ title, unit, tape_step, allowance, tolerance, wearer }) => [title, unit, tape_step, allowance, tolerance, wearer] },
];

/** A card as it was drawn last where an answer brought nothing new for it, else anew. */
function drawn_card(card, by_plan) {
  const quiet = state.faults.length === 0 && state.refused.size === 0;
  const shown = card.shows && quiet ? JSON.stringify([...card.shows(state.written, state.plan), [...state.remarks]]) : null;
  if (!by_plan || shown === null || shown !== card.shown) card.drawn = card.make();
  card.shown = shown;
  return card.drawn;
}

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
  const drawn = cards.map((card) => drawn_card(card, by_plan));
  draw(root, others(), drawn);
}
