import { addProduct } from "../numeric/addProduct.js";
import { solveLowerTransposed } from "../numeric/triangularSolve.js";
import type { Belief } from "./belief.js";
import { addRowSlopes, coloursOf } from "./colourSlopes.js";
import { filmResponse } from "./filmResponse.js";
import { shownBy } from "./shownBy.js";
import type { Owner, Unknown } from "./unknown.js";
import { filmUnknowns } from "./unknowns/films.js";
import { paintUnknowns } from "./unknowns/paints.js";
import { pourUnknowns } from "./unknowns/pours.js";
import { tonerUnknowns } from "./unknowns/toners.js";

/** Colours of a card that may be sprayed next, laid out like an evaluation's `lab`; covariances row-major. */
export interface ColourSpread {
  /** By the likeliest world. */
  readonly lab: Float64Array;
  /** Of what the card will read. */
  readonly covariance: Float64Array;
  /** The part that is true of the paint, and not of one card of it or one reading alone. */
  readonly ofPaint: Float64Array;
  /** The part of one reading: noise, and what gloss and calibration add. */
  readonly ofReading: Float64Array;
  /** Shares of what is behind the variance of the first colour; they add up to 1. */
  readonly causes: Readonly<Record<Cause, number>>;
}

/** Whose doubt it is, or the noise of the reading. */
export type Cause = Owner | "reading";

/** What the next card of pot + additions will read, the pot being that of the last card. */
export function spread(belief: Belief, additions: Float64Array): ColourSpread {
  const last = belief.cards[belief.cards.length - 1].grams;
  return spreadOfFilm(
    belief,
    last.map((grams, j) => grams + additions[j]),
    additions,
  );
}

/**
 * What a film of any recipe will read, also where no card was seen: the covariance A·Aᵀ − B·Bᵀ with A the slopes of its
 * colours by every unknown, B = A·Jᵀ·L⁻ᵀ what the cards have shown of them, and with what is its own: spraying, reading,
 * and the errors of what was `poured` (grams by toner) since the last card.
 */
export function spreadOfFilm(belief: Belief, grams: Float64Array, poured: Float64Array): ColourSpread {
  const { prior, scope, posterior } = belief;
  const { model, sizes } = prior;
  const { size } = model.coefficients;
  const film = belief.nextFilm(grams);
  const seen = filmResponse(model, scope.strengths, { unknowns: scope.unknowns, u: posterior.u }, film);
  const others = [...grams.keys()].filter((j) => grams[j] > 0 && !belief.used.includes(j));
  const { lab, byReflectance } = coloursOf(model, seen.reflectance);
  const count = lab.length;
  const by = (unknowns: readonly Unknown[]) => {
    const out = new Float64Array(unknowns.length * count);
    addRowSlopes(byReflectance, seen, { unknowns, film }, out);
    return out;
  };
  const fresh: readonly Unknown[] = [
    ...tonerUnknowns(model, others, sizes),
    ...paintUnknowns(model, { places: [film.place], used: [...belief.used, ...others] }, sizes),
    ...pourUnknowns({ place: film.place, poured, size }, sizes),
  ];
  const own = filmUnknowns(model, { place: film.place, reflectance: seen.reflectance }, sizes);
  const noise = Float64Array.from(
    { length: size * count },
    (_, i) => sizes.readingSd * byReflectance[(i % count) * size + Math.floor(i / count)],
  );
  const known = by(scope.unknowns);
  const ofFresh = by(fresh);
  const ofOwn = by(own);
  const shown = shownBy(posterior, known, count);
  const addSquares = (values: Float64Array, into: Float64Array, factor = 1) =>
    addProduct({ values, width: count }, { values, width: count }, into, factor);
  const ofPaint = new Float64Array(count * count);
  addSquares(known, ofPaint);
  addSquares(ofFresh, ofPaint);
  addSquares(shown, ofPaint, -1);
  const ofReading = new Float64Array(count * count);
  addSquares(noise, ofReading);
  const readTwice = own.filter(
    ({ effects: [{ field, shape }] }) => field === "offset" && shape[0] === sizes.offsetSd,
  );
  addSquares(by(readTwice), ofReading);
  const covariance = ofPaint.slice();
  addSquares(ofOwn, covariance);
  addSquares(noise, covariance);
  return {
    lab,
    covariance,
    ofPaint,
    ofReading,
    causes: causesOf(belief, { known, shown, count }, [
      [(x) => fresh[x].owner, ofFresh],
      [(x) => own[x].owner, ofOwn],
      [() => "reading", noise],
    ]),
  };
}

/** Of the variance of L*, a*, b* of the first colour what each owner is behind: A_o·(C·Aᵀ)_o, C the posterior's covariance. */
function causesOf(
  { scope, posterior }: Belief,
  {
    known,
    shown,
    count,
  }: { readonly known: Float64Array; readonly shown: Float64Array; readonly count: number },
  further: readonly (readonly [(x: number) => Cause, Float64Array])[],
): Readonly<Record<Cause, number>> {
  const { rows, slopes, factor } = posterior;
  const sums: Record<Cause, number> = { can: 0, toner: 0, pot: 0, surface: 0, film: 0, pour: 0, reading: 0 };
  const back = shown.slice();
  solveLowerTransposed(factor, 0, rows, back, 0, count);
  scope.unknowns.forEach(({ owner }, x) => {
    for (let i = 0; i < 3; i++) {
      let told = 0;
      for (let r = 0; r < rows; r++) told += slopes[x * rows + r] * back[r * count + i];
      sums[owner] += known[x * count + i] * (known[x * count + i] - told);
    }
  });
  for (const [ownerOf, values] of further) {
    for (let x = 0; x * count < values.length; x++) {
      for (let i = 0; i < 3; i++) sums[ownerOf(x)] += values[x * count + i] ** 2;
    }
  }
  const all = Object.values(sums).reduce((sum, value) => sum + Math.max(0, value), 0);
  const shares = Object.entries(sums).map(([cause, value]) => [
    cause,
    all > 0 ? Math.max(0, value) / all : 0,
  ]);
  return Object.fromEntries(shares) as Record<Cause, number>;
}
