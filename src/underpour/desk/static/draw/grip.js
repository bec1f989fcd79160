// The lower line of a layer: drawn down or up it types the nearest thickness that there is.

const FAST = 4; // offers that Page Up and Page Down pass over

/** @param {object} each as it was sent @param {object} drawn the section @param {import('../talk/brief.js').Brief} brief */
export function grip(each, drawn, brief) {
  const { wide, high } = drawn;
  const handle = document.createElement('div');
  handle.className = 'grip';
  const sizes = each.offers.map(([size]) => size);
  const nearest = (size) => sizes.reduce((best, other, n) => (Math.abs(other - size) < Math.abs(sizes[best] - size) ? n : best), 0);
  let at = nearest(each.bottom - each.top);
  const put = (n, words) => {
    at = n;
    handle.style.setProperty('top', `${(100 * (each.top + sizes[n])) / high}%`);
    handle.setAttribute('aria-valuenow', String(n));
    handle.setAttribute('aria-valuetext', words ?? each.offers[n][1]);
  };
  for (const [name, value] of Object.entries({ role: 'slider', tabindex: 0, 'aria-orientation': 'vertical', 'aria-valuemin': 0, 'aria-valuemax': sizes.length - 1, 'aria-label': each.name, 'data-path': each.path })) {
    handle.setAttribute(name, String(value));
  }
  handle.style.setProperty('left', `${(100 * each.left) / wide}%`);
  handle.style.setProperty('width', `${(100 * (each.right - each.left)) / wide}%`);
  put(at, each.now);
  handle.style.setProperty('top', `${(100 * each.bottom) / high}%`);
  let sameAs = null;
  const type = (n) => {
    const to = Math.min(Math.max(n, 0), sizes.length - 1);
    if (to === at) return;
    put(to);
    handle.dataset.words = each.offers[to][1];
    brief.type([{ path: each.path, typed: each.offers[to][1] }], { sameAs });
  };
  handle.addEventListener('pointerdown', (event) => {
    event.preventDefault();
    handle.setPointerCapture(event.pointerId);
    handle.classList.add('dragged');
    handle.dataset.words = each.offers[at][1];
    sameAs = `drag ${each.path} ${event.timeStamp}`;
    handle.focus();
  });
  handle.addEventListener('pointermove', (event) => {
    if (!handle.classList.contains('dragged')) return;
    const paper = handle.parentElement.getBoundingClientRect();
    type(nearest(((event.clientY - paper.top) / paper.height) * high - each.top));
  });
  const end = () => {
    handle.classList.remove('dragged');
    delete handle.dataset.words;
  };
  handle.addEventListener('pointerup', end);
  handle.addEventListener('pointercancel', end);
  handle.addEventListener('keydown', (event) => {
    const by = { ArrowDown: 1, ArrowUp: -1, PageDown: FAST, PageUp: -FAST }[event.key];
    if (!by) return;
    event.preventDefault();
    sameAs = `keys ${each.path}`;
    type(at + by);
  });
  return handle;
}
