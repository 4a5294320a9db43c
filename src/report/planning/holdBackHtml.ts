import { labFromXyz } from "../../colorimetry/lab.js";
import { tristimulusWeights } from "../../colorimetry/weights.js";
import { xyzFromReflectance } from "../../colorimetry/xyz.js";
import { SPRAYING_CAUTION } from "../../core/caution.js";
import { perCent } from "../../core/perCent.js";
import type { HoldBackPlan } from "../../planning/holdBack/holdBackPlan.js";
import type { PlanJob } from "../../planning/holdBack/planJob.js";
import { element, type Markup } from "../chart/element.js";
import { htmlPage } from "../page/htmlPage.js";
import { htmlTable } from "../page/htmlTable.js";
import { listed, section } from "../page/sections.js";
import { type Swatch, swatches } from "../page/swatches.js";
import { fadePlot } from "../plots/fadePlot.js";
import { decimals } from "../words/decimals.js";
import { IN_GRAMS, type MassDisplay } from "../words/massText.js";
import type { Table } from "../words/table.js";
import { type TonerNames, tonerName, tonerNames } from "../words/tonerName.js";
import { holdBackTables, type PotTables } from "./holdBackTables.js";

/** What a report may show beside the plan itself. */
export interface HoldBackHtmlOptions {
  /** What to call the toners, before the names in the toner set. */
  readonly names?: TonerNames;
  /** The unit of the amounts. */
  readonly display?: MassDisplay;
}

const HOLD_BACK_HTML_DEFAULTS: Required<HoldBackHtmlOptions> = Object.freeze({
  names: {},
  display: IN_GRAMS,
});

/** Panels in one strip of swatches. */
const MOST_SWATCHES = 3;

/**
 * A plan as one HTML file that needs nothing else: warnings first, what to pour and keep back, the way to every panel,
 * what the light took, the safety caution last; light and dark, one sheet of A4 for a plan of usual size, no scripts.
 * `job` is what was planned.
 */
export function holdBackHtml(job: PlanJob, plan: HoldBackPlan, options: HoldBackHtmlOptions = {}): string {
  const { names, display } = { ...HOLD_BACK_HTML_DEFAULTS, ...options };
  const named = tonerNames(job.toners, names);
  const { headline, formulas, pots, uncalibrated } = holdBackTables(plan, named, display);
  const hasChoice = plan.formulas.length > 1 || plan.status === "unexplained";
  return htmlPage("Plan of a first pot", [
    element("p", { class: "headline" }, headline),
    ...listed(
      "Warnings",
      plan.warnings.map(({ message }) => message),
    ),
    ...pots.map((pot, i) => potSection(pot, i === 0 ? [panelsOf(job, plan)] : [])),
    ...(uncalibrated === "" ? [] : [element("p", { class: "note" }, uncalibrated)]),
    section(
      "What the light took",
      table("Left of the formula, with 90 % intervals", fadeMatrix(plan, named)),
      element("figure", {}, { markup: fadePlot(plan, named).svg }),
    ),
    ...(hasChoice
      ? [
          section(
            "Which formula it was",
            table("The likeliest first; misfit and odd fade in standard deviations beyond chance", formulas),
          ),
        ]
      : []),
    section("Safety", element("p", { class: "caution" }, SPRAYING_CAUTION)),
  ]);
}

function potSection({ title, pours, cost, stages }: PotTables, beside: readonly Markup[]): Markup {
  return section(
    title,
    element("div", { class: "columns" }, table("Pour now", pours), ...beside),
    element("p", {}, `${cost} From there, a card each time first, which says what is really to be poured:`),
    element("ol", {}, ...stages.map((stage) => element("li", {}, stage))),
  );
}

/** The panels as they look today, at their first geometry under the first light. */
function panelsOf({ panels, viewing }: PlanJob, plan: HoldBackPlan): Markup {
  const [{ name: illuminant }] = viewing.illuminants;
  const colours = panels.map(({ name, readings }): Swatch => {
    const [{ grid, reflectance }] = readings;
    const weights = tristimulusWeights({ grid, illuminant, observer: viewing.observer });
    return { name, lab: labFromXyz(xyzFromReflectance(reflectance, weights), weights.white) };
  });
  const strips = Array.from({ length: Math.ceil(colours.length / MOST_SWATCHES) }, (_, i) =>
    swatches(`The panels under ${illuminant}`, colours.slice(i * MOST_SWATCHES, (i + 1) * MOST_SWATCHES)),
  );
  return element(
    "figure",
    {},
    element("figcaption", {}, "The panels today"),
    ...strips,
    element("p", { class: "note" }, `Under ${illuminant}. A screen or print is no proof.`),
    ...(plan.panels.length > 1 ? [element("p", { class: "note" }, compromiseText(plan))] : []),
  );
}

/** One row per toner, one column per panel. */
function fadeMatrix({ panels }: HoldBackPlan, names: TonerNames): Table {
  const toners = panels[0].remaining.map(({ toner }) => toner);
  const whole = (share: number) => decimals(100 * share, 0);
  return {
    head: ["toner", ...panels.map(({ panel }) => panel)],
    rows: [
      ...toners.map((toner, t) => [
        tonerName(names, toner),
        ...panels.map(({ remaining }) => {
          const { fraction, low, high } = remaining[t];
          return `${whole(fraction)} % (${whole(low)}–${whole(high)})`;
        }),
      ]),
      [
        "yellowing, K/S at 400 nm",
        ...panels.map(
          ({ yellowing, yellowingSd }) => `${decimals(yellowing, 3)} ± ${decimals(yellowingSd, 3)}`,
        ),
      ],
    ],
    right: panels.map((_, p) => p + 1),
  };
}

function compromiseText({ compromise }: HoldBackPlan): string {
  const prices = compromise.prices.map(
    ({ panel, deltaE00, allowanceUsed }) =>
      `${panel} ${decimals(deltaE00, 2)} (${perCent(allowanceUsed)}, ${allowanceUsed <= 1 ? "passes" : "fails"})`,
  );
  return `One colour for all would be off by ΔE00 (share of what is allowed): ${prices.join("; ")}.`;
}

function table(caption: string, { head, rows, right }: Table): Markup {
  return htmlTable(caption, head, rows, right);
}
