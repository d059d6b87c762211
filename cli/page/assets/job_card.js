// SPDX-License-Identifier: GPL-3.0-or-later
// What holds for the whole job: its title, unit, tape and allowance.
import * as form from './form.js';
import { fields } from './fields.js';
import { card, folded } from './card.js';

export function job_card() {
  return card('job', 'The job', { claims: [''] }, fields('', form.job), folded('job-more', 'Tolerances and wearer', fields('', form.job_more)));
}
