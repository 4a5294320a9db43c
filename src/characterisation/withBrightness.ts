import { geometryFacts } from "../surface/geometry.js";
import type { Surface } from "../surface/surface.js";
import { isEffect } from "../toners/toner.js";
import type { CheckedJob } from "./job.js";

/** Up to this a film with flake reads as a matt one may; beyond it the geometry needs a brightness (design value). */
const MATT = 0.8;
/** Room for a film that is brighter than the brightest of the ladder: design value of a study (docs/evidence.md). */
const ROOM = 1.3;

/**
 * The job with a brightness at every directional geometry where a film with flake or pearl reads above 0.8: 1.3 times
 * the brightest band. What the job says of a geometry itself stands; without flake or pearl nothing changes.
 */
export function withBrightness(job: CheckedJob): CheckedJob {
  const effect = job.toners.filter(isEffect).map(({ id }) => id);
  const bright = job.samples.filter(({ recipe }) => effect.some((id) => recipe[id] > 0));
  const surfaces = job.surfaces.map((surface): Surface => {
    if (surface.brightness !== undefined || geometryFacts(surface.geometry).kind !== "directional")
      return surface;
    const brightest = bright
      .flatMap(({ readings }) => readings)
      .filter(({ geometry }) => geometry === surface.geometry)
      .reduce((most, { reflectance }) => Math.max(most, ...Array.from(reflectance)), 0);
    return brightest > MATT ? { ...surface, brightness: ROOM * brightest } : surface;
  });
  return { ...job, surfaces };
}
