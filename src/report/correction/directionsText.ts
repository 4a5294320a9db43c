import type { TonerDirections } from "../../prediction/tonerDirections.js";
import { bewareOf } from "../words/bewareOf.js";
import { fitTable, shortened } from "../words/fitTable.js";
import { screenText } from "../words/screenText.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { directionsHeadline, directionsTable } from "./directionsTable.js";

/** Most letters of a name. */
const MOST_LETTERS = 20;

/** Most ways that are listed. */
const MOST_ROWS = 14;

/**
 * A tinting chart on one screen: which toner moves the colour where, how strongly, and which do the same. The numbers for
 * every geometry and light are in `directionsDetails`.
 */
export function directionsText(answer: TonerDirections, names: TonerNames = {}): string {
  const nameOf = (id: string) => shortened(tonerName(names, id), MOST_LETTERS);
  const { head, rows, right } = directionsTable(answer, nameOf);
  const left = rows.length - MOST_ROWS;
  return screenText(
    [
      directionsHeadline(answer),
      fitTable({ head, rows: rows.slice(0, MOST_ROWS), right }, 0),
      left > 0 ? `${left} weaker ways are among the --details.` : "",
      "Lengths are of the first per cent: a second moves less. --report draws the chart.",
    ],
    bewareOf(answer.warnings),
  );
}
