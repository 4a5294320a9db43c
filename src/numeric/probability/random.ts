import { checkInteger } from "../../core/check.js";

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
  const first =
    (increment + BigInt(checkInteger(seed, "seed", { min: 0, max: Number.MAX_SAFE_INTEGER }))) * MULTIPLIER +
    increment;
  // In two halves of 32 bits: arithmetic on bigints takes ten times as long.
  let [high, low] = halves(first);
  const [byHigh, byLow] = halves(MULTIPLIER);
  const [plusHigh, plusLow] = halves(increment);

  const word = () => {
    const folded = (((((low >>> 18) | (high << 14)) ^ low) >>> 27) | (((high >>> 18) ^ high) << 5)) >>> 0;
    const turn = high >>> 27;
    const sum = (Math.imul(low, byLow) >>> 0) + plusLow;
    const carried = sum >= WORDS ? 1 : 0;
    high =
      (Math.imul(high, byLow) + Math.imul(low, byHigh) + upperProduct(low, byLow) + plusHigh + carried) >>> 0;
    low = sum >>> 0;
    return ((folded >>> turn) | (folded << (-turn & 31))) >>> 0;
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

function halves(value: bigint): readonly [number, number] {
  return [Number(BigInt.asUintN(32, value >> 32n)), Number(BigInt.asUintN(32, value))];
}

/** The upper 32 of the 64 bits of a product of two words. */
function upperProduct(a: number, b: number): number {
  const bottom = (a & 0xffff) * (b & 0xffff);
  const left = (a >>> 16) * (b & 0xffff);
  const right = (a & 0xffff) * (b >>> 16);
  const middle = (bottom >>> 16) + (left & 0xffff) + (right & 0xffff);
  return (a >>> 16) * (b >>> 16) + (left >>> 16) + (right >>> 16) + (middle >>> 16);
}
