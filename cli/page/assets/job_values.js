// SPDX-License-Identifier: GPL-3.0-or-later
// A job's values as they are written: objects as Maps in the order of the file, so that no name in a job can be taken for
// anything of the page's own.

/** JSON values with Maps for objects. */
export function with_maps(value) {
  if (Array.isArray(value)) return value.map(with_maps);
  if (value !== null && typeof value === 'object') return new Map(Object.entries(value).map(([key, inner]) => [key, with_maps(inner)]));
  return value;
}

/** The reverse, to be sent. */
export function without_maps(value) {
  if (Array.isArray(value)) return value.map(without_maps);
  if (!(value instanceof Map)) return value;
  const plain = Object.create(null);
  for (const [key, inner] of value) plain[key] = without_maps(inner);
  return plain;
}

/** A JSON pointer of keys and places. */
export function pointer(...keys) {
  return keys.map((key) => `/${String(key).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

export function keys_of(text) {
  return text.split('/').slice(1).map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~'));
}

export function inside(value, key) {
  if (value instanceof Map) return value.get(key);
  if (Array.isArray(value)) return value[Number(key)];
  return undefined;
}

/** What stands at the pointer, or undefined. */
export function at(job, text) {
  return keys_of(text).reduce(inside, job);
}

/** A value as a field shows it. */
export function shown(value) {
  if (value === undefined || value === null) return '';
  if (typeof value === 'string') return value;
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  return JSON.stringify(without_maps(value));
}

export function entries(value) {
  return value instanceof Map ? [...value.entries()] : [];
}

export function items(value) {
  return Array.isArray(value) ? value : [];
}
