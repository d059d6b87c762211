// SPDX-License-Identifier: GPL-3.0-or-later
// A slider drawn as a tape: the room shaded, a notch where the length comes to, the pin where it is asked for. The control
// is a real one; what is drawn lies under it.
import { h, draw_again } from './draw.js';
import { state, changed } from './state.js';
import { let_slider_go, move_slider } from './work.js';

const pause = 1000; // ms after a key in which the next still belongs to the same slide
const settling = 150; // ms in which the last move is planned

let held = null; // { pointer, before, base, ends, reads, others, now, input, timer }: the slide that goes on
let last = null; // { pointer, others, text }: the slide that the text `text` came of

export const is_held = (pointer) => held?.pointer === pointer;

/** The slide that goes on: its length's pointer and its control; null where there is none. */
export const held_slider = () => held;

/** What the lengths that were found came to. */
function found_now() {
  return new Map([...state.lengths].filter(([, length]) => length.found).map(([name, length]) => [name, length.text]));
}

/** The lengths that moved along with the slide of this one: [name, before, now]. */
export function moved_along(pointer, name) {
  if (last?.pointer !== pointer || last.text !== state.text) return [];
  return [...last.others].filter(([other, before]) => other !== name && state.lengths.has(other) && state.lengths.get(other).text !== before)
    .map(([other, before]) => [other, before, state.lengths.get(other).text]);
}

function take_hold(pointer, input, { ends, reads }) {
  const base = Number(input.dataset.base);
  held = { pointer, before: state.text, base, now: base, ends, reads, others: found_now(), input };
}

/** The slide ends here: the next is a step of its own. */
export function let_go() {
  if (!held) return;
  clearTimeout(held.timer);
  held.input.typing = false;
  held = null;
  document.body.classList.remove('dragging');
  let_slider_go();
  changed();
}

function slid(pointer, input, drawn) {
  if (held?.pointer !== pointer) {
    let_go();
    take_hold(pointer, input, drawn);
  }
  input.typing = true;
  held.now = Number(input.value);
  const { before, base, others } = held;
  move_slider(pointer, before, held.now - base, (text) => { last = { pointer, others, text }; });
  clearTimeout(held.timer);
  if (!input.pressed) held.timer = setTimeout(let_go, pause);
}

/** Held a little longer, until the last move is planned: the tape does not jump before its pin is there. */
function released(input) {
  input.pressed = false;
  if (!held) return;
  clearTimeout(held.timer);
  held.timer = setTimeout(let_go, settling);
}

/** Where the tape has its lines and its figures: at most about so many, by ones, twos or fives. */
function divisions(ends, step, count) {
  const span = (ends[1] - ends[0]) * step;
  let by = 10 ** Math.floor(Math.log10(span / count));
  for (const times of [2, 2.5, 2]) if (span / by > count) by *= times;
  const lines = [];
  for (let n = Math.ceil((ends[0] * step) / by - 1e-9); n * by <= ends[1] * step + 1e-9; ++n) lines.push([n * by, n % 5 === 0]);
  return lines;
}

