import { ciede2000, tristimulusWeights } from "masstone/colorimetry";
import { plainColour, plainForward } from "./plainForward.mjs";

const STEPS = [10, 1, 0.1];

/**
 * A correction as one would try it by hand, for one target at one geometry: a factor on K/S, band by band, makes the
 * model meet the card; then that step of that toner, up or down, which lowers √Σw·ΔE00² most is taken until none
 * lowers it, in steps of 10 g, then of 1 g and of 0.1 g. Returns the grams to add in the order of the toners.
 */
export function greedyCorrection({ toners, viewing, pot, card, targets }) {
  const start = toners.toners.map(({ id }) => pot[id] ?? 0);
  const tied = meetCard(toners, start, card.readings[0].reflectance);
  const lights = viewing.illuminants.map(({ name, weight }) => {
    const weights = tristimulusWeights({ grid: toners.grid, illuminant: name, observer: viewing.observer });
    return { weight, weights, aim: plainColour(targets[0].readings[0].reflectance, weights).lab };
  });
  const missed = (added) => {
    const grams = start.map((amount, j) => amount + added[j]);
    return lights.reduce((sum, { weight, weights, aim }) => {
      const [{ lab }] = plainForward(tied, grams, weights);
      return sum + weight * ciede2000(aim, lab) ** 2;
    }, 0);
  };

  let added = start.map(() => 0);
  let least = missed(added);
  for (const step of STEPS) {
    for (let improved = true; improved; ) {
      improved = false;
      for (const trial of neighbours(added, step)) {
        const value = missed(trial);
        if (value < least) {
          added = trial;
          least = value;
          improved = true;
        }
      }
    }
  }
  return added;
}

const neighbours = (added, step) =>
  added.flatMap((_, j) =>
    [step, -step]
      .map((by) => added.map((grams, i) => (i === j ? grams + by : grams)))
      .filter((trial) => trial[j] >= 0),
  );

/** The toner set with K of every toner times what brings the K/S of the pot to that of the card, band by band. */
function meetCard(set, grams, card) {
  const [{ geometry, k1, k2 }] = set.surfaces;
  const mixed = (key, band) =>
    set.toners.reduce((total, toner, j) => total + grams[j] * toner[key][geometry][band], 0);
  const factor = card.map((measured, band) => {
    const inside = measured / ((1 - k1) * (1 - k2) + k2 * measured);
    return (1 - inside) ** 2 / (2 * inside) / (mixed("k", band) / mixed("s", band));
  });
  const toners = set.toners.map((toner) => ({
    ...toner,
    k: { [geometry]: toner.k[geometry].map((value, band) => value * factor[band]) },
  }));
  return { ...set, toners };
}
