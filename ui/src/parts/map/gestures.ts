type Pixel = [number, number];

export interface Gestures {
  pan: (dx: number, dy: number) => void;
  zoom: (factor: number, at: Pixel) => void;
  tap: (at: Pixel) => void;
  /** The last finger is gone. */
  rest: () => void;
}

/** A finger that moved less than this has tapped. */
const TAP_PX = 9;

/** Turns pointers and the wheel on an element into pans, zooms and taps. What begins on a handle is its own. */
export function watchGestures(element: Element, on: Gestures): () => void {
  const fingers = new Map<number, Pixel>();
  let travelled = 0;

  const at = (event: { clientX: number; clientY: number }): Pixel => {
    const box = element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };

  const down = (event: PointerEvent) => {
    if (event.button > 0 || (event.target as Element).closest('[data-handle]')) return;
    element.setPointerCapture(event.pointerId);
    if (fingers.size === 0) travelled = 0;
    fingers.set(event.pointerId, at(event));
  };

  const move = (event: PointerEvent) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const now = at(event);
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    fingers.set(event.pointerId, now);
    travelled += Math.hypot(now[0] - before[0], now[1] - before[1]);
    if (other) pinch(before, now, other);
    else if (travelled > TAP_PX) on.pan(now[0] - before[0], now[1] - before[1]);
  };

  const pinch = (before: Pixel, now: Pixel, other: Pixel) => {
    travelled = Infinity;
    const middle: Pixel = [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2];
    const apart = (p: Pixel) => Math.max(Math.hypot(p[0] - other[0], p[1] - other[1]), 10);
    on.pan((now[0] - before[0]) / 2, (now[1] - before[1]) / 2);
    on.zoom(apart(now) / apart(before), middle);
  };

  const up = (event: PointerEvent) => {
    if (!fingers.delete(event.pointerId)) return;
    if (fingers.size > 0) return;
    if (event.type === 'pointerup' && travelled <= TAP_PX) on.tap(at(event));
    on.rest();
  };

  const wheel = (event: WheelEvent) => {
    event.preventDefault();
    on.zoom(Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0016)), at(event));
    on.rest();
  };

  const listeners = { pointerdown: down, pointermove: move, pointerup: up, pointercancel: up, wheel };
  for (const [name, listener] of Object.entries(listeners)) {
    element.addEventListener(name, listener as EventListener, { passive: false });
  }
  return () => {
    for (const [name, listener] of Object.entries(listeners)) {
      element.removeEventListener(name, listener as EventListener);
    }
  };
}
