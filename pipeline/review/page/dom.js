// Elements from names, properties and children. Text always goes in as text, never as markup.
//
//   make('button.chip', { type: 'button', onclick: f, 'aria-pressed': 'true' }, 'Nf3', make('i'))

const SVG = 'http://www.w3.org/2000/svg';
const SVG_NAMES = new Set(['svg', 'g', 'path', 'rect', 'circle', 'line', 'use', 'text', 'title']);

export function make(name, properties = {}, ...children) {
  const [tag, ...classes] = name.split('.');
  const svg = SVG_NAMES.has(tag);
  const element = svg ? document.createElementNS(SVG, tag) : document.createElement(tag);
  if (classes.length) element.setAttribute('class', classes.join(' '));
  for (const [key, value] of Object.entries(properties)) {
    if (value === undefined || value === null || value === false) continue;
    if (typeof value === 'function') element[key] = value;
    else element.setAttribute(key, value === true ? '' : value);
  }
  element.append(...children.filter(child => child !== null && child !== undefined && child !== ''));
  return element;
}

export const byId = id => document.getElementById(id);

export function fill(element, ...children) { element.replaceChildren(...children.filter(Boolean)); }

export const action = (text, onclick, properties = {}) =>
  make('button', { type: 'button', onclick, ...properties }, text);

// Text that may hold marks of another writing direction keeps them to itself.
export const heardText = text => make('bdi', {}, text);
