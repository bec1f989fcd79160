// Temperatures of one section between the lines of its grid, as the core worked them out.

// The values of a grid, row after row, from their differences to the left and above.
export function restored(differences, wide) {
  const values = new Int32Array(differences.length);
  const above = new Int32Array(wide);
  for (let k = 0; k < differences.length; k += wide) {
    let across = 0;
    for (let i = 0; i < wide; i += 1) {
      above[i] += differences[k + i];
      across += above[i];
      values[k + i] = across;
    }
  }
  return values;
}

export function readyField(field) {
  const wide = field.x.length;
  return {
    ...field,
    mean: restored(field.mean, wide),
    cosine: restored(field.cosine, wide),
    sine: restored(field.sine, wide),
  };
}

// The last line at or before a place, so that the next one is there too; -1 outside of the grid.
export function lineBefore(lines, at) {
  const last = lines.length - 1;
  if (!(at >= lines[0] && at <= lines[last])) return -1;
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (lines[middle] <= at) low = middle;
    else high = middle;
  }
  return low;
}

// degC at a place [m] and a moment; null outside of the grid and in air.
export function temperatureAt(field, moment, x, y) {
  const i = lineBefore(field.x, x);
  const j = lineBefore(field.y, y);
  if (i < 0 || j < 0) return null;
  const u = (x - field.x[i]) / (field.x[i + 1] - field.x[i]);
  const v = (y - field.y[j]) / (field.y[j + 1] - field.y[j]);
  let sum = 0;
  let known = 0;
  for (const [column, row, weight] of [
    [i, j, (1 - u) * (1 - v)],
    [i + 1, j, u * (1 - v)],
    [i, j + 1, (1 - u) * v],
    [i + 1, j + 1, u * v],
  ]) {
    const k = row * field.x.length + column;
    if (field.mean[k] === field.air) continue;
    sum += weight * (field.mean[k] + moment.cosine * field.cosine[k] - moment.sine * field.sine[k]);
    known += weight;
  }
  return known > 0 ? (field.step * sum) / known : null;
}
