import type { Warning } from "../../core/warning.js";
import type { PlannedPanel, PlannedPot } from "./holdBackPlan.js";
import type { CheckedPlanJob } from "./planJob.js";

/** Warnings of a plan, for the person who mixes. */
export function planWarnings(
  { toners, limits, options }: CheckedPlanJob,
  panels: readonly PlannedPanel[],
  pots: readonly PlannedPot[],
): readonly Warning[] {
  const nameOf = (id: string) => toners.toners.find((toner) => toner.id === id)?.name ?? id;
  return [
    ...panels.flatMap(({ panel, explained }, p): readonly Warning[] =>
      explained
        ? []
        : [
            {
              code: "unexplained-panel",
              path: `panels[${p}]`,
              message: `the formula, faded, does not explain ${panel}: another variant, another pigment or a bad reading; nothing promised here holds for it`,
            },
          ],
    ),
    ...panels.flatMap(({ panel, remaining }, p) =>
      remaining
        .filter(({ low }) => low > 1)
        .map(
          ({ toner, fraction }): Warning => ({
            code: "apparent-strengthening",
            path: `panels[${p}]`,
            toners: [toner],
            message: `${panel} shows ${Math.round(100 * (fraction - 1))} % more ${nameOf(toner)} than the formula has: light takes pigment away, so look for dirt, chalk or another variant`,
          }),
        ),
    ),
    ...pots.flatMap(({ pourNow, held, panels: served }) => [
      ...pourNow
        .filter(({ identified, keptBackGrams }) => !identified && keptBackGrams > 0)
        .map(
          ({ toner, strengthSdAfterCard }): Warning => ({
            code: "not-identifiable",
            toners: [toner],
            message: `the first card will leave the strength of ${nameOf(toner)} uncertain by ${Math.round(100 * strengthSdAfterCard)} %: too little of it can go into the pot now, so add it in two pours`,
          }),
        ),
      ...pourNow
        .filter(({ grams, formulaGrams }) => grams === 0 && formulaGrams > 0)
        .map(
          ({ toner }): Warning => ({
            code: "scale-too-coarse",
            toners: [toner],
            message: `the first pot takes less ${nameOf(toner)} than one step of the scale: its strength cannot be seen from the first card; use a let-down of it`,
          }),
        ),
      ...(held.reachProbability < options.reachProbability
        ? [
            {
              code: "promise-not-kept",
              message: `${served.join(", ")}: no first pot was found from which they stay within reach as surely as asked`,
            } as const,
          ]
        : []),
    ]),
    ...stockWarnings(pots, limits.stockGrams ?? {}, nameOf),
  ];
}

/** Said of toners of which the formula wants more than there is. */
function stockWarnings(
  pots: readonly PlannedPot[],
  stock: Readonly<Record<string, number>>,
  nameOf: (id: string) => string,
): readonly Warning[] {
  return Object.keys(stock).flatMap((id): readonly Warning[] => {
    const wanted = pots
      .flatMap(({ pourNow, stages }) => [...pourNow, ...stages.flatMap(({ pours }) => pours)])
      .filter(({ toner }) => toner === id)
      .reduce((sum, { grams }) => sum + grams, 0);
    if (wanted <= stock[id]) return [];
    const message = `the plan wants about ${wanted.toFixed(1)} g of ${nameOf(id)}; there are ${stock[id]} g`;
    return [{ code: "stock-short", toners: [id], message }];
  });
}
