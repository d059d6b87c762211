// SPDX-License-Identifier: GPL-3.0-or-later
// Markup brought in where nearly the same stands already: what did not change stays, which is less to lay out anew.
import { remove_from } from './draw.js';

const same_kind = (node, wanted) => node.nodeType === wanted.nodeType && node.nodeName === wanted.nodeName;

function bring_attributes(element, wanted) {
  const names = wanted.getAttributeNames();
  for (const name of names) {
    const value = wanted.getAttribute(name);
    if (element.getAttribute(name) !== value) element.setAttribute(name, value);
  }
  const before = element.getAttributeNames();
  if (before.length > names.length) for (const name of before) if (!wanted.hasAttribute(name)) element.removeAttribute(name);
}

function bring(node, wanted) {
  if (node.nodeType !== Node.ELEMENT_NODE) {
    if (node.data !== wanted.data) node.data = wanted.data;
    return;
  }
  bring_attributes(node, wanted);
  bring_children(node, wanted);
}

function bring_children(parent, wanted) {
  let place = parent.firstChild;
  for (let child = wanted.firstChild, next; child; child = next) {
    next = child.nextSibling;
    if (place && same_kind(place, child)) {
      bring(place, child);
      place = place.nextSibling;
    } else {
      parent.insertBefore(child, place);
    }
  }
  remove_from(place);
}

/** Makes `html`, which the program has written, the content of the element. */
export function bring_in(element, html) {
  const template = document.createElement('template');
  template.innerHTML = html;
  bring_children(element, template.content);
}
