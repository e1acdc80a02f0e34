/** Does one piece of work after the other, each in a turn of its own: what the finger does in between comes first. */
export function inTurns(pieces: readonly (() => void)[], done: () => void = () => undefined): void {
  const [next, ...others] = pieces;
  if (!next) return done();
  setTimeout(() => {
    next();
    inTurns(others, done);
  });
}
