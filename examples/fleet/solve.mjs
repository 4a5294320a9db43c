// One formula made anew: the colour it had with the old batch, mixed from the new one.
import { correct, isInputError, predict } from "masstone";
import { formula, newToners, oldToners } from "./library.mjs";

const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A", weight: 0.3 }] };
/** Share of the formula to start from. Toners can be added, not taken out, and a new batch may be stronger. */
const START = 0.85;

/** Pure: the same number gives the same line, on any machine and however often. */
export function solve(number) {
  const old = formula(number);
  const pot = Object.fromEntries(Object.entries(old).map(([toner, grams]) => [toner, START * grams]));
  try {
    const { status, additions, weightedDeltaE00 } = correct(
      {
        toners: newToners,
        viewing,
        pot,
        card: { readings: readings(newToners, pot) },
        targets: [{ name: "library", readings: readings(oldToners, old) }],
        limits: { potMaxGrams: 700, scaleStepGrams: 0.1, maxPours: 5 },
      },
      { alternatives: false, wayOut: false },
    );
    const grams = { ...pot };
    for (const { toner, grams: added } of additions) grams[toner] = (grams[toner] ?? 0) + added;
    return { number, status, deltaE00: weightedDeltaE00.after, grams };
  } catch (error) {
    // A refusal is an answer: trying again would be refused again.
    if (!isInputError(error)) throw error;
    const { code, path, reason } = error;
    return { number, status: "refused", code, path, reason };
  }
}

function readings(toners, pot) {
  return predict({ toners, viewing, pot }).readings.map(({ geometry, grid, reflectance }) => ({
    geometry,
    grid,
    reflectance,
  }));
}
