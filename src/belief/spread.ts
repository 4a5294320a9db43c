import { addProduct } from "../numeric/linear/addProduct.js";
import { whitenTransposed } from "../numeric/linear/borderedBlocks.js";
import { addLeft } from "./addLeft.js";
import type { Belief } from "./belief.js";
import { addRowSlopes, coloursOf } from "./colourSlopes.js";
import { filmResponse } from "./filmResponse.js";
import { shownBy } from "./shownBy.js";
import type { Owner, Unknown } from "./unknown.js";
import { filmUnknowns } from "./unknowns/films.js";
import { paintUnknowns } from "./unknowns/paints.js";
import { pourUnknowns } from "./unknowns/pours.js";
import { sprayRepeatUnknowns } from "./unknowns/spray.js";
import { tonerUnknowns } from "./unknowns/toners.js";

/**
 * Colours of a card that may be sprayed next, laid out like an evaluation's `lab`, then those of every panel of the belief
 * in the same way; covariances row-major.
 */
export interface ColourSpread {
  /** By the likeliest world. */
  readonly lab: Float64Array;
  /** Of what the card will read. */
  readonly covariance: Float64Array;
  /** The part due to the paint, common to all its cards and readings. */
  readonly ofPaint: Float64Array;
  /** The part due to one reading: noise, gloss and calibration. */
  readonly ofReading: Float64Array;
  /** Shares of what is behind the variance of the first colour; they add up to 1. */
  readonly causes: () => Causes;
}

/** Owner of the unknowns, or the noise of the reading. */
export type Cause = Owner | "reading";

/** Shares by cause; of panels, instruments and eyes only where what was seen depends on them. */
export type Causes = Readonly<
  Record<Exclude<Cause, SeenThrough>, number> & Partial<Record<SeenThrough, number>>
>;
/** Instruments and eyes: named where a reading depends on them. */
export type SeenThrough = "panel" | "instrument" | "observer";

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
  const panels = coloursOfPanels(belief);
  const own = lab.length;
  const count = own * (1 + panels.length);
  const widened = (
    values: Float64Array,
    place = 0,
    into = new Float64Array((values.length / own) * count),
  ) => {
    for (let x = 0; x * own < values.length; x++) {
      into.set(values.subarray(x * own, (x + 1) * own), x * count + place * own);
    }
    return into;
  };
  const by = (unknowns: readonly Unknown[]) => {
    const out = new Float64Array(unknowns.length * own);
    addRowSlopes(byReflectance, seen, { unknowns, film }, out);
    return widened(out);
  };
  const fresh: readonly Unknown[] = [
    ...tonerUnknowns(model, others, sizes),
    ...paintUnknowns(model, { places: [film.place], used: [...belief.used, ...others] }, sizes),
    ...pourUnknowns({ place: film.place, poured, size }, sizes),
  ];
  const ofFilm = [
    ...filmUnknowns(model, { place: film.place, reflectance: seen.reflectance }, sizes),
    ...sprayRepeatUnknowns(model, [...belief.used, ...others], sizes),
  ];
  const noise = widened(
    Float64Array.from(
      { length: size * own },
      (_, i) => sizes.readingSd * byReflectance[(i % own) * size + Math.floor(i / own)],
    ),
  );
  const known = by(scope.unknowns);
  panels.forEach(({ slopes }, p) => {
    widened(slopes, 1 + p, known);
  });
  const ofFresh = by(fresh);
  const ofOwn = by(ofFilm);
  const addSquares = (values: Float64Array, into: Float64Array, factor = 1) =>
    addProduct({ values, width: count }, { values, width: count }, into, factor);
  const ofPaint = new Float64Array(count * count);
  addLeft(posterior, known, ofPaint);
  addSquares(ofFresh, ofPaint);
  const ofReading = new Float64Array(count * count);
  addSquares(noise, ofReading);
  const readTwice = ofFilm.filter(({ repeats }) => repeats === "offsetSd");
  addSquares(by(readTwice), ofReading);
  const covariance = ofPaint.slice();
  addSquares(ofOwn, covariance);
  addSquares(noise, covariance);
  return {
    lab: Float64Array.from([lab, ...panels.map((panel) => panel.lab)].flatMap((one) => [...one])),
    covariance,
    ofPaint,
    ofReading,
    causes: () =>
      causesOf(belief, { known, count, against: panels.length > 0 ? own : 0 }, [
        [(x) => fresh[x].owner, ofFresh],
        [(x) => ofFilm[x].owner, ofOwn],
        [() => "reading", noise],
      ]),
  };
}

/** Colours of the panels of a belief, and their slopes by every unknown, as many numbers each as there are colours. */
function coloursOfPanels({ scope, posterior, cards }: Belief) {
  const { model, strengths, unknowns, films } = scope;
  return films.slice(cards.length).map((film) => {
    const seen = filmResponse(model, strengths, { unknowns, u: posterior.u }, film);
    const { lab, byReflectance } = coloursOf(model, seen.reflectance);
    const slopes = new Float64Array(unknowns.length * lab.length);
    addRowSlopes(byReflectance, seen, { unknowns, film }, slopes);
    return { lab, slopes };
  });
}

/** Slopes of what is to be told causes of: `count` numbers an unknown, of which three count, less those from `against` on. */
interface Blamed {
  readonly known: Float64Array;
  readonly count: number;
  /** 0: less nothing. */
  readonly against: number;
}

/**
 * Of the variance of L*, a*, b* of the first colour what each owner is behind: A_o·(C·Aᵀ)_o, C the posterior's covariance;
 * where a panel is in doubt too, of the card's difference from the first panel.
 */
function causesOf(
  { scope, posterior }: Belief,
  { known, count, against }: Blamed,
  further: readonly (readonly [(x: number) => Cause, Float64Array])[],
): Causes {
  const { rows, slopes, factor } = posterior;
  const sums: Partial<Record<Cause, number>> & Record<Exclude<Cause, SeenThrough>, number> = {
    can: 0,
    toner: 0,
    pot: 0,
    surface: 0,
    film: 0,
    pour: 0,
    reading: 0,
  };
  const add = (owner: Cause, value: number) => {
    sums[owner] = (sums[owner] ?? 0) + value;
  };
  const apart = (values: Float64Array, at: number) =>
    against === 0 ? values[at] : values[at] - values[at + against];
  const back = shownBy(posterior, known, count);
  whitenTransposed(factor, back, count);
  scope.unknowns.forEach(({ owner }, x) => {
    for (let i = 0; i < 3; i++) {
      let told = 0;
      for (let r = 0; r < rows; r++) told += slopes[x * rows + r] * apart(back, r * count + i);
      add(owner, apart(known, x * count + i) * (apart(known, x * count + i) - told));
    }
  });
  for (const [ownerOf, values] of further) {
    for (let x = 0; x * count < values.length; x++) {
      for (let i = 0; i < 3; i++) add(ownerOf(x), values[x * count + i] ** 2);
    }
  }
  const all = Object.values(sums).reduce((sum, value) => sum + Math.max(0, value), 0);
  const shares = Object.entries(sums).map(([cause, value]) => [
    cause,
    all > 0 ? Math.max(0, value) / all : 0,
  ]);
  return Object.fromEntries(shares) as Causes;
}
