#!/usr/bin/env bash
# Draws the icon files from icon.svg, for the app and for the browser's home screen. Needs chromium and ImageMagick;
# run it after changing the drawing.
set -euo pipefail
cd "$(dirname "$0")"
home_screen=../../ui/public/icons
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
photograph() { # which svg, which png: 1024 by 1024
  {
    echo '<!doctype html><style>*{margin:0}svg{display:block;width:1024px;height:1024px}</style>'
    cat "$1"
  } > "$work/icon.html"
  "${CHROMIUM:-chromium}" --headless --no-sandbox --disable-gpu --no-first-run --disable-sync \
    --disable-background-networking --disable-component-update --user-data-dir="$work/profile" \
    --default-background-color=00000000 --window-size=1024,1024 \
    --screenshot="$2" "file://$work/icon.html" 2>/dev/null
}
# Tauri wants 8-bit RGBA.
draw() { convert "$1" -resize "$2x$2" -depth 8 -strip "PNG32:$3"; }
photograph icon.svg "$work/icon.png"
draw "$work/icon.png" 512 icon.png
draw "$work/icon.png" 32 32x32.png
draw "$work/icon.png" 128 128x128.png
draw "$work/icon.png" 256 128x128@2x.png
convert "$work/icon.png" -define icon:auto-resize=256,64,48,32,16 icon.ico
draw "$work/icon.png" 192 "$home_screen/icon-192.png"
draw "$work/icon.png" 512 "$home_screen/icon-512.png"
# Where the system cuts the corners itself, the sky reaches them and the mast stays in the middle four fifths
# (W3C Web Application Manifest, icon masks and safe zone: a circle of 2/5 of the width).
sed -e 's/rx="104"//g' -e 's|<g clip-path="url(#tile)">|<g transform="translate(64 64) scale(.75)">|' \
    -e 's|<path d="M0 424 L512 352 V512 H0 Z"|<path d="M-90 437 L602 339 V680 H-90 Z"|' icon.svg > "$work/masked.svg"
photograph "$work/masked.svg" "$work/masked.png"
draw "$work/masked.png" 512 "$home_screen/masked-512.png"
draw "$work/masked.png" 180 "$home_screen/apple-180.png"
