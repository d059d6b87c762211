// SPDX-License-Identifier: GPL-3.0-or-later
// The page as a whole: what it begins with, and what is drawn when something has changed.
import { h, draw } from './draw.js';
import { state, start, when_changed, changed, is_saved, can_undo, can_redo, undo, redo } from './state.js';
import { get } from './requests.js';
import { plan, shows_fragments } from './work.js';
import * as fragments from './fragments.js';
import { draw_known } from './known.js';
import { draw_verdict, draw_foot } from './verdict.js';
import { draw_mend } from './mend.js';
import { draw_slid_length } from './lengths_card.js';
import { draw_text, leave_text } from './text_view.js';
import { draw_wearers } from './wearers.js';
import { start_views, show_view } from './views.js';
import { ask_before_leaving, save } from './save.js';
import { draw_notices, watch_the_program } from './alive.js';
import { show_print } from './print.js';
import { show_starts } from './starts.js';
import { watch_for_light } from './light.js';
import { let_go } from './slider.js';

const part = (id) => document.getElementById(id);
const narrow_pictures = matchMedia('(max-width: 1060px)');

function back_and_forth(go) {
  let_go();
  leave_text();
  for (const field of document.querySelectorAll('input, textarea, select')) field.typing = false;
  if (!go()) return;
  state.refused.clear();
  state.typed.clear();
  changed();
  plan();
}

const file_in_words = () => state.name ?? 'no file yet';

function draw_head() {
  const title = state.job?.get('title') ?? state.good?.job?.get('title');
  const words = typeof title === 'string' && title !== '' ? title : 'A job without a title';
  document.title = `${is_saved() ? '' : '● '}${words}: gatherwright`;
  draw(part('head'),
    h('div.name', { key: 'name' }, h('h1', {}, words),
      h('p.file', {}, file_in_words(), is_saved() ? h('span', { key: 'saved' }, ', saved') : h('span.unsaved', { key: 'unsaved' }, h('span', { 'aria-hidden': 'true' }, ', ● '), h('span.unseen', {}, ', '), 'not saved'))),
    h('div.doing', { key: 'doing' },
      h('div.pair', { role: 'group', 'aria-label': 'Steps' },
        h('button', { type: 'button', 'aria-keyshortcuts': 'Control+Z', disabled: !can_undo(), onClick: () => back_and_forth(undo) }, 'Undo'),
        h('button', { type: 'button', 'aria-keyshortcuts': 'Control+Y', disabled: !can_redo(), onClick: () => back_and_forth(redo) }, 'Redo')),
      h('button', { type: 'button', onClick: show_print }, 'Print…'),
      h('button.main', { type: 'button', 'aria-keyshortcuts': 'Control+S', onClick: save }, 'Save')));
}

let at_the_plan = false; // in one column: which of the two is in view

function way_on() {
  const go = () => {
    const target = part(at_the_plan ? 'known' : 'follows');
    target.scrollIntoView({ block: 'start' });
    target.focus({ preventScroll: true });
  };
  return h('button', { key: 'way', type: 'button', onClick: go }, at_the_plan ? 'What is known' : 'What follows');
}

function watch_the_halves() {
  new IntersectionObserver(([seen]) => {
    const now = seen.isIntersecting || seen.boundingClientRect.top < 0;
    if (now === at_the_plan) return;
    at_the_plan = now;
    draw_foot(part('foot'), way_on);
  }, { rootMargin: '0px 0px -50% 0px' }).observe(part('follows'));
}

function draw_all(by_plan) {
  if (!state.started) return;
  draw_head();
  draw_notices(part('notices'));
  draw_known(part('known'), by_plan);
  draw_verdict(part('verdict'), part('spoken'));
  draw_mend(part('mend'));
  draw_foot(part('foot'), way_on);
  draw_text(part('view-text'));
  draw_wearers(part('view-wearers'));
  part('view-plan').classList.toggle('stale', state.faults.length > 0);
}

function by_key(event) {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || !state.started) return;
  const key = event.key.toLowerCase();
  const typing = event.target.typing === true && event.target.type !== 'range';
  if (key === 's') {
    event.preventDefault();
    save();
  } else if ((key === 'z' && !event.shiftKey) && !typing) {
    event.preventDefault();
    back_and_forth(undo);
  } else if ((key === 'y' || (key === 'z' && event.shiftKey)) && !typing) {
    event.preventDefault();
    back_and_forth(redo);
  }
}

function begin(text, name, read) {
  part('starts').hidden = true;
  part('page').hidden = false;
  start(text, name, read);
  state.started = true;
  changed();
  plan();
}

async function patterns() {
  try {
    state.patterns = new Map(Object.entries(await get('patterns')));
    changed();
  } catch {
    // The words on the buttons say it too.
  }
}

async function open() {
  when_changed(draw_all);
  start_views();
  show_view('plan');
  watch_for_light();
  ask_before_leaving();
  shows_fragments({
    width: () => (narrow_pictures.matches ? 'narrow' : 'wide'),
    have: fragments.have,
    seen: fragments.seen,
    show: (sheet, moving) => fragments.show(sheet, part('wrong'), part('sheet'), part('follows'), moving),
    show_slid: draw_slid_length,
    show_words: () => fragments.show_words(part('sheet')),
  });
  narrow_pictures.addEventListener('change', () => {
    fragments.forget();
    plan();
  });
  document.addEventListener('keydown', by_key);
  watch_the_halves();
  const { text, name, read } = await get('job');
  watch_the_program();
  if (text !== '') begin(text, name, read);
  else {
    part('starts').hidden = false;
    show_starts(part('starts'), (chosen) => begin(chosen, name, null));
  }
  patterns();
}

open().catch((error) => {
  part('starts').hidden = false;
  draw(part('starts'), h('h1', {}, 'The program does not answer'), h('p', {}, `Start it again, and open the page that it names. ${error.message}`));
});
