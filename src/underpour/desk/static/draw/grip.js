// The line of a layer or of foam at the edge: drawn, it types the nearest size that there is.

const FAST = 4; // offers that Page Up and Page Down pass over
const KEYS = { ArrowDown: 1, ArrowUp: -1, PageDown: FAST, PageUp: -FAST };

/** @param {object} each as it was sent @param {object} drawn the section @param {import('../talk/brief.js').Brief} brief */
export function grip(each, drawn, brief) {
  const down = each.way === 'down';
  const [along, across] = down ? [drawn.high, drawn.wide] : [drawn.wide, drawn.high];
  const [side, other, reach] = down ? ['top', 'left', 'width'] : ['left', 'top', 'height'];
  const handle = document.createElement('div');
  handle.className = `grip ${each.way}`;
  const sizes = each.offers.map(([size]) => size);
  const nearest = (size) => sizes.reduce((best, other, n) => (Math.abs(other - size) < Math.abs(sizes[best] - size) ? n : best), 0);
  let at = nearest(each.sign * (each.at - each.start));
  const put = (n, words) => {
    at = n;
    handle.style.setProperty(side, `${(100 * (each.start + each.sign * sizes[n])) / along}%`);
    handle.setAttribute('aria-valuenow', String(n));
    handle.setAttribute('aria-valuetext', words ?? each.offers[n][1]);
  };
  for (const [name, value] of Object.entries({ role: 'slider', tabindex: 0, 'aria-orientation': down ? 'vertical' : 'horizontal', 'aria-valuemin': 0, 'aria-valuemax': sizes.length - 1, 'aria-label': each.name, 'data-path': each.path })) {
    handle.setAttribute(name, String(value));
  }
  handle.style.setProperty(other, `${(100 * each.first) / across}%`);
  handle.style.setProperty(reach, `${(100 * (each.last - each.first)) / across}%`);
  put(at, each.now);
  handle.style.setProperty(side, `${(100 * each.at) / along}%`);
  let sameAs = null;
  const type = (n) => {
    const to = Math.min(Math.max(n, 0), sizes.length - 1);
    if (to === at) return;
    put(to);
    handle.dataset.words = each.offers[to][1];
    brief.type([{ path: each.path, typed: each.offers[to][1] }], { sameAs });
  };
  for (const near of ['pointerenter', 'focus']) handle.addEventListener(near, () => brief.ahead(each.path));
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
    const share = down ? (event.clientY - paper.top) / paper.height : (event.clientX - paper.left) / paper.width;
    type(nearest(each.sign * (share * along - each.start)));
  });
  const end = () => {
    handle.classList.remove('dragged');
    delete handle.dataset.words;
  };
  handle.addEventListener('pointerup', end);
  handle.addEventListener('pointercancel', end);
  handle.addEventListener('keydown', (event) => {
    const by = { ...KEYS, ...(down ? {} : { ArrowLeft: -each.sign, ArrowRight: each.sign }) }[event.key];
    if (!by) return;
    event.preventDefault();
    sameAs = `keys ${each.path}`;
    type(at + by);
  });
  return handle;
}
