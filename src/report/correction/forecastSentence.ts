import { perCent } from "../../core/perCent.js";
import type { Correction } from "../../correction/correction.js";
import type { Forecast, Interval } from "../../forecast/forecast.js";
import { decimals } from "../words/decimals.js";
import { IN_GRAMS, type MassDisplay, massCell, massHead } from "../words/massText.js";
import type { Table } from "../words/table.js";

/** The pours with what of each to pour first, where not all of it should be poured at once. */
export function withFirstPours(
  pours: Table,
  { additions, forecast }: Correction,
  display: MassDisplay = IN_GRAMS,
): Table {
  if (forecast?.pour !== "first") return pours;
  const first = additions.map(({ toner }) => {
    const found = forecast.pours.find((one) => one.toner === toner);
    return found ? massCell(found.firstGrams, display, toner) : "";
  });
  return insertColumn(pours, massHead(display), { head: "first", cells: first });
}

/** The colour differences with where those of the next card will lie, when all is poured. */
export function withNextCard(differences: Table, { predictions, forecast }: Correction): Table {
  if (!forecast) return differences;
  const next = predictions.map(({ target, geometry, illuminant }) => {
    const card = forecast.full.cards.find(
      (one) => one.target === target && one.geometry === geometry && one.illuminant === illuminant,
    );
    return card ? intervalText(card.deltaE00) : "";
  });
  return insertColumn(differences, "after", { head: "next card", cells: next });
}

/** What the next card may be, in a sentence or two; empty where nothing was forecast. */
export function forecastSentence(forecast?: Forecast): string {
  if (!forecast) return "";
  const { full, first, level, pour } = forecast;
  const chances = `The next card is within tolerance of every target with ${perCent(full.withinProbability)}, and leaves no way back by adding with ${perCent(full.noReturnProbability)}; its differences lie in the intervals with ${perCent(level)}.`;
  if (pour === "full") return chances;
  return `Pour only the first grams, spray a card and correct again: they leave no way back with ${perCent(first.noReturnProbability)}. If all is poured: ${chances.charAt(0).toLowerCase()}${chances.slice(1)}`;
}

const intervalText = ({ low, high }: Interval): string => `${decimals(low, 2)}–${decimals(high, 2)}`;

function insertColumn(
  { head, rows, right }: Table,
  after: string,
  column: { readonly head: string; readonly cells: readonly string[] },
): Table {
  const place = head.indexOf(after) + 1;
  return {
    head: head.toSpliced(place, 0, column.head),
    rows: rows.map((cells, i) => cells.toSpliced(place, 0, column.cells[i])),
    right: [...right.map((i) => (i >= place ? i + 1 : i)), place],
  };
}
