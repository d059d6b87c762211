// SPDX-License-Identifier: GPL-3.0-or-later
// What the page asks of the program it came from: addresses below the page's own, and nothing else.

/** The program is not there any more. */
export class Gone extends Error {}

/** The program could not do it: its status, its one line, and the body it sent with it. */
export class Failed extends Error {
  constructor(status, body) {
    super(typeof body === 'string' ? body : (body?.error ?? `status ${status}`));
    this.status = status;
    this.body = body;
  }
}

let told = () => {};

/** `hears(false)` is called when the program does not answer, `hears(true)` when it does. */
export function when_heard(hears) {
  told = hears;
}

async function answered(path, options) {
  let answer;
  try {
    answer = await fetch(path, { cache: 'no-store', ...options });
  } catch {
    told(false);
    throw new Gone();
  }
  told(true);
  return answer;
}

async function body_of(answer) {
  const text = await answer.text();
  try {
    return JSON.parse(text);
  } catch {
    return text.trim();
  }
}

async function value_of(answer) {
  const body = await body_of(answer);
  if (!answer.ok) throw new Failed(answer.status, body);
  return body;
}

function posted(body) {
  return { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) };
}

export async function get(path) {
  return value_of(await answered(path, { method: 'GET' }));
}

export async function post(path, body) {
  return value_of(await answered(path, posted(body)));
}

/** A file that the program makes, as a blob; JSON where it is an answer about faults instead. */
export async function post_for_file(path, body) {
  const answer = await answered(path, posted(body));
  if (!answer.ok) throw new Failed(answer.status, await body_of(answer));
  if ((answer.headers.get('Content-Type') ?? '').startsWith('application/json')) return body_of(answer);
  return answer.blob();
}
