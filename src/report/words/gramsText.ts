/** Grams as a scale shows them: at least one decimal, as many more as the amount has, at most three. */
export function gramsText(grams: number): string {
  const exact = Number(grams.toFixed(3));
  const decimals = (String(exact).split(".")[1] ?? "").length;
  return exact.toFixed(Math.max(1, decimals));
}
