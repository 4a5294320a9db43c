const ONE_TURN_MORE =
  "no effect: one turn more reads past the end of a typed array and writes nothing, or what is written over";
const SHORTCUT = "no effect: a shortcut; without it the same comes out, later";

/**
 * Why a mutant of a line may live: the change makes no difference, or none that a test should ask for. `became`, where it
 * stands, says of which changes of the line this is true.
 */
export const EXPLAINED = [
  { file: "optics/film.ts", line: "u < SERIES_BELOW", why: "series and closed form agree at the switch" },
  { file: "optics/filmGradient.ts", line: "u >= 0.5", why: "series and closed form agree at the switch" },
  {
    file: "optics/hiding.ts",
    line: "while (excess(",
    why: "a bracket with the root at its end is a bracket",
  },
  {
    file: "optics/hiding.ts",
    line: "let high",
    why: "no effect: the loop below walks up to the same bracket",
  },
  { file: "optics/hiding.ts", line: "high > 80", why: "e⁷⁶ or e⁸⁰ times the thickness: neither is a film" },
  {
    file: "optics/twoBackings.ts",
    line: "const darkFirst",
    why: "equal backings are refused on the next line",
  },
  {
    file: "optics/twoBackings.ts",
    line: "Math.min(r1, r2) < -resolution",
    why: "what passes here by mistake fails as z < 0 or t < 0 below; only two equal readings need it, and those are tested",
  },
  {
    file: "optics/twoBackings.ts",
    line: "r2 < r1",
    why: "R₂ = R₁ has returned above, the determinant is positive for R₂ > R₁, and at the bounds of z and t both answers are right",
  },
  {
    file: "surface/fresnel.ts",
    line: "sineSquareBeyond >= 1",
    why: "no effect: at exactly 1 the formula gives 1 too",
  },
  { file: "surface/surface.ts", line: "is too large", why: "wording of a refusal, put together beforehand" },
  {
    file: "colorimetry/weights.ts",
    line: "is too coarse",
    why: "wording of a refusal, put together beforehand",
  },
  {
    file: "colorimetry/weights.ts",
    line: "Math.floor(",
    why: "no effect: the grid goes on farther than the lamp reaches",
  },
  {
    file: "colorimetry/weights.ts",
    line: "const position",
    why: "no effect: the table ends before the grid does",
  },
  {
    file: "colorimetry/weights.ts",
    line: "c[k] * power",
    why: "no effect: all weights change sign, and so does the scale",
  },
  { file: "colorimetry/ciede2000.ts", line: "hue < 0", why: "no effect: 0 and 2π are one hue" },
  {
    file: "colorimetry/ciede2000.ts",
    line: "HALF_TURN",
    why: "exactly opposite hues, which doubles meet by chance only; the definition leaps there",
  },
  {
    file: "colorimetry/ciede2000.ts",
    line: "turn > 0 ?",
    why: "no effect: 2π on or off turn the half by half a turn, which is one way; 0 and 2π are one hue",
  },
  {
    file: "colorimetry/cmc.ts",
    line: "hue >= 164",
    why: "a hue of exactly 164° or 345°, which doubles do not meet",
  },
  {
    file: "colorimetry/lab.ts",
    line: "EPSILON ?",
    why: "no effect: both branches and their slopes meet there",
  },
  { file: "colorimetry/lab.ts", line: "6 / 29 ?", why: "no effect: both branches meet there" },
  ...[
    "arrowVariances",
    "blockArrow",
    "boxedQuadratic",
    "columnTriangle",
    "constrainedLeastSquares",
    "denseAlgebra",
    "equalityLeastSquares",
    "leastDistance",
    "linearProgramme",
    "lowerFactor",
    "nnls",
    "upperFactor",
  ].map((name) => ({ file: `numeric/${name}.ts`, line: "for (", became: /^\w+ <= /, why: ONE_TURN_MORE })),
  { file: "numeric/linear/blockArrow.ts", line: "value === 0", why: SHORTCUT },
  {
    file: "numeric/linear/blockArrow.ts",
    line: "return false;",
    why: "no effect: computing with a link of zeros changes nothing",
  },
  {
    file: "numeric/linear/blockArrow.ts",
    line: "const padded",
    why: "no effect: more padding, which is zeros",
  },
  {
    file: "numeric/leastSquares/box.ts",
    line: "excess > 0",
    why: "no effect: nothing is moved where nothing is too much",
  },
  {
    file: "numeric/boxedQuadratic.ts",
    line: "let worst",
    why: "no effect: a wall let go of at the least is met again, until the turns end",
  },
  {
    file: "numeric/probability/chiSquareTail.ts",
    line: "awayFromZero",
    why: "guards against a division by exactly 0, which this fraction does not meet above k/2 + 1",
  },
  {
    file: "numeric/leastSquares/constrainedLeastSquares.ts",
    line: "let dependent",
    why: "no effect: a text is the index of no constraint",
  },
  {
    file: "numeric/leastSquares/constrainedLeastSquares.ts",
    line: "released = -1",
    why: "matters only where rounding lets the same constraint go again and again",
  },
  { file: "numeric/leastSquares/constrainedLeastSquares.ts", line: "active.length === 0", why: SHORTCUT },
  {
    file: "numeric/leastSquares/constrainedLeastSquares.ts",
    line: "blocking < 0 ||",
    why: "no effect: every reach is below 1, and of two constraints met at once either may be first",
  },
  {
    file: "numeric/programmes/dictionary.ts",
    line: "const limit",
    why: "a limit that no programme of the tests comes near",
  },
  {
    file: "numeric/programmes/dictionary.ts",
    line: "ratio < reach",
    why: "of equal ratios any may leave; which one matters for cycling alone, held by the cycling programmes of test/certified",
  },
  { file: "numeric/linear/householder.ts", line: "value === 0", why: SHORTCUT },
  {
    file: "numeric/leastSquares/leastDistance.ts",
    line: "residualNorm * FARTHEST",
    why: "exactly at the farthest distance that counts",
  },
  {
    file: "numeric/leastSquares/levenbergMarquardt.ts",
    line: "const isHidden",
    why: "how many ε count as hidden by rounding: any few will do, and the step is refused in any case",
  },
  {
    file: "numeric/programmes/linearProgramme.ts",
    line: "value: failure.status",
    became: /^true$/,
    why: "NaN stands for an iteration limit that no test reaches",
  },
  {
    file: "numeric/leastSquares/nnlsOfSparseRows.ts",
    line: "lower[p * size + p] ** 2",
    why: "where the fast way is given up: `nnls` gives the same answer",
  },
  {
    file: "numeric/leastSquares/nnlsOfSparseRows.ts",
    line: "-NEGLIGIBLE * largest",
    why: "what rounding leaves of 0 may be taken for either side of it",
  },
  { file: "numeric/linear/triangularSolve.ts", line: "width === 1", why: SHORTCUT },
  { file: "numeric/linear/triangularSolve.ts", line: "factor === 0", why: SHORTCUT },
  {
    file: "numeric/programmes/walkLattice.ts",
    line: "pivot === 0",
    why: "no effect: where a step changes nothing, points may be visited in any order",
  },
  {
    file: "numeric/programmes/walkLattice.ts",
    line: "const isUp",
    why: "no effect: of two steps as near either may be first",
  },
  {
    file: "certificate/prover/proveAdditions.ts",
    line: "level > SMALL",
    became: />=/,
    why: "a level of exactly 0.05 ΔE₀₀, which doubles do not meet",
  },
  {
    file: "certificate/prover/proveAdditions.ts",
    line: "ALMOST * best.level",
    why: "costs work only: a level that failed is followed by one that proves no more",
  },
  {
    file: "certificate/prover/colourRows.ts",
    line: "Math.abs(factor)",
    why: "how much rounding is allowed for, 1e−12 of the terms: beyond what a test can show",
  },
  {
    file: "certificate/prover/differenceNorm.ts",
    line: "const near",
    why: "no effect: a cell lies within half a turn of the target's hue",
  },
  {
    file: "certificate/prover/differenceNorm.ts",
    line: "const has",
    why: "the little that a cosine bends within a small cell; were a norm too small for it, the checker would refuse it",
  },
  {
    file: "certificate/prover/differenceNorm.ts",
    line: "* OUTWARD",
    why: "rounding, 1e−12: beyond what a test can show",
  },
  {
    file: "certificate/prover/differenceNorm.ts",
    line: "of products(outward",
    why: "no effect on the largest: the form is convex, and its other end is larger",
  },
  {
    file: "certificate/prover/proveCase.ts",
    line: "dull = total",
    became: />=/,
    why: "exactly at the share, which doubles do not meet",
  },
  {
    file: "certificate/prover/proveCase.ts",
    line: "ratio + scattering",
    became: /ratio - scattering/,
    why: "when rounds count as dull: a matter of work, not of truth",
  },
  {
    file: "certificate/prover/reach.ts",
    line: "const free",
    became: />= 0/,
    why: "a column that may not be poured changes no maximum",
  },
  {
    file: "certificate/prover/relaxation.ts",
    line: "for (let b = 0, at",
    why: "scaling of columns: it keeps programmes well conditioned, which these small ones are anyway",
  },
  ...["): number {", "for (let c = 0; c < numerator", "return top / bottom"].map((line) => ({
    file: "certificate/prover/tighten.ts",
    line,
    why: "where the second programme for one end begins: tried without, bounds fell by less than the hundredths that tests leave open",
  })),
  {
    file: "certificate/checker/checkProof.ts",
    line: "is empty",
    why: "cannot occur: both ends were just shown to lie on either side of the target",
  },
  { file: "certificate/checker/checkProof.ts", line: "const isClose", why: "exactly at the tolerance" },
  {
    file: "certificate/checker/underColour.ts",
    line: "const f =",
    became: />=/,
    why: "no effect: both branches meet there",
  },
  {
    file: "certificate/checker/differenceClaim.ts",
    line: "const plane",
    why: "rounding, 1e−11: beyond what a test can show",
  },
  {
    file: "certificate/checker/differenceClaim.ts",
    line: "const furthest",
    why: "how far is looked: twice what is needed, so that a share less makes no difference",
  },
  ...["const sH", "const halfTurn"].map((line) => ({
    file: "certificate/checker/differenceClaim.ts",
    line,
    why: "the lower end of a factor, where a convex form is seldom largest; no claim that is wrong by half a per cent gets through",
  })),
  ...["const pieces", "from <= to"].map((line) => ({
    file: "certificate/checker/differenceClaim.ts",
    line,
    why: "turns that no hue reaches, and ranges without width: R_T comes out the same, or wider and so as sound",
  })),
];
