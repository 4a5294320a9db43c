/** Rows of cells in columns: the first row is the head; `right` lists the columns set flush right. */
export function textTable(
  rows: readonly (readonly string[])[],
  { right = [], indent = "  " }: { readonly right?: readonly number[]; readonly indent?: string } = {},
): string {
  const widths = rows[0].map((_, column) => Math.max(...rows.map((row) => [...row[column]].length)));
  const line = (row: readonly string[]) =>
    row
      .map((cell, column) => {
        const gap = " ".repeat(widths[column] - [...cell].length);
        return right.includes(column) ? gap + cell : cell + gap;
      })
      .join("  ")
      .trimEnd();
  return rows.map((row) => indent + line(row)).join("\n");
}
