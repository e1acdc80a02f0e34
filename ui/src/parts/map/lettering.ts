import type { Align } from '../../backend/model';

/** Between a label and the edge of the picture. */
const EDGE_PX = 4;

const widths = new Map<string, number>();
let pen: CanvasRenderingContext2D | null | undefined;

/** Width of a text in bold letters of one pixel's height; estimated where nothing can measure it. */
function widthEm(text: string): number {
  const known = widths.get(text);
  if (known !== undefined) return known;
  if (widths.size > 2000) widths.clear();
  if (pen === undefined) {
    pen = document.createElement?.('canvas').getContext('2d') ?? null;
    // Asked once: asking during a drag would work out all styles in the middle of a frame.
    if (pen) pen.font = `650 100px ${getComputedStyle(document.body).fontFamily}`;
  }
  const width = pen ? pen.measureText(text).width / 100 : text.length * 0.62;
  widths.set(text, width);
  return width;
}

/** How far a level text has to move so that no edge of the picture cuts it; what lies outside stays there. */
export function shiftInside(x: number, text: string, align: Align, textPx: number, width: number): number {
  if (x < 0 || x > width) return 0;
  const long = widthEm(text) * textPx;
  const left = x - (align === 'end' ? long : align === 'middle' ? long / 2 : 0);
  if (left < EDGE_PX) return EDGE_PX - left;
  return Math.min(0, Math.max(width - EDGE_PX - long, EDGE_PX) - left);
}
