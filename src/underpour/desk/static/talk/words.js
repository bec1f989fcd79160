// Words of the page, from the one file; {name} is filled in.

const table = JSON.parse(document.getElementById('words').textContent);

/**
 * @param {string} key as in the words' file: "sheet.page.undo"
 * @param {Record<string, string|number>} [given]
 */
export function say(key, given = {}) {
  const found = key.split('.').reduce((at, step) => at?.[step], table);
  if (typeof found !== 'string') throw new Error(`no words for ${key}`);
  return found.replace(/\{(\w+)\}/g, (_, name) => String(given[name] ?? ''));
}
