import { tellingLooks } from "../belief/tellingLooks.js";
import type { IlluminantName } from "../colorimetry/illuminant.js";
import { placeOfEye } from "../problem/geometriesSeen.js";
import { type CheckedJob, cardsOf } from "../problem/job.js";
import { isInferred } from "../problem/panelsToInfer.js";
import type { PreparedProblem } from "../problem/problem.js";
import { createWeights } from "../problem/seenColours.js";
import type { NextLook } from "./nextLook.js";

/** Lights of a booth for visual comparison: daylight, filament, shop. Source: ISO 3668 (D65 and A), F11 common practice. */
const BOOTH: readonly IlluminantName[] = ["D65", "A", "F11"];

/** A look that tells less than this (in nats) is not worth taking (design value). */
const LEAST_NATS = 0.05;

/** The look at a panel that would tell most of those not yet taken: another light, or an earlier card; null: none is worth it. */
export function compareNext(
  job: CheckedJob,
  { belief, believed, problem }: Pick<PreparedProblem, "belief" | "believed" | "problem">,
): NextLook | null {
  const { model } = problem;
  const weightsOf = createWeights(model);
  const geometry = placeOfEye(job, model.geometries);
  const cards = cardsOf(job).filter(({ name }) => believed.includes(name));
  const lights = [...new Set([...BOOTH, ...job.viewing.illuminants.map(({ name }) => name)])];
  const panels = job.targets.filter(isInferred);
  const looks = panels.flatMap(({ name: target, comparisons }, panel) => {
    if (comparisons.length === 0) return [];
    return cards.flatMap(({ name: card }) =>
      lights.flatMap((illuminant) => {
        if (comparisons.some((one) => one.card === card && one.illuminant === illuminant)) return [];
        const tristimulus = weightsOf({ illuminant, observer: job.viewing.observer });
        const place = believed.indexOf(card);
        return [{ target, card, illuminant, look: { panel, card: place, geometry, tristimulus } }];
      }),
    );
  });
  const nats = tellingLooks(
    belief,
    looks.map(({ look }) => look),
  );
  const best = nats.indexOf(Math.max(...nats));
  if (!(nats[best] > LEAST_NATS)) return null;
  const { target, card, illuminant } = looks[best];
  return { target, card, illuminant };
}
