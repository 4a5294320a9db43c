import { checkInteger } from "../core/check.js";

export interface Random {
  /** In [0, 1), a multiple of 2⁻⁵³. */
  uniform(): number;
  /** Mean 0, standard deviation 1. */
  normal(): number;
  /** A whole number in [0, below), all equally likely; below from 1 to 2³². */
  integer(below: number): number;
}

const MULTIPLIER = 6364136223846793005n;
/** The stream number of the published demonstration of the generator, so that its output can be compared. */
const STREAM = 54n;
const WORDS = 2 ** 32;

/**
 * Repeatable random numbers: the same seed gives the same sequence everywhere, and time never enters.
 * @param seed a whole number from 0 to 2⁵³ − 1
 * Throws `wrong-type`, `out-of-range` for other seeds, and for a `below` out of range.
 * Source: O'Neill (2014), PCG32 (XSH-RR 64/32); for the normal law Marsaglia & Bray (1964).
 */
export function createRandom(seed: number): Random {
  const increment = (STREAM << 1n) | 1n;
  const advance = (from: bigint) => BigInt.asUintN(64, from * MULTIPLIER + increment);
  let state = advance(
    increment + BigInt(checkInteger(seed, "seed", { min: 0, max: Number.MAX_SAFE_INTEGER })),
  );

  const word = () => {
    const shifted = Number(BigInt.asUintN(32, ((state >> 18n) ^ state) >> 27n));
    const turn = Number(state >> 59n);
    state = advance(state);
    return ((shifted >>> turn) | (shifted << (-turn & 31))) >>> 0;
  };

  const uniform = () => {
    const high = word() >>> 5;
    return (high * 2 ** 26 + (word() >>> 6)) / 2 ** 53;
  };

  const normal = () => {
    for (;;) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const squares = u * u + v * v;
      // The second of the pair is not kept: one number a call leaves no hidden state.
      if (squares > 0 && squares < 1) return u * Math.sqrt((-2 * Math.log(squares)) / squares);
    }
  };

  const integer = (below: number) => {
    checkInteger(below, "below", { min: 1, max: WORDS });
    const fair = WORDS - (WORDS % below);
    for (;;) {
      const candidate = word();
      if (candidate < fair) return candidate % below;
    }
  };

  return { uniform, normal, integer };
}
