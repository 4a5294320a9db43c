import type { HoldBackPlan, PlannedPanel, PlannedPot } from "../planning/holdBackPlan.js";
import { SPRAYING_CAUTION } from "./caution.js";
import { decimals } from "./decimals.js";
import { IN_GRAMS, type MassDisplay, massText } from "./massText.js";
import { textTable } from "./textTable.js";
import { type TonerNames, tonerName } from "./tonerName.js";

const per = (share: number) => `${decimals(100 * share, 0)} %`;

/** A plan for the painter: which formula, what the sun took, what to pour and keep back, the way to every panel. */
export function holdBackText(
  plan: HoldBackPlan,
  names: TonerNames = {},
  display: MassDisplay = IN_GRAMS,
): string {
  const nameOf = (id: string) => tonerName(names, id);
  const mass = (grams: number) => massText(grams, display);
  const blocks = [
    headline(plan),
    ...(plan.warnings.length > 0 ? [plan.warnings.map(({ message }) => `! ${message}`).join("\n")] : []),
    ...(plan.formulas.length > 1 || plan.status === "unexplained" ? [formulasText(plan, mass)] : []),
    fadeText(plan.panels, nameOf),
    ...plan.pots.flatMap((pot, i) => potText(pot, { plan, i, nameOf, mass })),
    ...(plan.panels.length > 1 ? [compromiseText(plan)] : []),
    SPRAYING_CAUTION,
  ];
  return `${blocks.join("\n\n")}\n`;
}

function headline({ status, strategy, formula, pots }: HoldBackPlan): string {
  const ways = {
    "one-colour": "one colour serves all panels",
    chain: "one pot serves the panels in turn, the most faded first",
    fork: `${pots.length} pots are needed`,
  } as const;
  const way = pots.length === 1 && pots[0].panels.length === 1 ? "one panel" : ways[strategy];
  if (status === "planned") return `Planned from "${formula}": ${way}.`;
  return `Planned from "${formula}" (${way}), but it does not explain every panel: trust nothing here before you know why.`;
}

function formulasText({ formulas }: HoldBackPlan, mass: (grams: number) => string): string {
  const rows = formulas.map((one) => [
    one.formula,
    one.explains ? "yes" : "no",
    decimals(one.logOdds / Math.LN10, 1),
    decimals(one.deltaE00, 2),
    decimals(one.misfit, 1),
    decimals(one.implausibility, 1),
    mass(one.paintNeededGrams),
  ]);
  const head = ["formula", "explains", "log10 odds", "ΔE00", "misfit", "odd fade", "paint if mixed whole"];
  return `Which formula the panels were painted with, the likeliest first (misfit and odd fade in standard deviations beyond chance):\n\n${textTable([head, ...rows], { right: [2, 3, 4, 5, 6] })}`;
}

function fadeText(panels: readonly PlannedPanel[], nameOf: (id: string) => string): string {
  const rows = panels.flatMap(({ panel, remaining, yellowing, yellowingSd }) => [
    ...remaining.map(({ toner, fraction, low, high }, i) => [
      i === 0 ? panel : "",
      nameOf(toner),
      per(fraction),
      `${per(low)} – ${per(high)}`,
    ]),
    [
      "",
      "yellowing, K/S at 400 nm",
      decimals(yellowing, 3),
      `${decimals(Math.max(0, yellowing - 1.645 * yellowingSd), 3)} – ${decimals(yellowing + 1.645 * yellowingSd, 3)}`,
    ],
  ]);
  const head = ["panel", "toner", "left", "90 % between"];
  return `What is left of the formula on the panels:\n\n${textTable([head, ...rows], { right: [2, 3] })}`;
}

interface PotContext {
  readonly plan: HoldBackPlan;
  readonly i: number;
  readonly nameOf: (id: string) => string;
  readonly mass: (grams: number) => string;
}

function potText(pot: PlannedPot, { plan, i, nameOf, mass }: PotContext): readonly string[] {
  const title =
    plan.pots.length > 1 ? `Pot ${i + 1} (${pot.panels.join(", ")})` : `First pot (${pot.panels.join(", ")})`;
  const rows = [...pot.pourNow]
    .sort((a, b) => b.grams - a.grams)
    .map(({ toner, grams, keptBackGrams, formulaGrams, strengthSd, strengthSdAfterCard, identified }) => [
      nameOf(toner),
      mass(grams),
      mass(keptBackGrams),
      per(keptBackGrams / formulaGrams),
      strengthSd === 0 ? "–" : `± ${per(strengthSd)}`,
      strengthSd === 0 ? "–" : `± ${per(strengthSdAfterCard)}${identified ? "" : " (weak)"}`,
    ]);
  const head = ["toner", "pour now", "keep back", "of it", "strength", "after the card"];
  const { held, full } = pot;
  const cost = `Every panel stays within reach by adding alone with ${per(held.reachProbability)} (asked: ${per(plan.reachProbability)}), the pot never above ${mass(pot.mostGrams)}. Expected: ${decimals(held.cards, 1)} cards, ${mass(Math.round(held.wasteGrams))} of paint too much. The full formula would keep them within reach with ${per(full.reachProbability)}: ${decimals(full.cards, 1)} cards, ${mass(Math.round(full.wasteGrams))} too much.`;
  return [
    `${title}, for ${mass(pot.wantedGrams)}:\n\n${textTable([head, ...rows], { right: [1, 2, 3, 4, 5] })}`,
    cost,
    stagesText(pot, nameOf, mass),
  ];
}

function stagesText(
  { stages }: PlannedPot,
  nameOf: (id: string) => string,
  mass: (grams: number) => string,
): string {
  const lines = stages.map(({ panels, pours, potGrams, sprayGrams }, i) => {
    const poured =
      pours.length === 0
        ? "pour nothing"
        : `about ${pours.map(({ toner, grams }) => `${mass(grams)} ${nameOf(toner)}`).join(", ")}`;
    return `  ${i + 1}. ${poured}; the pot then holds ${mass(potGrams)}; spray ${panels.join(", ")} (${mass(sprayGrams)})`;
  });
  return `What is to be expected from there (spray a card first each time; the card says what is really to be poured):\n\n${lines.join("\n")}`;
}

function compromiseText({ compromise }: HoldBackPlan): string {
  const rows = compromise.prices.map(({ panel, deltaE00, allowanceUsed }) => [
    panel,
    decimals(deltaE00, 2),
    per(allowanceUsed),
    allowanceUsed <= 1 ? "passes" : "fails",
  ]);
  const head = ["panel", "ΔE00", "of its allowance", ""];
  return `The price of one colour for all:\n\n${textTable([head, ...rows], { right: [1, 2] })}`;
}
