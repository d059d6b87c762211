// SPDX-License-Identifier: GPL-3.0-or-later
// Decimal commas as they are typed: read as points, but for those that part the two of min( , ) and max( , ).

/** Where commas between digits stand that part nothing. */
function decimal_commas(text) {
  const found = [];
  const brackets = []; // for each open one whether it is of min or max
  for (let i = 0; i < text.length; ++i) {
    if (text[i] === '(') brackets.push(/(^|[^\p{L}\p{N}_])(min|max)\s*$/u.test(text.slice(0, i)));
    else if (text[i] === ')') brackets.pop();
    else if (text[i] === ',' && !brackets.includes(true) && /\d/.test(text[i - 1] ?? '') && /\d/.test(text[i + 1] ?? '')) found.push(i);
  }
  return found;
}

/** Whether it cannot be known if this comma parts thousands. */
function is_doubtful(text, place) {
  return /^\d{3}(?!\d)/.test(text.slice(place + 1));
}

/**
 * What a text with commas means: `{ text }`, or `{ asks: [text, text] }`, with points and without commas, where three
 * digits behind a comma leave it open.
 */
export function without_commas(text) {
  const commas = decimal_commas(text);
  const doubtful = commas.filter((place) => is_doubtful(text, place));
  const read_as = (doubtful_one) => text.split('').map((sign, i) => (doubtful.includes(i) ? doubtful_one : commas.includes(i) ? '.' : sign)).join('');
  return doubtful.length === 0 ? { text: read_as('.') } : { asks: [read_as('.'), read_as('')] };
}
