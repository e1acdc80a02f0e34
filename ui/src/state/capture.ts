/** How a captured value came about, in few words and numbers, for the log of the survey. */
export interface Capture {
  /** Such as `phone, motion sensor`. */
  instrument: string;
  samples: number;
  seconds: number;
  /** Standard deviation of one sample, in the unit of the value; null where there is none. */
  sd: number | null;
}

/** Several holds or sights as one capture: all samples and seconds, the worst of the deviations. */
export function together(captures: Capture[]): Capture {
  const [first, ...rest] = captures;
  if (!first) return { instrument: 'phone', samples: 0, seconds: 0, sd: null };
  return rest.reduce(
    (sum, one) => ({
      instrument: sum.instrument,
      samples: sum.samples + one.samples,
      seconds: sum.seconds + one.seconds,
      sd: one.sd === null || sum.sd === null ? null : Math.max(sum.sd, one.sd),
    }),
    first,
  );
}
