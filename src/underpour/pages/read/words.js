// Words for a value, out of those that the core wrote for every value that can come up.

export function wordsFor(table, value) {
  const last = table.words.length - 1;
  const place = Math.round((value - table.first) / table.step);
  return table.words[Math.min(Math.max(place, 0), last)];
}
