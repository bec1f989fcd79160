// <up-field>: temperatures as flat tints. The numbers are the desk's; here they are put on the screen, pixel by pixel.

const STEPS_EACH = 100; // entries of the table of tints for each kelvin

/** @param {string} letters base 64 of 16-bit steps */
export function unpacked(letters) {
  const read = atob(letters);
  const bytes = new Uint8Array(read.length);
  for (let k = 0; k < read.length; k += 1) bytes[k] = read.charCodeAt(k);
  return new Int16Array(bytes.buffer);
}

/** A field as it was sent, its numbers opened. */
export function opened(field) {
  return { ...field, mean: unpacked(field.mean), cosine: unpacked(field.cosine), sine: unpacked(field.sine) };
}

/** Temperatures of all places at one moment. [degC] @returns {Float32Array} */
export function atMoment(field, { cosine, sine }) {
  const { mean, cosine: along, sine: across, step, air } = field;
  const values = new Float32Array(mean.length);
  const c = cosine * step;
  const s = sine * step;
  for (let k = 0; k < mean.length; k += 1) {
    values[k] = mean[k] === air ? NaN : mean[k] * step + along[k] * c - across[k] * s;
  }
  return values;
}

/** For each pixel the line of the grid before it, and how far it is on the way to the next. */
export function places(lines, count, first, last) {
  const before = new Int32Array(count);
  const share = new Float32Array(count);
  let k = 0;
  for (let n = 0; n < count; n += 1) {
    const at = first + ((n + 0.5) / count) * (last - first);
    const rising = last > first;
    if (rising) while (k < lines.length - 2 && lines[k + 1] <= at) k += 1;
    else k = lineBefore(lines, at);
    before[n] = k;
    share[n] = Math.min(Math.max((at - lines[k]) / (lines[k + 1] - lines[k]), 0), 1);
  }
  return { before, share };
}

function lineBefore(lines, at) {
  let low = 0;
  let high = lines.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (lines[middle] <= at) low = middle;
    else high = middle;
  }
  return low;
}

/** One colour for each hundredth of a degree between the outermost bounds. */
export function tintTable({ bounds, colours }) {
  const low = (bounds[0] ?? 0) - 1;
  const count = Math.ceil(((bounds.at(-1) ?? 0) + 1 - low) * STEPS_EACH) + 1;
  const table = new Uint32Array(count);
  const words = colours.map(word);
  let tint = 0;
  for (let n = 0; n < count; n += 1) {
    while (tint < bounds.length && low + (n + 0.5) / STEPS_EACH >= bounds[tint]) tint += 1;
    table[n] = words[tint];
  }
  return { low, table };
}

function word(colour) {
  const [r, g, b] = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16));
  return ((255 << 24) | (b << 16) | (g << 8) | r) >>> 0;
}

/** The pixels of a field: straight between its lines, one flat tint between two bounds. */
export function paint(pixels, across, down, values, wide, { low, table }) {
  const count = across.before.length;
  const last = table.length - 1;
  const row = new Float32Array(wide);
  for (let y = 0, p = 0; y < down.before.length; y += 1) {
    const above = down.before[y] * wide;
    const v = down.share[y];
    for (let i = 0; i < wide; i += 1) row[i] = (values[above + i] * (1 - v) + values[above + wide + i] * v - low) * STEPS_EACH;
    for (let x = 0; x < count; x += 1, p += 1) {
      const i = across.before[x];
      const at = (row[i] + across.share[x] * (row[i + 1] - row[i])) | 0;
      pixels[p] = table[at < 0 ? 0 : at > last ? last : at];
    }
  }
}

class UpField extends HTMLElement {
  connectedCallback() {
    if (this.canvas) return;
    this.canvas = document.createElement('canvas');
    this.canvas.setAttribute('aria-hidden', 'true');
    this.append(this.canvas);
    new ResizeObserver(([{ contentRect }]) => {
      this.breadth = contentRect.width; // kept, since asking for it has the page laid out anew
      this.paint();
    }).observe(this);
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
      this.shade = null;
      this.paint();
    });
  }

  /** @param {object} drawn a section as it was sent, its field opened @param {{cosine: number, sine: number}} moment */
  show(drawn, moment) {
    if (drawn.tints !== this.drawn?.tints) this.table = tintTable(drawn.tints);
    this.drawn = drawn;
    this.moment = moment;
    this.paint();
  }

  paint() {
    if (!this.drawn || !this.breadth) return;
    const { frame, window: [x0, x1, y0, y1], field } = this.drawn;
    const ratio = Math.min(devicePixelRatio, 2);
    const wide = Math.max(Math.round(this.breadth * ratio), 1);
    const high = Math.max(Math.round((wide * frame.height) / frame.width), 1);
    const { canvas } = this;
    if (canvas.width !== wide || canvas.height !== high) Object.assign(canvas, { width: wide, height: high });
    const image = new ImageData(wide, high);
    const values = atMoment(field, this.moment);
    paint(new Uint32Array(image.data.buffer), places(field.x, wide, x0, x1), places(field.y, high, y1, y0), values, field.x.length, this.table);
    this.behind ??= document.createElement('canvas');
    Object.assign(this.behind, { width: wide, height: high });
    this.behind.getContext('2d').putImageData(image, 0, 0);
    const pen = canvas.getContext('2d');
    pen.resetTransform();
    pen.clearRect(0, 0, wide, high);
    const scale = wide / frame.width;
    pen.setTransform(scale, 0, 0, scale, -frame.left * scale, -frame.top * scale);
    this.shade ??= getComputedStyle(this).getPropertyValue('--shade') || '#E6EBE6'; // kept, as the breadth is
    pen.fillStyle = this.shade;
    for (const room of this.drawn.rooms) pen.fill(new Path2D(room));
    pen.save();
    pen.clip(new Path2D(this.drawn.solid));
    pen.drawImage(this.behind, frame.left, frame.top, frame.width, frame.height);
    pen.restore();
  }
}

customElements.define('up-field', UpField);
