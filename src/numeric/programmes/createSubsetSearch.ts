/** ‖Ax − b‖² as xᵀGx − 2gᵀx + c: G = AᵀA (order × order, row-major), g = Aᵀb, c = bᵀb. */
export interface GramForm {
  readonly order: number;
  readonly gram: Float64Array;
  readonly right: Float64Array;
  readonly constant: number;
}

/** Some columns and the least ‖Ax − b‖² that they reach with x ≥ 0. */
export interface SubsetFit {
  readonly columns: readonly number[];
  readonly squares: number;
}

/** Subsets of one size after the other; each needs what the smaller ones left. */
export interface SubsetSearch {
  /**
   * Of all subsets of a given size the `most` best of those that leave less than `below`, best first; sizes 1 to 4,
   * in this order. Undefined, from there on, where they would be more than the subsets allowed.
   */
  next(most: number, below?: number): readonly SubsetFit[] | undefined;
  /** Subsets gone through. */
  visited(): number;
}

export const LARGEST_SUBSET = 4;

/** A column counts as dependent on those before it when less than this share of its square is left. */
const DEPENDENT = 1e-12;

/**
 * Non-negative least squares over all subsets of columns, none left out: the Cholesky factor of the Gram matrix grows
 * by one row per column chosen, so the last column of a subset costs a handful of products. Where the
 * least-squares solution of a subset is not positive throughout, its NNLS solution lies on a face, that is in a smaller
 * subset (Lawson & Hanson 1974, ch. 23), whose value is at hand. Columns of zeros belong to no subset.
 * @param mostSubsets that may be gone through, of all sizes together
 */
export function createSubsetSearch(
  { order, gram, right, constant }: GramForm,
  mostSubsets = Number.POSITIVE_INFINITY,
): SubsetSearch {
  const columns = Array.from({ length: order }, (_, j) => j).filter((j) => gram[j * order + j] > 0);
  const n = columns.length;
  const ofSize: Float64Array[] = [Float64Array.of(constant)];
  const chosen = new Int32Array(LARGEST_SUBSET);
  const x = new Float64Array(LARGEST_SUBSET);
  /** Per depth: rows of the factor, what is left of the squares and of the right side, the solution's head. */
  const levels = Array.from({ length: LARGEST_SUBSET + 1 }, () => ({
    row: new Float64Array(n),
    left: new Float64Array(n),
    side: new Float64Array(n),
    root: 0,
    head: 0,
  }));
  columns.forEach((column, j) => {
    levels[0].left[j] = gram[column * order + column];
    levels[0].side[j] = right[column];
  });

  const enter = (depth: number, j: number): boolean => {
    const { left, side, row } = levels[depth];
    const square = left[j];
    if (!(square > DEPENDENT * gram[columns[j] * (order + 1)])) return false;
    const root = Math.sqrt(square);
    const head = side[j] / root;
    levels[depth].root = root;
    levels[depth].head = head;
    const after = levels[depth + 1];
    const base = columns[j] * order;
    for (let m = j + 1; m < n; m++) {
      let product = gram[base + columns[m]];
      for (let e = 0; e < depth; e++) product -= levels[e].row[j] * levels[e].row[m];
      const value = product / root;
      row[m] = value;
      after.left[m] = left[m] - value * value;
      after.side[m] = side[m] - value * head;
    }
    return true;
  };

  /** Whether the least-squares solution in the chosen columns, the last of them `j`, is positive throughout. */
  const isPositive = (depth: number, j: number): boolean => {
    x[depth] = levels[depth].side[j] / levels[depth].left[j];
    if (!(x[depth] > 0)) return false;
    for (let e = depth - 1; e >= 0; e--) {
      const { row, root, head } = levels[e];
      let rest = head;
      for (let f = e + 1; f <= depth; f++) rest -= row[chosen[f]] * x[f];
      x[e] = rest / root;
      if (!(x[e] > 0)) return false;
    }
    return true;
  };

  const leastFace = (size: number): number => {
    let least = Number.POSITIVE_INFINITY;
    for (let out = 0; out < size; out++) {
      const squares = ofSize[size - 1][rankWithout(chosen, size, out)];
      if (squares < least) least = squares;
    }
    return least;
  };

  const search = (size: number, most: number, below: number): readonly SubsetFit[] => {
    const table = size < LARGEST_SUBSET ? new Float64Array(binomial(n, size)) : undefined;
    const kept = createShortList(most, below);
    const descend = (depth: number, from: number, sofar: number): void => {
      const { left, side } = levels[depth];
      for (let j = from; j < n - (size - 1 - depth); j++) {
        chosen[depth] = j;
        const isFree = left[j] > DEPENDENT * gram[columns[j] * (order + 1)];
        const squares = isFree ? sofar - (side[j] * side[j]) / left[j] : sofar;
        if (depth < size - 1) {
          if (enter(depth, j)) descend(depth + 1, j + 1, squares);
          else onFaces(depth + 1, j + 1);
          continue;
        }
        if (table === undefined && !(squares < kept.worst())) continue;
        keep(isFree && isPositive(depth, j) ? squares : leastFace(size));
      }
    };
    /** Dependent columns are chosen already: every subset that goes on from here has its value on a face. */
    const onFaces = (depth: number, from: number): void => {
      if (depth === size) {
        keep(leastFace(size));
        return;
      }
      for (let j = from; j < n - (size - 1 - depth); j++) {
        chosen[depth] = j;
        onFaces(depth + 1, j + 1);
      }
    };
    const keep = (value: number) => {
      const squares = Math.max(0, value);
      if (table) table[rankWithout(chosen, size, -1)] = squares;
      if (squares < kept.worst()) {
        const named: number[] = [];
        for (let e = 0; e < size; e++) named.push(columns[chosen[e]]);
        kept.add({ columns: named, squares });
      }
    };
    descend(0, 0, constant);
    if (table) ofSize.push(table);
    return kept.sorted();
  };

  let visited = 0;
  let isCut = false;
  return {
    next(most, below = Number.POSITIVE_INFINITY) {
      const size = ofSize.length;
      const count = binomial(n, size);
      isCut ||= visited + count > mostSubsets;
      if (isCut) return undefined;
      visited += count;
      return search(size, most, below);
    },
    visited: () => visited,
  };
}

/** Place of the first `size` of `chosen` (ascending), without entry `out`, among all subsets of that many. */
function rankWithout(chosen: Int32Array, size: number, out: number): number {
  let rank = 0;
  for (let i = 0, place = 1; i < size; i++) {
    if (i === out) continue;
    rank += binomial(chosen[i], place++);
  }
  return rank;
}

function binomial(n: number, k: number): number {
  if (k === 1) return n;
  if (k === 2) return (n * (n - 1)) / 2;
  if (k === 3) return (n * (n - 1) * (n - 2)) / 6;
  return k === 0 ? 1 : (n * (n - 1) * (n - 2) * (n - 3)) / 24;
}

/** The least of many; sorts and cuts when twice as many have come. */
function createShortList(most: number, below: number) {
  let entries: SubsetFit[] = [];
  let worst = below;
  const cut = () => {
    entries = entries.sort((a, b) => a.squares - b.squares).slice(0, most);
    if (entries.length === most) worst = entries[most - 1].squares;
  };
  return {
    worst: () => worst,
    add(entry: SubsetFit) {
      entries.push(entry);
      if (entries.length >= 2 * most) cut();
    },
    sorted(): readonly SubsetFit[] {
      cut();
      return entries;
    },
  };
}
