// Pictures that the desk drew become elements. Only what drawings are made of is let in: no script, nothing that loads.

const SPACE = 'http://www.w3.org/2000/svg';
const DRAWN = new Set('svg g path rect circle polygon polyline line ellipse text tspan title desc defs clipPath pattern use'.split(' '));
const OUTSIDE = /^\s*(?!#)|url\((?!#)/i; // of what refers to something: all but a name in the same picture

/** @param {string} drawn the inside of a picture @returns {SVGElement[]} */
export function elements(drawn) {
  if (!drawn) return [];
  const read = new DOMParser().parseFromString(`<svg xmlns="${SPACE}">${drawn}</svg>`, 'image/svg+xml');
  for (const element of read.querySelectorAll('*')) look(element);
  return [...read.documentElement.childNodes].map((node) => document.adoptNode(node));
}

/** A whole picture, its own size left to the page. @param {string} text */
export function picture(text) {
  const [svg] = elements(text.replace(/^[^<]*/, ''));
  svg.removeAttribute('width');
  svg.removeAttribute('height');
  return svg;
}

/** @param {string} name @param {Record<string, string|number>} attributes @param {(Node|string)[]} inner */
export function made(name, attributes = {}, ...inner) {
  const element = document.createElementNS(SPACE, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.append(...inner);
  return element;
}

function look(element) {
  if (!DRAWN.has(element.localName)) throw new Error(`${element.localName} is not drawn here`);
  for (const { name, value } of element.attributes) {
    const refers = name.endsWith('href') ? OUTSIDE.test(value) : /url\((?!#)/i.test(value);
    if (name.startsWith('on') || name === 'style' || refers) throw new Error(`${name} is not drawn here`);
  }
}
