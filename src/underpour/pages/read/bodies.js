// Which body a place lies in.

// Whether a place lies within an outline: an odd number of its sides to the right.
export function within(outline, x, y) {
  let odd = false;
  for (let k = 0; k < outline.length; k += 1) {
    const [x0, y0] = outline[k];
    const [x1, y1] = outline[(k + 1) % outline.length];
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) * (x1 - x0)) / (y1 - y0)) odd = !odd;
  }
  return odd;
}

// The first of them that holds the place: those on top come first.
export function bodyAt(bodies, x, y) {
  return bodies.find((body) => within(body.outline, x, y)) ?? null;
}