function tape({ step, ends, pin, is, room, reads, rests }) {
  const across_all = 1000;
  const place_of = (steps) => (((steps - ends[0]) / (ends[1] - ends[0])) * across_all).toFixed(1);
  const across = (steps) => `${((Math.min(Math.max(steps, ends[0]), ends[1]) - ends[0]) / (ends[1] - ends[0])) * 100}%`;
  const shaded = room && { from: Math.max(room[0] ?? ends[0], ends[0]), to: Math.min(room[1] ?? ends[1], ends[1]) };
  const is_bound = (i) => room[i] !== null && room[i] >= ends[0] && room[i] <= ends[1];
  const figures = new Map([[ends[0], 'end'], [ends[1], 'end']]);
  if (shaded) for (const [i, place] of [shaded.from, shaded.to].entries()) if (is_bound(i)) figures.set(place, 'bound');
  const apart = (ends[1] - ends[0]) * 0.12; // where figures would lie on each other, that of the room stands
  const kept = [...figures].filter(([place, kind]) => kind === 'bound' || [...figures].every(([other, sort]) => other === place || sort !== 'bound' || Math.abs(other - place) > apart));
  // Two bounds that lie close together have their figures on either side.
  const close = shaded && figures.get(shaded.from) === 'bound' && figures.get(shaded.to) === 'bound' && shaded.from !== shaded.to && shaded.to - shaded.from < apart;
  const side_of = (place) => (close && place === shaded.from ? 'below' : close && place === shaded.to ? 'above'
    : place <= ends[0] + apart / 2 ? 'first' : place >= ends[1] - apart / 2 ? 'last' : undefined);
  return h('svg.tape', { key: 'tape', 'aria-hidden': 'true', focusable: 'false', class: rests ? 'rests' : undefined },
    h('rect.band', { x: '0', y: '10', width: '100%', height: '20', rx: '2' }),
    shaded && shaded.to >= shaded.from && h('svg', { key: 'room', x: across(shaded.from), y: '10', width: `${((shaded.to - shaded.from) / (ends[1] - ends[0])) * 100}%`, height: '20' },
      h('rect.room', { x: '0', y: '0', width: '100%', height: '20' })),
    h('svg', { key: 'lines', x: '0', y: '10', width: '100%', height: '11', viewBox: `0 0 ${across_all} 11`, preserveAspectRatio: 'none' },
      h('path.line', { d: divisions(ends, step, 30).map(([value, long]) => `M${place_of(value / step)} 0V${long ? 11 : 6}`).join(''), 'vector-effect': 'non-scaling-stroke' })),
    h('rect.edge', { x: '0', y: '10', width: '100%', height: '20', rx: '2' }),
    shaded && shaded.to >= shaded.from && [shaded.from, shaded.to].map((place, i) => is_bound(i) && h('line.bound', { key: `b${i}`, x1: across(place), x2: across(place), y1: '6', y2: '36' })),
    is !== pin && h('svg', { key: 'notch', x: across(is), y: '0', width: '1', height: '50', class: 'marker', overflow: 'visible' },
      h('path.notch', { d: 'M0 30 L-6 40 L6 40 Z' })),
    kept.map(([place, kind]) => h('text', { key: `t${place}`, x: across(place), y: '49', class: side_of(place), 'data-kind': kind }, reads[place])),
    h('svg', { key: 'pin', x: across(pin), y: '0', width: '1', height: '50', class: 'marker', overflow: 'visible' },
      h('circle.pin', { cx: '0', cy: '20', r: '9' }), h('circle.pin-hole', { cx: '0', cy: '20', r: '3.5' })));
}

/**
 * The slider of the length `name` at `pointer`. All places in tape steps: `ends` of the tape, the `pin`, what it `is`, the
 * `room`, an end null where nothing bounds it; `reads`: how those are read off the tape. `rests`: it cannot be slid.
 * `says`: what it comes to, in words.
 */
export function slider(pointer, name, drawn) {
  const { rests, says } = drawn;
  const own = is_held(pointer) ? { ...drawn, ends: held.ends, pin: held.now, reads: { ...held.reads, ...drawn.reads } } : drawn;
  const { ends, pin } = own;
  return h('div.slide', { key: 'slide' },
    tape(own),
    h('input', {
      key: 'input',
      type: 'range',
      'aria-label': `slide ${name}`,
      'aria-valuetext': says,
      min: ends[0],
      max: ends[1],
      step: 1,
      disabled: rests,
      value: String(pin),
      'data-base': pin,
      onPointerdown: (event) => {
        let_go();
        event.target.pressed = true;
        document.body.classList.add('dragging');
        take_hold(pointer, event.target, own);
        event.target.typing = true;
      },
      onInput: (event) => {
        slid(pointer, event.target, own);
        draw_again(event.target.parentNode, slider(pointer, name, drawn)); // the pin is there at once
      },
      onChange: (event) => event.target.pressed && released(event.target),
      onPointerup: (event) => released(event.target),
      onPointercancel: (event) => released(event.target),
      onBlur: let_go,
    }));
}
