// SPDX-License-Identifier: GPL-3.0-or-later
// Descriptions that are made again only where what they show is another: those that are the same are not compared either.

const before = new Map();
let all_anew = true;

/** Whether from here on every description is made anew, as after a touch that may have opened or closed something. */
export function make_all_anew(anew) {
  all_anew = anew;
  if (anew) before.clear();
}

/** The description called `key`, as it was made last where `shows`, all that it shows, is the same; else what `make()` gives. */
export function as_before(key, shows, make) {
  const shown = JSON.stringify(shows);
  const last = before.get(key);
  if (last?.shown === shown) return last.drawn;
  const drawn = make();
  if (!all_anew) before.set(key, { shown, drawn });
  return drawn;
}
