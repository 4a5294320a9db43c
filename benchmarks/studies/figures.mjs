/** The smallest of the values that at least `share` of them do not exceed (nearest rank). */
export function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)];
}

/** "median, 90 %, largest". */
export const spread = (values, digits = 2) =>
  [0.5, 0.9, 1].map((share) => quantile(values, share).toFixed(digits)).join(", ");

/** A Markdown table: the names of the columns, then the rows. */
export const table = (head, rows) =>
  [head, head.map(() => "---"), ...rows].map((cells) => `| ${cells.join(" | ")} |`).join("\n");
