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
import { fadedJob, ONE_ANGLE } from "../inventedPaint.mjs";

/** How far from the target either mix may be, under each light: half of what counts as a match at an edge. */
const MATCH = TOLERANCE_DEFAULTS.edgeDeltaE00 / 2;

const BARE = { alternatives: false, wayOut: false };

/** One whole correction, checks of the job included: 15 toners, 1 target, 2 illuminants; bare, and with its certificate. */
export function correctionCases() {
  const job = fadedJob();
  const unrounded = { ...job, limits: { ...job.limits, scaleStepGrams: 0 } };
  const runs = [
    { name: "correct, nothing rounded", aimMicroseconds: 3000, run: () => correct(unrounded, BARE) },
    {
      name: "correct, whole steps, and certify",
      aimMicroseconds: 20_000,
      run() {
        const correction = correct(job, BARE);
        certify(job, correction);
        return correction;
      },
    },
  ];
  return runs.map((one) => ({
    ...one,
    baseline: { name: "greedy single steps of the textbook formulas", run: () => greedyCorrection(job) },
    // Colour alone does not fix the grams: the two mixes differ, the colours must not.
    check() {
      const { additions } = one.run();
      const grams = Object.fromEntries(additions.map((addition) => [addition.toner, addition.grams]));
      expectMatch(
        job,
        one.name,
        job.toners.toners.map(({ id }) => grams[id] ?? 0),
      );
      expectMatch(job, "greedy correction", greedyCorrection(job));
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
