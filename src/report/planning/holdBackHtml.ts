import { labFromXyz } from "../../colorimetry/lab.js";
import { tristimulusWeights } from "../../colorimetry/weights.js";
import { xyzFromReflectance } from "../../colorimetry/xyz.js";
import { SPRAYING_CAUTION } from "../../core/caution.js";
import { perCent } from "../../core/perCent.js";
import type { HoldBackPlan } from "../../planning/holdBack/holdBackPlan.js";
import type { PlanJob } from "../../planning/holdBack/planJob.js";
import { element, type Markup } from "../chart/element.js";
import { HALF_WIDTH } from "../chart/figure.js";
import { htmlPage } from "../page/htmlPage.js";
import { htmlTable } from "../page/htmlTable.js";
import { pourTable } from "../page/pourTable.js";
import { listed, section } from "../page/sections.js";
import type { SheetHead } from "../page/sheetHead.js";
import { type Swatch, swatches } from "../page/swatches.js";
import { fadePlot } from "../plots/fadePlot.js";
import { decimals } from "../words/decimals.js";
import { IN_GRAMS, type MassDisplay } from "../words/massText.js";
import type { Table } from "../words/table.js";
import { type TonerNames, tonerName, tonerNames } from "../words/tonerName.js";
import { withoutColumns } from "../words/withoutColumns.js";
import { holdBackTables, type PotTables } from "./holdBackTables.js";

/** What a sheet may show beside the plan itself. */
export interface HoldBackHtmlOptions {
  /** What to call the toners, before the names in the toner set. */
  readonly names?: TonerNames;
  /** The unit of the amounts. */
  readonly display?: MassDisplay;
  /** What stands in the head; what is not said is a blank to write in. */
  readonly head?: SheetHead;
}

/** Columns that stand in the table for the scale. */
const WEIGHED = ["pour now", "keep back"];

/** Panels in one strip of swatches. */
const MOST_SWATCHES = 3;

/**
 * A plan as one HTML file that needs nothing else: a sheet for the bench. What to weigh now first, with room to tick and to
 * write what was really poured, what to keep back, what to beware of, the way to every panel, what the light took, the
 * safety caution last; light and dark, one sheet of A4 for a plan of usual size, no scripts. `job` is what was planned.
 */
export function holdBackHtml(
  job: PlanJob,
  plan: HoldBackPlan,
  { names = {}, display = IN_GRAMS, head = {} }: HoldBackHtmlOptions = {},
): string {
  const named = tonerNames(job.toners, names);
  const { headline, formulas, pots, uncalibrated } = holdBackTables(plan, named, display);
  const hasChoice = plan.formulas.length > 1 || plan.status === "unexplained";
  return htmlPage(
    "Plan of a first pot",
    [
      element("p", { class: "headline" }, headline),
      ...(plan.status === "unexplained"
        ? [
            element(
              "p",
              { class: "lead" },
              "Weigh nothing yet. Read the panels again where they are clean and polished, or add the formula that they were painted with.",
            ),
          ]
        : pots.map((pot) => potSection(pot))),
      ...(uncalibrated === "" ? [] : [element("p", { class: "note" }, uncalibrated)]),
      ...listed(
        "Beware",
        plan.warnings.map(({ message }) => message),
      ),
      section(
        "What the light took",
        element(
          "div",
          { class: "figures" },
          htmlTable("Left of the formula, with 90 % intervals", fadeMatrix(plan, named)),
          element("figure", {}, { markup: fadePlot(plan, named, HALF_WIDTH).svg }),
          panelsOf(job, plan),
          ...(plan.status === "unexplained"
            ? []
            : pots.map(({ title, pours }) =>
                htmlTable(`How sure the cans are: ${title}`, withoutColumns(pours, WEIGHED)),
              )),
        ),
      ),
      ...(hasChoice
        ? [
            section(
              "Which formula it was",
              htmlTable(
                "The likeliest first; misfit and odd fade in standard deviations beyond chance",
                formulas,
              ),
            ),
          ]
        : []),
      section("Safety", element("p", { class: "caution" }, SPRAYING_CAUTION)),
    ],
    { pot: plan.pots.length === 1 ? "first pot" : `${plan.pots.length} pots`, ...head },
  );
}

function potSection({ title, weighed, cost, stages }: PotTables): Markup {
  return section(
    title,
    pourTable(
      "Zero the scale with the cup on it, then weigh in this order (before hardener and reducer)",
      weighed,
    ),
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
    element("div", { class: "look" }, ...strips),
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
