// SPDX-License-Identifier: GPL-3.0-or-later
// A description of elements, and the document brought in line with it: what is there already stays, so that neither the
// focus nor the scroll nor what somebody is typing is lost. Text is always put in as text.

const svg_space = 'http://www.w3.org/2000/svg';
const drawn = new WeakMap();

/** An element to be: `h('p.small', { key, onClick, … }, children)`; what is null or false among the children is left out. */
export function h(tag, props, ...children) {
  const [name, ...classes] = tag.split('.');
  const given = { ...props };
  if (classes.length > 0) given.class = [...classes, given.class].filter(Boolean).join(' ');
  return { name, props: given, key: given.key, children: children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false) };
}

function set_property(element, name, value, before) {
  if (name === 'key') return;
  if (name === 'value' && element.localName !== 'option' && element.localName !== 'button') {
    // What somebody is typing is not overwritten by what was planned meanwhile.
    if (!element.typing && element.value !== value) element.value = value;
  } else if (name === 'html') {
    if (value !== before) element.innerHTML = value; // made by the program, never of the job's text
  } else if (name.startsWith('on')) {
    element[name.toLowerCase()] = value ?? null;
  } else if (name === 'style') {
    for (const [property, wanted] of Object.entries(value ?? {})) {
      if (before?.[property] !== wanted) element.style.setProperty(property, wanted);
    }
  } else if (name === 'checked' || name === 'disabled' || name === 'selected' || name === 'indeterminate') {
    if (element[name] !== Boolean(value)) element[name] = Boolean(value);
  } else if (value === before) {
    return;
  } else if (value === null || value === undefined || value === false) {
    element.removeAttribute(name);
  } else {
    element.setAttribute(name, value === true ? '' : String(value));
  }
}

function set_properties(element, props, before) {
  for (const name of Object.keys(before)) {
    if (!(name in props)) set_property(element, name, name === 'html' ? '' : undefined, before[name]);
  }
  // A choice can be made only among what is there.
  for (const [name, value] of Object.entries(props)) if (name !== 'value') set_property(element, name, value, before[name]);
}

function same(node, wanted) {
  const was = drawn.get(node);
  if (typeof wanted !== 'object') return node.nodeType === Node.TEXT_NODE;
  return was !== undefined && was.name === wanted.name && was.key === wanted.key;
}

function made(wanted, parent) {
  if (typeof wanted !== 'object') return document.createTextNode(String(wanted));
  const inside_svg = wanted.name === 'svg' || (parent.namespaceURI === svg_space && parent.localName !== 'foreignObject');
  const element = inside_svg ? document.createElementNS(svg_space, wanted.name) : document.createElement(wanted.name);
  drawn.set(element, { name: wanted.name, key: wanted.key, props: {} });
  return element;
}

function bring(node, wanted) {
  if (typeof wanted !== 'object') {
    if (node.data !== String(wanted)) node.data = String(wanted);
    return;
  }
  const was = drawn.get(node);
  if (was.wanted === wanted) return; // the very same description: nothing can have changed
  set_properties(node, wanted.props, was.props);
  was.props = wanted.props;
  was.wanted = wanted;
  if (!('html' in wanted.props)) bring_children(node, wanted.children);
  if ('value' in wanted.props) set_property(node, 'value', wanted.props.value);
}

/** Removes a node and all behind it; null: there is none. */
export function remove_from(place) {
  while (place) {
    const next = place.nextSibling;
    place.remove();
    place = next;
  }
}

function bring_children(parent, wanted) {
  const keyed = new Map();
  for (const node of parent.childNodes) {
    const key = drawn.get(node)?.key;
    if (key !== undefined) keyed.set(key, node);
  }
  let place = parent.firstChild;
  for (const child of wanted) {
    let node = child.key !== undefined ? keyed.get(child.key) : place;
    if (node && (!same(node, child) || node.parentNode !== parent)) node = undefined;
    if (!node) {
      node = made(child, parent);
      parent.insertBefore(node, place);
    } else if (node === place) {
      place = place.nextSibling;
    } else {
      parent.insertBefore(node, place);
    }
    bring(node, child);
  }
  remove_from(place);
}

/** Brings one element that was drawn before in line with `wanted`, and nothing around it. */
export function draw_again(element, wanted) {
  bring(element, wanted);
}

/** Brings what is inside `root` in line with `children`; the focus stays where it was if that is still there. */
export function draw(root, ...children) {
  const focused = document.activeElement;
  bring_children(root, children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false));
  if (focused && focused !== document.activeElement && focused.isConnected && root.contains(focused)) {
    focused.focus({ preventScroll: true });
  }
}
