import type { SheetPage } from '../../backend/model';
import { inTurns } from '../../state/turns';

/** Prints SVG pages by themselves, each at its own size: in a frame of its own, so that none of the app is printed. */
export function printSheets(pages: SheetPage[]): void {
  const sizes = pages.map(({ size_mm: [width, height] }, i) => {
    const size = `size:${width}mm ${height}mm`;
    return `@page p${i}{margin:0;${size}}.p${i}{page:p${i}}`;
  });
  const style = `@page{margin:0}body{margin:0}svg{display:block}section{break-after:page;overflow:hidden}section:last-child{break-after:auto}${sizes.join('')}`;
  print(
    'Sheets for printing',
    style,
    pages.map(({ svg }, i) => `<section class="p${i}">${svg}</section>`),
  );
}

/** Prints an element of the page by itself, in black on white. */
export function printElement(element: HTMLElement, title: string): void {
  const style =
    'body{font:14pt/1.35 system-ui,sans-serif;max-width:17cm}b{display:block}dt{font-weight:bold}dd{margin:0 0 .8em}dd b{font-size:18pt}ul{padding-left:1.2em}button,svg{display:none}';
  print(title, style, [element.outerHTML]);
}

/** A part after the other: a page of the sheets is as much as a slow phone reads in one go. */
function print(title: string, style: string, parts: string[]): void {
  document.getElementById('print-frame')?.remove();
  const frame = document.createElement('iframe');
  frame.id = 'print-frame';
  frame.title = title;
  frame.style.cssText = 'position:fixed;width:0;height:0;border:0;visibility:hidden';
  frame.srcdoc = '<!doctype html>';
  frame.onload = () => {
    const inside = frame.contentWindow as (Window & typeof globalThis) | null;
    if (!inside) return;
    // A sheet made here, not a style in the text: the page's policy lets no text bring styles with it.
    const sheet = new inside.CSSStyleSheet();
    sheet.replaceSync(style);
    inside.document.adoptedStyleSheets = [sheet];
    const put = (part: string) => () => inside.document.body.insertAdjacentHTML('beforeend', part);
    inTurns(parts.map(put), () => inside.print());
  };
  document.body.append(frame);
}
