/** Line icons on a 24 × 24 grid, drawn for this app. */
export const ICONS = {
  // The five places
  measure: 'M3 17 17 3l4 4L7 21zM7 13l2 2M10.500 9.500l3 3M14 6l2 2',
  parts: 'M5 21V9M5 9h4v12M12 21V5h4v16M2 21h20',
  map: 'M9 4 3 6v14l6-2 6 2 6-2V4l-6 2zM9 4v14M15 6v14',
  build: 'M12 3v15M12 5 4 20M12 5l8 15M2 20h20',
  checks: 'M9 4h6v3H9zM7 5H5v16h14V5h-2M8.500 14l2.500 2.500 4.500-5',
  // Doing
  back: 'M15 5l-7 7 7 7',
  next: 'M9 5l7 7-7 7',
  add: 'M12 5v14M5 12h14',
  close: 'M6 6l12 12M18 6 6 18',
  more: 'M4 7h16M4 12h16M4 17h16',
  undo: 'M9 7 4 12l5 5M4 12h10a6 6 0 0 1 6 6v1',
  redo: 'M15 7l5 5-5 5M20 12H10a6 6 0 0 0-6 6v1',
  bin: 'M4 7h16M9 7V4h6v3M6 7l1 14h10l1-14M10 11v6M14 11v6',
  history: 'M4.500 9A8 8 0 1 1 4 13M4 4v5h5M12 8v5l3 2',
  strike:
    'M4 12h16M8 7.500C9 6 10.500 5.500 12 5.500c2.500 0 4 1.500 4 3M16 16c-.5 1.700-2 2.500-4 2.500-2.500 0-4.500-1.500-4.500-3.500',
  north: 'M12 20V4M6 10l6-6 6 6',
  south: 'M12 4v16M6 14l6 6 6-6',
  west: 'M20 12H4M10 6l-6 6 6 6',
  east: 'M4 12h16M14 6l6 6-6 6',
  turnLeft: 'M4 5v5h5M4.500 10a8 8 0 1 1-.5 4',
  turnRight: 'M20 5v5h-5M19.500 10a8 8 0 1 0 .5 4',
  fit: 'M4 9V4h5M20 9V4h-5M4 15v5h5M20 15v5h-5',
  contour: 'M3 8c4-4 6 3 10 0s5-3 8-1M3 15c4-4 6 3 10 0s5-3 8-1',
  legend: 'M4 6h2M9 6h11M4 12h2M9 12h11M4 18h2M9 18h11',
  print: 'M7 9V3h10v6M7 17H4V9h16v8h-3M7 14h10v7H7z',
  save: 'M12 4v11M7 11l5 5 5-5M4 20h16',
  open: 'M12 16V5M7 9l5-5 5 5M4 20h16',
  link: 'M10 14l4-4M8.500 11.500 6 14a3.500 3.500 0 0 0 4.500 4.500l2.500-2.500M15.500 12.500 18 10a3.500 3.500 0 0 0-4.500-4.500L11 8',
  codes: 'M4 4h6v6H4zM14 4h6v6h-6zM4 14h6v6H4zM14 14h2v2h-2zM18 18h2v2h-2zM18 14h2M14 20v-1',
  camera: 'M4 8h4l1.500-3h5L16 8h4v11H4zM12 10a3.500 3.500 0 1 0 0 7 3.500 3.500 0 0 0 0-7z',
  pin: 'M12 21s7-6.500 7-11.500a7 7 0 0 0-14 0C5 14.500 12 21 12 21zM12 7v5M9.500 9.500h5',
  phone: 'M8 2h8v20H8zM11 19h2',
  lantern: 'M12 2v3M8 8h8l1 10H7zM8 8l1-3h6l1 3M6 21h12M12 11v4',
  place: 'M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM15.500 8.500l-2 5-5 2 2-5z',
  wind: 'M3 9h11a3 3 0 1 0-3-3M3 13h15a3 3 0 1 1-3 3M3 17h7a2 2 0 1 1-2 2',
  eye: 'M2 12c3-5 6-7 10-7s7 2 10 7c-3 5-6 7-10 7s-7-2-10-7zM12 9a3 3 0 1 0 0 6 3 3 0 0 0 0-6zM12 2v1M5 4l1 1M19 4l-1 1',
  calliper: 'M4 3v18M4 6h15M4 11h8M19 3v8M12 9v6',
  // How bad
  stop: 'M8 3h8l5 5v8l-5 5H8l-5-5V8zM8 12h8',
  unchecked:
    'M2 12s4-6.500 10-6.500S22 12 22 12s-4 6.500-10 6.500S2 12 2 12zM12 9.500a2.500 2.500 0 1 0 0 5 2.500 2.500 0 0 0 0-5z',
  caution: 'M12 3 22 20H2zM12 9v5M12 17v.200',
  note: 'M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM12 11v6M12 7.500v.200',
  good: 'M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM8 12l3 3 5-6',
} as const;

export type IconName = keyof typeof ICONS;
