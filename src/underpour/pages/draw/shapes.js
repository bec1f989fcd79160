// Shapes handed over as lists of name, attributes and content become elements; words become text, never markup.

const DRAWN = ['g', 'path', 'rect', 'circle', 'text'];

export function element(name, attributes, content) {
  if (!DRAWN.includes(name)) throw new Error(`${name} is not drawn here`);
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (typeof content === 'string') made.textContent = content;
  else made.append(...content.map((inner) => element(...inner)));
  return made;
}
