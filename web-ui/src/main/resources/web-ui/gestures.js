// Ways to move along a trend: wheel, drag, touch and keys. Whoever cannot use one has another.

const LEAST_SPAN_S = 10;

/** The next span for a zoom by a factor around a share of the width (0 left, 1 right). */
export function zoomed([from, to], factor, share, endS) {
  const width = Math.min(Math.max((to - from) * factor, LEAST_SPAN_S), Math.max(endS * 1.1, 2 * LEAST_SPAN_S));
  const fixed = from + (to - from) * share;
  const start = Math.max(0, fixed - width * share);
  return [start, start + width];
}

/** The next span for a move by a share of the width; the batch stays in sight. */
export function moved([from, to], share, endS) {
  const width = to - from;
  const start = Math.min(Math.max(0, from + width * share), Math.max(0, endS - width * 0.1));
  return [start, start + width];
}

/** Keys on the plot: returns what to do, or null. */
export function keyed(event) {
  if (event.ctrlKey || event.altKey || event.metaKey) return null;
  const pans = { ArrowLeft: -0.25, ArrowRight: 0.25 };
  if (event.shiftKey && event.key in pans) return { pan: pans[event.key] };
  if (event.key === '+' || event.key === '=') return { zoom: 0.5 };
  if (event.key === '-' || event.key === '_') return { zoom: 2 };
  if (event.key === '0') return { whole: true };
  const steps = { ArrowLeft: -1, ArrowRight: 1, PageUp: -20, PageDown: 20, Home: -Infinity, End: Infinity };
  return event.key in steps ? { step: steps[event.key] } : null;
}

/** Wheel with Ctrl zooms (so does a pinch on a touch pad), with Shift it moves; else the page scrolls. */
export function addGestures(plot, trend) {
  const share = (clientX) => {
    const over = plot.querySelector('.u-over');
    const box = (over || plot).getBoundingClientRect();
    return Math.min(1, Math.max(0, (clientX - box.left) / Math.max(1, box.width)));
  };
  plot.addEventListener(
    'wheel',
    (event) => {
      if (event.ctrlKey || event.metaKey) {
        event.preventDefault();
        trend.zoomBy(event.deltaY > 0 ? 1.25 : 0.8, share(event.clientX));
      } else if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
        event.preventDefault();
        trend.panBy((event.deltaX || event.deltaY) > 0 ? 0.1 : -0.1);
      }
    },
    { passive: false },
  );
  addTouch(plot, trend, share);
}

/** One finger sideways moves, two fingers zoom; up and down stays with the page. */
function addTouch(plot, trend, share) {
  const fingers = new Map();
  let before = null;
  const spread = () => {
    const [a, b] = [...fingers.values()];
    return b === undefined ? null : Math.max(10, Math.abs(a - b));
  };
  const middle = () => [...fingers.values()].reduce((sum, x) => sum + x, 0) / fingers.size;
  plot.addEventListener('pointerdown', (event) => {
    if (event.pointerType !== 'touch') return;
    fingers.set(event.pointerId, event.clientX);
    before = { range: trend.range(), middle: middle(), spread: spread() };
  });
  plot.addEventListener('pointermove', (event) => {
    if (!fingers.has(event.pointerId) || !before) return;
    fingers.set(event.pointerId, event.clientX);
    const width = Math.max(1, plot.clientWidth);
    if (fingers.size === 1 && Math.abs(middle() - before.middle) > 8) {
      trend.goTo(moved(before.range, (before.middle - middle()) / width, trend.wholeS()));
    } else if (fingers.size === 2 && before.spread) {
      trend.goTo(zoomed(before.range, before.spread / spread(), share(before.middle), trend.wholeS()));
    }
  });
  const lift = (event) => {
    if (!fingers.delete(event.pointerId)) return;
    before = fingers.size > 0 ? { range: trend.range(), middle: middle(), spread: spread() } : null;
  };
  for (const name of ['pointerup', 'pointercancel', 'pointerleave']) plot.addEventListener(name, lift);
}
