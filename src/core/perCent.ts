/** A share as "12 %", to the whole per cent; "–" for what is not finite. */
export function perCent(share: number): string {
  const value = 100 * share;
  return Number.isFinite(value) ? `${value.toFixed(0).replace(/^-0$/, "0")} %` : "–";
}
