import type { ForwardModel } from "../../forward/forwardModel.js";
import type { Film } from "../film.js";
import type { Unknown } from "../unknown.js";
import { roughCurve } from "./roughCurve.js";

/** What is a panel's own: ln of what it has of every toner (`tonerSds`), and a rough curve in ln(K/S), one for all geometries. */
export function panelUnknowns(
  { set, geometries, coefficients: { size } }: ForwardModel,
  {
    place,
    tonerSds,
    curveSd,
  }: { readonly place: number; readonly tonerSds: Float64Array; readonly curveSd: number },
): readonly Unknown[] {
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
  return [...amounts, ...curves];
}
