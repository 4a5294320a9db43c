import type { Geometry } from "../surface/geometry.js";
import { type CheckedJob, type CheckedTarget, cardsOf } from "./job.js";

/** Geometry at which eyes compare: the card's own, else the first of the toners that leaves gloss out, else the first. */
export function geometryOfEye(job: CheckedJob): Geometry {
  const cards = cardsOf(job);
  const last = cards[cards.length - 1];
  const [seen] = [...last.readings, ...last.colours];
  if (seen) return seen.geometry;
  const all = job.toners.surfaces.map(({ geometry }) => geometry);
  return all.find((geometry) => !geometry.endsWith("included")) ?? all[0];
}

/** Its place among those that are worked at; the first of them where that one is left out. */
export function placeOfEye(job: CheckedJob, geometries: readonly Geometry[]): number {
  return Math.max(0, geometries.indexOf(geometryOfEye(job)));
}

/** Geometries that a target was seen at: read, measured as a colour, or looked at. */
export function geometriesSeen(
  { readings, colours, comparisons }: CheckedTarget,
  eye: Geometry,
): readonly Geometry[] {
  const measured = [...readings, ...colours].map(({ geometry }) => geometry);
  return [...new Set([...measured, ...(comparisons.length > 0 ? [eye] : [])])];
}

/** Geometries of a card's spectra, or, where it has none, of its colours; null of one that was only looked at. */
export function seenAtOfCard({
  readings,
  colours,
}: Pick<CheckedTarget, "readings" | "colours">): readonly Geometry[] | null {
  const measured = readings.length > 0 ? readings : colours;
  return measured.length > 0 ? measured.map(({ geometry }) => geometry) : null;
}
