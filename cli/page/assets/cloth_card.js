// SPDX-License-Identifier: GPL-3.0-or-later
// The cloth: what it is, how much there is of it, and its test strip; and the cloth of a single piece.
import * as form from './form.js';
import { fields } from './fields.js';
import { card, folded } from './card.js';

export function cloth_card() {
  const at_it = '/fabric';
  return card('cloth', 'Cloth', { claims: [at_it] },
    fields(at_it, form.cloth),
    fields(`${at_it}/shrinkage`, form.shrinkage),
    fields(at_it, form.buying),
    folded('strip', 'A gathered test strip', fields(`${at_it}/swatch`, form.swatch)),
    folded('cloth-more', 'More of the cloth', fields(at_it, form.cloth_more)));
}

/** The fields of a cloth that a piece has for itself. */
export function own_cloth(at_it, of) {
  return [fields(at_it, form.piece_cloth, { of }), fields(`${at_it}/shrinkage`, form.shrinkage, { of })];
}
