import { perCent } from "../../core/perCent.js";
import type { HoldBackPlan, PlannedPanel, PlannedPot } from "../../planning/holdBack/holdBackPlan.js";
import { decimals } from "../words/decimals.js";
import { IN_GRAMS, type MassDisplay, massText, uncalibratedText } from "../words/massText.js";
import { recipeTable } from "../words/recipeText.js";
import type { Table } from "../words/table.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

/** One pot of a plan in words and cells. */
export interface PotTables {
  readonly title: string;
  readonly pours: Table;
  /** For the scale: in order, with what it shows when it was zeroed before the first, and what is kept back. */
  readonly weighed: Table;
  /** What is promised of it, and what the whole formula would have cost. */
  readonly cost: string;
  /** The colours on the way, a line each. */
  readonly stages: readonly string[];
}

/** What a plan says, the same in text and in HTML. */
export interface HoldBackTables {
  readonly headline: string;
  /** Which formula the panels were painted with. */
  readonly formulas: Table;
  /** What is left of it on every panel. */
  readonly fade: Table;
  readonly pots: readonly PotTables[];
  /** The price of one colour for all panels. */
  readonly compromise: Table;
  /** Which toners are not in the unit that was asked for; empty where there are none. */
  readonly uncalibrated: string;
}

type MassOf = (grams: number, toner?: string) => string;

/** 90 % of a normal law lie within so many standard deviations of its mean. */
const WITHIN_90 = 1.645;

/** The tables of a plan; an id stands for itself where there is no name. */
export function holdBackTables(
  plan: HoldBackPlan,
  names: TonerNames,
  display: MassDisplay = IN_GRAMS,
): HoldBackTables {
  const nameOf = (id: string) => tonerName(names, id);
  const mass: MassOf = (grams, toner) => massText(grams, display, toner);
  return {
    headline: holdBackHeadline(plan),
    formulas: formulasTable(plan, mass),
    fade: fadeTable(plan.panels, nameOf),
    pots: plan.pots.map((pot, i) => ({
      title: potTitle(plan, i, mass),
      pours: poursTable(pot, nameOf, mass),
      weighed: weighedTable(pot, nameOf, display),
      cost: costText(plan, pot, mass),
      stages: stageTexts(pot, nameOf, mass),
    })),
    compromise: compromiseTable(plan),
    uncalibrated: uncalibratedText(
      display,
      plan.pots.flatMap(({ pourNow }) => pourNow.map(({ toner }) => toner)),
      nameOf,
    ),
  };
}

/** Which formula, and how many pots. */
export function holdBackHeadline({ status, strategy, formula, pots }: HoldBackPlan): string {
  const ways = {
    "one-colour": "one colour serves all panels",
    chain: "one pot serves the panels in turn, the most faded first",
    fork: `${pots.length} pots are needed`,
  } as const;
  const way = pots.length === 1 && pots[0].panels.length === 1 ? "one panel" : ways[strategy];
  if (status === "planned") return `Planned from "${formula}": ${way}.`;
  return `Planned from "${formula}" (${way}), but it does not explain every panel: trust nothing here before you know why.`;
}

function formulasTable({ formulas }: HoldBackPlan, mass: MassOf): Table {
  return {
    head: ["formula", "explains", "log10 odds", "ΔE00", "misfit", "odd fade", "paint if mixed whole"],
    rows: formulas.map((one) => [
      one.formula,
      one.explains ? "yes" : "no",
      decimals(one.logOdds / Math.LN10, 1),
      decimals(one.deltaE00, 2),
      decimals(one.misfit, 1),
      decimals(one.implausibility, 1),
      mass(Math.round(one.paintNeededGrams)),
    ]),
    right: [2, 3, 4, 5, 6],
  };
}

