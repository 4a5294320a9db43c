/** A number with so many decimals, never "-0.0"; "–" for one that is not finite. */
export function decimals(value: number, digits: number): string {
  if (!Number.isFinite(value)) return "–";
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace("-", "") : text;
}
