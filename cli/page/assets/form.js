// SPDX-License-Identifier: GPL-3.0-or-later
// The form of a job, as docs/format.md has it: its keys, what they are called on the page, and what an empty field stands
// for. It is data; what any of it means for the cloth only the program knows.

const quantity = (key, label, empty, more) => ({ key, label, empty, takes: 'quantity', ...more });
const words = (key, label, empty, more) => ({ key, label, empty, takes: 'text', ...more });
const count = (key, label, empty, more) => ({ key, label, empty, takes: 'number', ...more });
const choice = (key, label, options, more) => ({ key, label, takes: 'choice', options, ...more });
const tick = (key, label, more) => ({ key, label, takes: 'tick', ...more });
const pair = (key, labels, empty, more) => ({ key, labels, empty, takes: 'pair', ...more });

const yes_no = [['', 'as usual'], [true, 'yes'], [false, 'no']];

export const units = ['mm', 'cm', 'm', 'in', 'ft', 'yd'];

export const job = [
  words('title', 'title', 'no title'),
  choice('unit', 'unit', [['', 'cm, if nothing is said'], ...units.map((unit) => [unit, unit])]),
  quantity('tape_step', 'tape step', 'the usual one'),
  quantity('allowance', 'seam allowance', 'none said'),
];
export const job_more = [
  quantity('tolerance/cut', 'cut true to', '0'),
  quantity('tolerance/mark', 'marked true to', '0'),
  count('wearer/age', 'wearer’s age in years', 'not said'),
];

export const cloth = [
  words('name', 'name', 'no name'),
  quantity('weight', 'weight', 'not weighed'),
  quantity('width', 'width', 'not said'),
  quantity('selvedge', 'selvedge', '0'),
];
export const shrinkage = [words('along', 'shrinks along', 'not'), words('across', 'shrinks across', 'not')];
export const buying = [quantity('stock', 'in stock', 'not limited'), quantity('sold_by', 'sold by', 'the usual step')];
export const cloth_more = [
  quantity('thickness', 'thickness', 'not measured'),
  quantity('bending_length', 'bending length', 'not measured'),
  tick('shrinks', 'steam shrinks it, as it does wool'),
];
export const swatch = [
  quantity('cut', 'strip cut', 'not gathered'),
  quantity('tight', 'drawn up tight', ''),
  pair('good', ['looks good from', 'looks good to'], ''),
  quantity('stitch', 'its stitch', ''),
];

export const free_length = [quantity('from', 'from', 'no least'), quantity('to', 'to', 'no most'), quantity('aim', 'near', 'no wish')];

export const edge_ways = [
  ['length', 'its length'],
  ['points', 'points off squared paper'],
  ['drawing', 'a line of a drawing'],
  ['path', 'path data'],
];
export const edge_path = words('path', 'drawn edge', '', { long: true });
export const edge_in_drawing = [words('drawing', 'in the drawing', 'a file beside the job: cap.svg'), words('id', 'line of the drawing', 'its id')];
export const point = [quantity('0', 'to the right', 'how far?'), quantity('1', 'up', 'how far?')];
export const corner = tick('corner', 'turns sharply');
export const edge_ends = pair('ends', ['allowance before', 'allowance behind'], 'not said');
const drawn = [
  pair('part', ['only from', 'only to'], 'all of it'),
  quantity('allowance', 'its allowance', '0'),
  choice('garment', 'garment lies', [['', 'not said'], ['left', 'left'], ['right', 'right'], ['inside', 'inside'], ['outside', 'outside']]),
  edge_ends,
  count('grain', 'way of the warp, in degrees', '90'),
];
const path_unit = choice('path_unit', 'unit of the drawing', [['', 'mm, if nothing is said'], ...units.map((unit) => [unit, unit])]);

/** What a drawn edge says besides its line. */
export const edge_drawn = (way) => (way === 'path' ? [path_unit, ...drawn] : drawn);

/** The keys of what an edge given by its length, or drawn, says besides. */
export const edge_besides = (way) => (way === 'length' ? [edge_ends] : edge_drawn(way)).map(({ key }) => key);

export const join_more = [
  count('make', 'make', '1'),
  choice('mirrored', 'in mirrored pairs', yes_no),
  tick('closed', 'a ring, closed all round'),
  quantity('allowance', 'seam allowance', 'as the job’s'),
  choice('use', 'used as', [['', 'sleeve, neck or frill'], ['skirt', 'skirt'], ['curtain', 'curtain']]),
];

export const kinds = [
  ['gather', 'gathered'],
  ['gauge', 'gauged'],
  ['draw', 'drawn up'],
  ['ease', 'eased'],
  ['flat', 'plain'],
];
export const usual_kind = 'gather';

export const stretch = [
  words('name', 'name', 'no name'),
  quantity('long', 'of the long edge', 'found'),
  quantity('band', 'of the band', 'found'),
  words('to', 'up to the mark', 'no name'),
];
export const stretch_more = [
  count('share', 'share of the fullness', '1'),
  count('limits/least', 'at least', 'as the cloth has it'),
  count('limits/ideal', 'best', 'as the cloth has it'),
  count('limits/most', 'at most', 'as the cloth has it'),
];
export const spreads = [['even', 'evenly'], ['fade', 'fading at its ends'], ['shape', 'after a shape'], ['grain', 'as the grain gives']];
export const fade = ['fades at the start over', 'fades at the end over'];

export const piece = [
  count('cut', 'cut', '1'),
  quantity('across', 'across', 'not said'),
  quantity('along', 'along', 'not said'),
];
export const piece_more = [
  choice('mirrored', 'in left and right ones', yes_no),
  tick('turn', 'may lie turned by a quarter'),
];
export const piece_cloth = [...cloth, quantity('stock', 'in stock', 'not limited'), quantity('sold_by', 'sold by', 'the usual step')];
export const sides = ['top', 'bottom', 'left', 'right'];
export const edges = [['', 'its long edge'], ['long', 'its long edge'], ['band', 'its band']];
export const side_part = [words('from', 'from the mark', 'start'), words('to', 'to the mark', 'end'), quantity('at', 'begins at', '0')];

export const ways_to_mark = [
  ['', 'as usual'],
  ['apart', 'no further apart than'],
  ['parts', 'so many parts'],
  ['every', 'one every'],
];

export const thread = [
  quantity('stitch', 'stitch', 'the usual one'),
  count('rows', 'rows', 'the usual ones'),
  quantity('tail', 'tail of thread', 'the usual one'),
  quantity('longest', 'longest thread', 'the usual one'),
];

export const papers = [['a4', 'A4'], ['letter', 'Letter']];
