import {
  anchorToCard,
  correct,
  createEvaluation,
  createForwardModel,
  evaluate,
  TOLERANCE_DEFAULTS,
} from "masstone";
import { ciede2000 } from "masstone/colorimetry";
import { greedyCorrection } from "../baselines/greedyCorrection.mjs";
import { plainColour } from "../baselines/plainForward.mjs";
import { fadedJob, ONE_ANGLE } from "../inventedPaint.mjs";

/** How far from the target either mix may be, under each light: half of what counts as a match at an edge. */
const MATCH = TOLERANCE_DEFAULTS.edgeDeltaE00 / 2;

/** One whole correction, checks of the job included: 15 toners, 1 target, 2 illuminants. */
export function correctionCases() {
  const job = fadedJob();
  return [
    {
      name: "correct",
      aimMicroseconds: 2000,
      run: () => correct(job),
      baseline: { name: "greedy single steps of the textbook formulas", run: () => greedyCorrection(job) },
      // Colour alone does not fix the grams: the two mixes differ, the colours must not.
      check() {
        const { additions } = correct(job);
        const grams = Object.fromEntries(additions.map((addition) => [addition.toner, addition.grams]));
        expectMatch(
          job,
          "correct",
          job.toners.toners.map(({ id }) => grams[id] ?? 0),
        );
        expectMatch(job, "greedy correction", greedyCorrection(job));
      },
    },
  ];
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
