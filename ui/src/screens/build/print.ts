/** Prints an SVG sheet by itself, at its own size: in a frame of its own, so that none of the app is printed. */
export function printSheet(svg: string): void {
  print('Staking map for printing', '@page{margin:0}body{margin:0}svg{display:block}', svg);
}

/** Prints an element of the page by itself, in black on white. */
export function printElement(element: HTMLElement, title: string): void {
  const style =
    'body{font:14pt/1.35 system-ui,sans-serif;max-width:17cm}b{display:block}dt{font-weight:bold}dd{margin:0 0 .8em}dd b{font-size:18pt}ul{padding-left:1.2em}button,svg{display:none}';
  print(title, style, element.outerHTML);
}

function print(title: string, style: string, body: string): void {
  document.getElementById('print-frame')?.remove();
  const frame = document.createElement('iframe');
  frame.id = 'print-frame';
  frame.title = title;
  frame.style.cssText = 'position:fixed;width:0;height:0;border:0;visibility:hidden';
  frame.srcdoc = `<!doctype html><style>${style}</style>${body}`;
  frame.onload = () => frame.contentWindow?.print();
  document.body.append(frame);
}
