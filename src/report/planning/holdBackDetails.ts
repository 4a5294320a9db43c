import type { HoldBackPlan } from "../../planning/holdBack/holdBackPlan.js";
import { IN_GRAMS, type MassDisplay } from "../words/massText.js";
import type { Table } from "../words/table.js";
import { textTable } from "../words/textTable.js";
import type { TonerNames } from "../words/tonerName.js";
import { holdBackTables } from "./holdBackTables.js";

/** What stands behind a plan: which formula, what the sun took, what to pour and keep back, the way to every panel. */
export function holdBackDetails(
  plan: HoldBackPlan,
  names: TonerNames = {},
  display: MassDisplay = IN_GRAMS,
): string {
  const { formulas, fade, pots, compromise, uncalibrated } = holdBackTables(plan, names, display);
  const blocks = [
    ...(plan.warnings.length > 0 ? [plan.warnings.map(({ message }) => `! ${message}`).join("\n")] : []),
    ...(plan.formulas.length > 1 || plan.status === "unexplained"
      ? [
          titled(
            "Which formula the panels were painted with, the likeliest first (misfit and odd fade in standard deviations beyond chance):",
            formulas,
          ),
        ]
      : []),
    titled("What is left of the formula on the panels:", fade),
    ...pots.flatMap(({ title, pours, cost, stages }) => [
      titled(`${title}:`, pours),
      cost,
      `What is to be expected from there (spray a card first each time; the card says what is really to be poured):\n\n${stages.map((stage, i) => `  ${i + 1}. ${stage}`).join("\n")}`,
    ]),
    ...(uncalibrated === "" ? [] : [uncalibrated]),
    ...(plan.panels.length > 1 ? [titled("The price of one colour for all:", compromise)] : []),
  ];
  return `${blocks.join("\n\n")}\n`;
}

function titled(title: string, { head, rows, right }: Table): string {
  return `${title}\n\n${textTable([head, ...rows], { right })}`;
}
