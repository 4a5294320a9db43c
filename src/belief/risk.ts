import type { Matrix3 } from "../colorimetry/lab.js";
import { sum } from "../core/sum.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { dot } from "../numeric/linear/dot.js";
import { lowerFactor } from "../numeric/linear/lowerFactor.js";
import { addLeft } from "./addLeft.js";
import type { Belief } from "./belief.js";
import { addRowSlopes, coloursOf } from "./colourSlopes.js";
import { filmResponse } from "./filmResponse.js";
import type { Unknown } from "./unknown.js";
import { tonerUnknowns } from "./unknowns/toners.js";

/** A colour that counts: where the model keeps it, its weight, and rows M with ΔE00 ≈ ‖M·ΔLab‖. */
export interface CountedColour {
  readonly place: number;
  readonly weight: number;
  readonly metric: Matrix3;
}

/** With more slopes than this, correlations between pours are left out (design value). */
const MOST_SHARED = 4e6;

/** Step of the difference quotient for the slopes, as a share of the pot. */
const STEP = 0.01;

/**
 * The doubt of a pour Δ as a quadratic form Q, n × n, row-major: Σ w·E‖M(s(Δ))‖² ≈ Δᵀ·Q·Δ, in ΔE00². In every world
 * the pot as it is reads what its card read, so only the difference s(Δ) = Lab(pot + Δ) − Lab(pot) is in doubt; its
 * slope by every unknown, and what the cards have shown of that, taken over one per cent of the pot. With no work left what
 * they have shown is left out where each pour counts alone: the doubt is then larger than it need be.
 */
export function risk(belief: Belief, colours: readonly CountedColour[]): Float64Array {
  const { prior, scope, posterior, cards } = belief;
  const { model, sizes } = prior;
  const { unknowns, strengths } = scope;
  const { toners } = model.coefficients;
  const card = scope.films[cards.length - 1];
  const { work } = prior;
  const step = STEP * sum(card.grams);
  const world = { unknowns, u: posterior.u };
  const factors = factorsByPlace(colours);
  const count = 3 * factors.size;
  const now = filmResponse(model, strengths, world, card);
  const nowRows = rowsSeen(model, now.reflectance, factors);
  const away = new Float64Array(unknowns.length * count);
  addRowSlopes(nowRows, now, { unknowns, film: card }, away);
  for (let i = 0; i < away.length; i++) away[i] = -away[i] / step;
  const others = Array.from({ length: toners }, (_, j) => j).filter((j) => !belief.used.includes(j));
  const ofOther = new Map<number, Unknown[]>(others.map((j) => [j, []]));
  for (const one of tonerUnknowns(model, others, sizes)) ofOther.get(one.effects[0].toner)?.push(one);
  // Slopes of what is seen by every unknown, pours side by side.
  const isShared = away.length * toners <= MOST_SHARED;
  const known = new Float64Array(isShared ? away.length * toners : 0);
  const form = new Float64Array(toners * toners);
  const { rows: lines, factor } = posterior;
  const steps =
    (unknowns.length * count * (model.set.grid.count + lines)) / model.geometries.length +
    count * factor.stepsToWhiten;
  for (let j = 0; j < toners; j++) {
    work?.spend(steps);
    const grams = card.grams.slice();
    grams[j] += step;
    const film = { ...card, grams };
    const seen = filmResponse(model, strengths, world, film);
    const rows = rowsSeen(model, seen.reflectance, factors);
    const by = away.slice();
    addRowSlopes(rows, seen, { unknowns, film }, by, 1 / step);
    if (isShared) for (let i = 0; i < by.length; i++) known[i * toners + j] = by[i];
    else if (work?.isSpent()) form[j * toners + j] += dot(by, by);
    else {
      const left = new Float64Array(1);
      addLeft(posterior, by, left);
      form[j * toners + j] += left[0];
    }
    const fresh = ofOther.get(j) ?? [];
    const own = new Float64Array(fresh.length * count);
    addRowSlopes(rows, seen, { unknowns: fresh, film }, own, 1 / step);
    form[j * toners + j] += dot(own, own);
  }
  if (isShared) addLeft(posterior, known, form);
  return form;
}

/** By place a 3 × 3 factor F with FᵀF = Σ w·MᵀM over the colours there. */
function factorsByPlace(colours: readonly CountedColour[]): ReadonlyMap<number, Float64Array> {
  const sums = new Map<number, Float64Array>();
  for (const { place, weight, metric } of colours) {
    if (weight === 0) continue;
    const sum = sums.get(place) ?? new Float64Array(9);
    for (const row of metric) {
      for (let i = 0; i < 3; i++) for (let k = 0; k < 3; k++) sum[3 * i + k] += weight * row[i] * row[k];
    }
    sums.set(place, sum);
  }
  return new Map([...sums].map(([place, sum]) => [place, lowerFactor(sum, 3)]));
}

/**
 * Change of the weighted colours with reflectance, to first order: Lᵀ·∂Lab/∂R at every place, three rows each over
 * the bands.
 */
function rowsSeen(
  model: ForwardModel,
  reflectance: Float64Array,
  factors: ReadonlyMap<number, Float64Array>,
): Float64Array {
  const { byReflectance } = coloursOf(model, reflectance);
  const size = reflectance.length;
  const rows = new Float64Array(3 * factors.size * size);
  let at = 0;
  for (const [place, lower] of factors) {
    for (let i = 0; i < 3; i++, at += size) {
      for (let k = i; k < 3; k++) {
        const weight = lower[3 * k + i];
        if (weight === 0) continue;
        const from = (place + k) * size;
        for (let b = 0; b < size; b++) rows[at + b] += weight * byReflectance[from + b];
      }
    }
  }
  return rows;
}
