/** A probability as cases of ten; near 0 and 1, where tens would hide what matters, as cases of a hundred. */
export function chanceText(probability: number): string {
  const hundred = Math.round(100 * probability);
  if (hundred < 1) return "fewer than 1 case of 100";
  if (hundred > 99) return "more than 99 cases of 100";
  if (hundred < 10 || hundred > 94) return `${hundred} ${hundred === 1 ? "case" : "cases"} of 100`;
  const ten = Math.round(10 * probability);
  return `${ten} ${ten === 1 ? "case" : "cases"} of 10`;
}
