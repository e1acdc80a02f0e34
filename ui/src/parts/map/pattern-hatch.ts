/** Hatchings in a square of ten that repeat: upright, level, crosses, rings, wedges, squares. */
const HATCHES = [
  'M5 0v10',
  'M0 5h10',
  'M2 5h6M5 2v6',
  'M5 2a3 3 0 1 0 0.01 0z',
  'M2 7l3-4 3 4z',
  'M2.5 2.5h5v5h-5z',
] as const;

/** The hatching of one of the patterns tried. */
export const hatchOf = (number: number): string => HATCHES[number % HATCHES.length]!;
