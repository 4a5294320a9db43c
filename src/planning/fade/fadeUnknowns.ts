/**
 * The unknowns of a fade fit, all with a standard normal prior but for the yellowing, which is half normal (≥ 0).
 * Shared by the panels: per toner `batch` (how far the paint was off its formula), `lightfastness` and `misjudged` (how
 * far it is off its model). Per panel:
 * `dose`, per toner `uneven`, `yellowing`, and the coefficients of a `smooth` curve that the model misses.
 */
export interface FadeUnknowns {
  readonly count: number;
  readonly toners: number;
  readonly panels: number;
  batch(toner: number): number;
  lightfastness(toner: number): number;
  misjudged(toner: number): number;
  dose(panel: number): number;
  uneven(panel: number, toner: number): number;
  yellowing(panel: number): number;
  smooth(panel: number, term: number): number;
}

/** Terms of the smooth curve: a constant and three half-waves of the cosine over the spectrum. */
export const SMOOTH_TERMS = 4;

export function createFadeUnknowns(toners: number, panels: number): FadeUnknowns {
  const perPanel = 2 + toners + SMOOTH_TERMS;
  const panelStart = (panel: number) => 3 * toners + panel * perPanel;
  return {
    count: panelStart(panels),
    toners,
    panels,
    batch: (toner) => toner,
    lightfastness: (toner) => toners + toner,
    misjudged: (toner) => 2 * toners + toner,
    dose: (panel) => panelStart(panel),
    yellowing: (panel) => panelStart(panel) + 1,
    uneven: (panel, toner) => panelStart(panel) + 2 + toner,
    smooth: (panel, term) => panelStart(panel) + 2 + toners + term,
  };
}
