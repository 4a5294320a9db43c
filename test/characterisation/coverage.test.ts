import { describe, expect, it } from "vitest";
import { characterise } from "../../src/characterisation/characterise.js";
import { labFromXyz } from "../../src/colorimetry/lab.js";
import { tristimulusWeights } from "../../src/colorimetry/weights.js";
import { xyzFromReflectance } from "../../src/colorimetry/xyz.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { predict } from "../../src/prediction/predict.js";
import { type Drawdown, doubleFilm, drawDown, GEOMETRY, GRID, jobOf, PAINTS } from "./world.js";

const REPETITIONS = 500;
const NOISE = 0.003;
const CHART = [0.05, 0.85];

const film = (recipe: Drawdown["recipe"], thickness: number): Drawdown => ({
  recipe,
  thickness,
  backings: CHART,
});
const DRAWDOWNS = [
  film({ white: 1 }, 0.25),
  film({ white: 1 }, 0.5),
  film({ red: 1 }, 0.5),
  film({ red: 1 }, 1),
  film({ white: 1, red: 1 }, 0.4),
  film({ white: 4, red: 1 }, 0.4),
];

/** Truth of a mix of one white and one red as an opaque film, by the textbook formula. */
function trueLab() {
  const [sample] = [
    drawDown("", { recipe: { white: 1, red: 1 }, thickness: 1, backings: "opaque" }, doubleFilm),
  ];
  const weights = tristimulusWeights({ grid: GRID, illuminant: "D65", observer: "1964-10" });
  return labFromXyz(xyzFromReflectance(sample.readings[0].reflectance, weights), weights.white);
}

describe(`intervals over ${REPETITIONS} repetitions (films by the textbook formula, normal noise, seeded)`, () => {
  it("of 95 % hold ln K and ln S, and L*, a*, b* of a mix, in 95 ± 3 % of all cases", () => {
    const random = createRandom(20);
    const truth = trueLab();
    const held = { logs: 0, lab: 0 };
    const asked = { logs: 0, lab: 0 };
    for (let repetition = 0; repetition < REPETITIONS; repetition++) {
      const samples = DRAWDOWNS.map((drawdown, i) => ({
        ...drawDown(`${i}`, drawdown, doubleFilm, () => NOISE * random.normal()),
        thickness: drawdown.thickness,
      }));
      // The noise is stated at half of what it is: the residuals must tell.
      const options = { reflectanceSd: { floor: NOISE / 2, relative: 0 }, smoothness: { k: 0, s: 0 } };
      const found = characterise(jobOf(samples, { options }));
      found.toners.toners.forEach(({ id, k, s }, j) => {
        const { sdOfLogK, sdOfLogS } = found.quality[j];
        for (let band = 0; band < GRID.count; band++) {
          const offK = Math.log((k[GEOMETRY]?.[band] ?? 0) / PAINTS[id].k[band]);
          const offS = Math.log((s[GEOMETRY]?.[band] ?? 0) / PAINTS[id].s[band]);
          held.logs += Number(Math.abs(offS) <= 1.96 * sdOfLogS[band]);
          asked.logs++;
          // K of the white is hardly told at all, and its logarithm not normally distributed.
          if (id === "white") continue;
          held.logs += Number(Math.abs(offK) <= 1.96 * sdOfLogK[band]);
          asked.logs++;
        }
      });
      const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
      const [{ lab, labSd }] = predict({
        toners: found.toners,
        viewing,
        pot: { white: 1, red: 1 },
      }).predictions;
      lab.forEach((value, axis) => {
        held.lab += Number(Math.abs(value - truth[axis]) <= 1.96 * (labSd?.[axis] ?? 0));
        asked.lab++;
      });
    }
    expect(Math.abs(held.logs / asked.logs - 0.95)).toBeLessThan(0.03);
    expect(Math.abs(held.lab / asked.lab - 0.95)).toBeLessThan(0.03);
  }, 60_000);
});
