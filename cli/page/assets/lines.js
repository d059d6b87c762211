// SPDX-License-Identifier: GPL-3.0-or-later
// Text as lines with their ends: what is edited takes the ends of its neighbours, what is not edited keeps its own.

/** The lines of a text, each with what ends it. */
export function lines_of(text) {
  const lines = [];
  for (const [, words, end] of text.matchAll(/([^\r\n]*)(\r\n|\r|\n|$)/g)) {
    lines.push({ words, end });
    if (end === '') break;
  }
  return lines;
}

/** The text as a browser's text area has it: every line ends alike. */
export const as_edited = (text) => lines_of(text).map(({ words }) => words).join('\n');

/** The end of a line so that it does not melt with the end of an empty one that has come behind it. */
function apart(end, next, usual) {
  return end === '\r' && next.words === '' && (next.end || usual).startsWith('\n') ? '\r\n' : end;
}

/** The text after an edit: `edited` is the whole of it as the text area has it. */
export function after_edit(text, edited) {
  const before = lines_of(text);
  const now = edited.split('\n');
  let head = 0;
  while (head < before.length - 1 && head < now.length - 1 && before[head].words === now[head]) ++head;
  let tail = 0;
  while (tail < before.length - head && tail < now.length - head && before.at(-1 - tail).words === now.at(-1 - tail)) ++tail;
  const end = before[head - 1]?.end || before[head]?.end || before.find((line) => line.end !== '')?.end || '\n';
  const middle = now.slice(head, now.length - tail).map((words, i) => ({ words, end: before[head + i]?.end && head + i < before.length - tail ? before[head + i].end : end }));
  const lines = [...before.slice(0, head), ...middle, ...before.slice(before.length - tail)];
  return lines.map((line, i) => line.words + (i === lines.length - 1 ? '' : apart(line.end || end, lines[i + 1], end))).join('');
}
