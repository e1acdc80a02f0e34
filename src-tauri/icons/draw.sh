#!/usr/bin/env bash
# Draws the icon files from icon.svg. Needs chromium and ImageMagick; run it after changing the drawing.
set -euo pipefail
cd "$(dirname "$0")"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
{
  echo '<!doctype html><style>*{margin:0}svg{display:block;width:1024px;height:1024px}</style>'
  cat icon.svg
} > "$work/icon.html"
"${CHROMIUM:-chromium}" --headless --no-sandbox --disable-gpu --no-first-run --disable-sync \
  --disable-background-networking --disable-component-update --user-data-dir="$work/profile" \
  --default-background-color=00000000 --window-size=1024,1024 \
  --screenshot="$work/icon.png" "file://$work/icon.html" 2>/dev/null
# Tauri wants 8-bit RGBA.
draw() { convert "$work/icon.png" -resize "$1x$1" -depth 8 -strip "PNG32:$2"; }
draw 512 icon.png
draw 32 32x32.png
draw 128 128x128.png
draw 256 128x128@2x.png
convert "$work/icon.png" -define icon:auto-resize=256,64,48,32,16 icon.ico
