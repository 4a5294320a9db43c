import type { ForwardModel } from "../../forward/forwardModel.js";
import type { Film } from "../film.js";
import type { LightOnPanel, SeenPanel } from "../panel.js";
import type { Effect, Field, Unknown } from "../unknown.js";
import { roughCurve } from "./roughCurve.js";

/**
 * What all panels of one formula share: by toner sd of ln of how far their paint was off it, and of how fast the toner is
 * to light. Loss = median·e^(lightfastness + dose + unevenness): log-normal.
 */
export function formulaUnknowns(
  { coefficients: { size } }: ForwardModel,
  { batchSds, logLossSds }: { readonly batchSds: Float64Array; readonly logLossSds: Float64Array },
): readonly Unknown[] {
  const shape = new Float64Array(size).fill(1);
  const of = (field: Field, sds: Float64Array) =>
    [...sds.keys()].flatMap((toner): readonly Unknown[] => {
      if (sds[toner] === 0) return [];
      const share = ({ light }: Film) => (light ? sds[toner] : 0);
      return [{ owner: "panel", effects: [{ field, toner, from: 0, shape, share }] }];
    });
  return [...of("strength", batchSds), ...of("loss", logLossSds)];
}

/** Of one panel: dose of light, how unevenly it took each toner, yellowing. */
function lightUnknowns(
  { coefficients: { size } }: ForwardModel,
  place: number,
  { medianLoss, doseSd, unevenSd }: LightOnPanel,
): readonly Unknown[] {
  const shape = new Float64Array(size).fill(1);
  const fading = [...medianLoss.keys()].filter((toner) => medianLoss[toner] > 0);
  const effect = (field: Field, toner: number, sd: number): Effect => ({
    field,
    toner,
    from: 0,
    shape,
    share: (film) => (film.place === place ? sd : 0),
  });
  return [
    { owner: "panel", effects: fading.map((toner) => effect("loss", toner, doseSd)) },
    ...fading.map((toner): Unknown => ({ owner: "panel", effects: [effect("loss", toner, unevenSd)] })),
    { owner: "panel", effects: [effect("yellow", -1, 1)] },
  ];
}

/** What is a panel's own: ln of what it has of every toner (`tonerSds`), what light did to it, and a rough curve in ln(K/S), one for all geometries. */
export function panelUnknowns(
  model: ForwardModel,
  {
    place,
    tonerSds,
    curveSd,
    light,
  }: { readonly place: number } & Pick<SeenPanel, "tonerSds" | "curveSd" | "light">,
): readonly Unknown[] {
  const { set, geometries, coefficients } = model;
  const { size } = coefficients;
  const { count } = set.grid;
  const level = new Float64Array(size).fill(1);
  const amounts = [...tonerSds.keys()].flatMap((toner): readonly Unknown[] => {
    if (tonerSds[toner] === 0) return [];
    const share = (film: Film) => (film.place === place ? tonerSds[toner] : 0);
    return [{ owner: "panel", effects: [{ field: "strength", toner, from: 0, shape: level, share }] }];
  });
  const share = (film: Film) => (film.place === place ? curveSd : 0);
  const curves = roughCurve(set.grid).map(
    (shape): Unknown => ({
      owner: "panel",
      effects: geometries.map((_, g) => ({ field: "ratio", toner: -1, from: g * count, shape, share })),
    }),
  );
  return [...amounts, ...(light ? lightUnknowns(model, place, light) : []), ...curves];
}
