/** Prints an SVG sheet by itself, at its own size: in a frame of its own, so that none of the app is printed. */
export function printSheet(svg: string): void {
  document.getElementById('print-frame')?.remove();
  const frame = document.createElement('iframe');
  frame.id = 'print-frame';
  frame.title = 'Staking map for printing';
  frame.style.cssText = 'position:fixed;width:0;height:0;border:0;visibility:hidden';
  frame.srcdoc = `<!doctype html><style>@page{margin:0}body{margin:0}svg{display:block}</style>${svg}`;
  frame.onload = () => frame.contentWindow?.print();
  document.body.append(frame);
}
