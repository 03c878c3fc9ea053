// Chance for tests. Never a clock: every run asks the same.

/** Rolls from a seed that is not 0: a number from 0, below `sides` (xorshift32, Marsaglia 2003). */
export function dice(seed) {
  let state = seed;
  return (sides) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % sides;
  };
}
