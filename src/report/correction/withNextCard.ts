import type { Correction } from "../../correction/correction.js";
import type { Interval } from "../../forecast/forecast.js";
import { decimals } from "../words/decimals.js";
import type { Table } from "../words/table.js";

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