function fadeTable(panels: readonly PlannedPanel[], nameOf: (id: string) => string): Table {
  return {
    head: ["panel", "toner", "left", "90 % between"],
    rows: panels.flatMap(({ panel, remaining, yellowing, yellowingSd }) => [
      ...remaining.map(({ toner, fraction, low, high }, i) => [
        i === 0 ? panel : "",
        nameOf(toner),
        perCent(fraction),
        `${perCent(low)} – ${perCent(high)}`,
      ]),
      [
        "",
        "yellowing, K/S at 400 nm",
        decimals(yellowing, 3),
        `${decimals(Math.max(0, yellowing - WITHIN_90 * yellowingSd), 3)} – ${decimals(yellowing + WITHIN_90 * yellowingSd, 3)}`,
      ],
    ]),
    right: [2, 3],
  };
}

/** Paint for the panels of a pot: what is wanted of it, while later pours make it grow to that. */
export function paintFor({ stages }: PlannedPot): number {
  return Math.round(stages.reduce((sum, { sprayGrams }) => sum + sprayGrams, 0));
}

function potTitle({ pots }: HoldBackPlan, i: number, mass: MassOf): string {
  const { panels } = pots[i];
  const which = pots.length > 1 ? `Pot ${i + 1}` : "First pot";
  return `${which} (${panels.join(", ")}), for ${mass(paintFor(pots[i]))}`;
}

function poursTable({ pourNow }: PlannedPot, nameOf: (id: string) => string, mass: MassOf): Table {
  const rows = [...pourNow]
    .sort((a, b) => b.grams - a.grams)
    .map(({ toner, grams, keptBackGrams, formulaGrams, strengthSd, strengthSdAfterCard, identified }) => [
      nameOf(toner),
      mass(grams, toner),
      mass(keptBackGrams, toner),
      perCent(keptBackGrams / formulaGrams),
      strengthSd === 0 ? "–" : `± ${perCent(strengthSd)}`,
      strengthSd === 0 ? "–" : `± ${perCent(strengthSdAfterCard)}${identified ? "" : " (weak)"}`,
    ]);
  return {
    head: ["toner", "pour now", "keep back", "of it", "strength", "after the card"],
    rows,
    right: [1, 2, 3, 4, 5],
  };
}

function weighedTable({ pourNow }: PlannedPot, nameOf: (id: string) => string, display: MassDisplay): Table {
  const grams = Object.fromEntries(pourNow.map(({ toner, grams: now }) => [toner, now]));
  const { head, rows, right } = recipeTable(grams, nameOf, display);
  const kept = [...pourNow]
    .filter((one) => one.grams > 0)
    .sort((a, b) => b.grams - a.grams)
    .map(({ toner, keptBackGrams }) => `keep back ${massText(keptBackGrams, display, toner)}`);
  return { head: [...head, ""], rows: rows.map((cells, i) => [...cells, kept[i]]), right };
}

function costText(plan: HoldBackPlan, pot: PlannedPot, mass: MassOf): string {
  const { held, full } = pot;
  return `Every panel stays within reach by adding alone with ${perCent(held.reachProbability)} (asked: ${perCent(plan.reachProbability)}), the pot never above ${mass(Math.round(pot.mostGrams))}. Expected: ${decimals(held.cards, 1)} cards, ${mass(Math.round(held.wasteGrams))} of paint too much. The full formula would keep them within reach with ${perCent(full.reachProbability)}: ${decimals(full.cards, 1)} cards, ${mass(Math.round(full.wasteGrams))} too much.`;
}

function stageTexts({ stages }: PlannedPot, nameOf: (id: string) => string, mass: MassOf): readonly string[] {
  return stages.map(({ panels, pours, potGrams, sprayGrams }) => {
    const poured =
      pours.length === 0
        ? "pour nothing"
        : `about ${pours.map(({ toner, grams }) => `${mass(grams, toner)} ${nameOf(toner)}`).join(", ")}`;
    return `${poured}; the pot then holds ${mass(potGrams)}; spray ${panels.join(", ")} (${mass(sprayGrams)})`;
  });
}

function compromiseTable({ compromise }: HoldBackPlan): Table {
  return {
    head: ["panel", "ΔE00", "of its allowance", "verdict"],
    rows: compromise.prices.map(({ panel, deltaE00, allowanceUsed }) => [
      panel,
      decimals(deltaE00, 2),
      perCent(allowanceUsed),
      allowanceUsed <= 1 ? "passes" : "fails",
    ]),
    right: [1, 2],
  };
}
