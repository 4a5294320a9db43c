import type { Table } from "./table.js";

/** A table without the columns of these heads. */
export function withoutColumns({ head, rows, right }: Table, columns: readonly string[]): Table {
  const kept = [...head.keys()].filter((i) => !columns.includes(head[i]));
  return {
    head: kept.map((i) => head[i]),
    rows: rows.map((cells) => kept.map((i) => cells[i])),
    right: right.filter((i) => kept.includes(i)).map((i) => kept.indexOf(i)),
  };
}
