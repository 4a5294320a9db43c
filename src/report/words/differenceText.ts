/** A ΔE00 with one decimal, or as many more as keep it on its own side of what is allowed. */
export function differenceText(deltaE00: number, allowed = Number.POSITIVE_INFINITY): string {
  if (!Number.isFinite(deltaE00)) return "–";
  const side = (text: string) => Number(text) <= allowed;
  const shown = [1, 2, 3].map((digits) => deltaE00.toFixed(digits));
  return shown.find((text) => side(text) === deltaE00 <= allowed) ?? String(deltaE00);
}
