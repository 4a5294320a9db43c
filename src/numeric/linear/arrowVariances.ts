import { type ArrowFactor, backSubstituteChain, isLinked } from "./blockArrow.js";
import { dot } from "./dot.js";
import { solveLower, solveLowerTransposed } from "./triangularSolve.js";

/** Parts of the inverse of an arrow. */
export interface ArrowVariances {
  /** Its diagonal, blocks first, then border. */
  readonly variance: Float64Array;
  /** Its entries between entry i of a block and entry i of the block before it (0 in the first block). */
  readonly chained: Float64Array;
}

/**
 * Diagonal of A⁻¹ from its factor, without the rest of A⁻¹: the chain by the recursion of the block inverse, the
 * border by its Schur complement. With D the link of the next block and P = (LLᵀ)⁻¹, the diagonal blocks of the
 * chain's inverse are B = P + P·D·B_next·D·P. Source: Takahashi, Fagan & Chin 1973, for blocks.
 */
export function arrowVariances(factor: ArrowFactor): ArrowVariances {
  const { blocks, size, border } = factor;
  const rows = blocks * size;
  const variance = new Float64Array(rows + border);
  const chained = new Float64Array(rows);
  addChain(factor, variance, chained);

  // Rows v of A⁻¹·edge·(corner factor)⁻ᵀ: the share that comes through the border is v·vᵀ.
  const through = factor.edge.slice();
  backSubstituteChain(factor, through, border);
  for (let i = 0; i < rows; i++) {
    const row = through.subarray(i * border, (i + 1) * border);
    solveLower(factor.corner, border, row, 0, 1);
    variance[i] += dot(row, row);
    if (i >= size) chained[i] += dot(row, through.subarray((i - size) * border, (i - size + 1) * border));
  }
  const unit = new Float64Array(border);
  for (let p = 0; p < border; p++) {
    unit.fill(0);
    unit[p] = 1;
    solveLower(factor.corner, border, unit, 0, 1);
    variance[rows + p] = dot(unit, unit);
  }
  return { variance, chained };
}

function addChain(factor: ArrowFactor, variance: Float64Array, chained: Float64Array): void {
  const { blocks, size, diagonal, link } = factor;
  let next = new Float64Array(size * size);
  for (let b = blocks - 1; b >= 0; b--) {
    const own = new Float64Array(size * size);
    for (let i = 0; i < size; i++) own[i * size + i] = 1;
    solveLower(diagonal.subarray(b * size * size), size, own, 0, size);
    solveLowerTransposed(diagonal.subarray(b * size * size), size, own, 0, size);
    const inverse = own.slice();
    if (b + 1 < blocks && isLinked(factor, b + 1)) {
      const d = link.subarray((b + 1) * size, (b + 2) * size);
      const scaled = next.map((value, i) => value * d[i % size]);
      const across = multiply(scaled, own, size);
      for (let i = 0; i < size; i++) {
        chained[(b + 1) * size + i] -= across[i * size + i];
        for (let j = 0; j < size; j++) across[i * size + j] *= d[i];
      }
      const back = multiply(own, across, size);
      for (let i = 0; i < inverse.length; i++) inverse[i] += back[i];
    }
    for (let i = 0; i < size; i++) variance[b * size + i] = inverse[i * size + i];
    next = inverse;
  }
}

function multiply(a: Float64Array, b: Float64Array, size: number): Float64Array {
  const product = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < size; k++) {
      const value = a[i * size + k];
      if (value === 0) continue;
      for (let j = 0; j < size; j++) product[i * size + j] += value * b[k * size + j];
    }
  }
  return product;
}
