import {
  anchorToCard,
  correct,
  createEvaluation,
  createForwardModel,
  evaluate,
  TOLERANCE_DEFAULTS,
} from "masstone";
import { certify } from "masstone/certificate";
import { ciede2000 } from "masstone/colorimetry";
import { greedyCorrection } from "../baselines/greedyCorrection.mjs";
import { plainColour } from "../baselines/plainForward.mjs";
import { fadedJob, growthJob, ONE_ANGLE } from "../inventedPaint.mjs";

/** How far from the target either mix may be, under each light: half of what counts as a match at an edge. */
const MATCH = TOLERANCE_DEFAULTS.edgeDeltaE00 / 2;

const BARE = { alternatives: false, wayOut: false };

/**
 * One whole correction, checks of the job included: 15 toners, 1 target, 2 illuminants; bare, with all that it can say, and
 * with its certificate; and among 60 toners.
 */
export function correctionCases() {
  const job = fadedJob();
  const unrounded = { ...job, limits: { ...job.limits, scaleStepGrams: 0 } };
  const [few, many] = [15, 60].map((toners) => growthJob({ toners, bands: 31, geometries: 1, targets: 1 }));
  const bare = () => correct(job, BARE);
  const greedy = { name: "greedy single steps of the textbook formulas", run: () => greedyCorrection(job) };
  const cases = [
    { name: "correct", aimMicroseconds: 5000, run: bare, baseline: greedy },
    {
      name: "correct, nothing rounded",
      aimMicroseconds: 5000,
      run: () => correct(unrounded, BARE),
      baseline: greedy,
    },
    {
      name: "correct, alternatives and forecast",
      aimMicroseconds: 12_000,
      run: () => correct(job, { forecast: true }),
      baseline: { name: "correct", run: bare },
    },
    {
      name: "correct, 60 toners",
      aimMicroseconds: 120_000,
      run: () => correct(many, BARE),
      baseline: { name: "the same, 15 toners", run: () => correct(few, BARE) },
    },
    {
      name: "correct, whole steps, and certify",
      aimMicroseconds: 20_000,
      run() {
        const correction = correct(job, BARE);
        certify(job, correction);
        return correction;
      },
      baseline: greedy,
    },
  ];
  return cases.map((one) => ({
    ...one,
    // The textbook formulas believe nothing and weigh no doubt: both must match, each by its own model.
    check() {
      const { status } = one.run();
      if (status !== "corrected") throw new Error(`${one.name}: ${status}`);
      if (one.baseline === greedy) expectMatch(job, greedy.name, greedyCorrection(job));
    },
  }));
}

function expectMatch({ toners, viewing, pot, card, targets }, who, added) {
  const start = Float64Array.from(toners.toners, ({ id }) => pot[id] ?? 0);
  const read = Float64Array.from(card.readings[0].reflectance);
  const model = anchorToCard(createForwardModel(toners, viewing, ONE_ANGLE), start, read);
  const at = createEvaluation(model);
  const mixed = start.map((grams, j) => grams + added[j]);
  evaluate(model, mixed, at);
  model.lights.forEach(({ name, tristimulus }, light) => {
    const { lab } = plainColour(targets[0].readings[0].reflectance, tristimulus);
    const left = ciede2000(lab, Array.from(at.lab.subarray(3 * light, 3 * light + 3)));
    if (!(left <= MATCH)) throw new Error(`${who}: ${left} ΔE00 from the target under ${name}`);
  });
}
