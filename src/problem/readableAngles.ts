import { InputError } from "../core/InputError.js";
import type { Warning } from "../core/warning.js";
import { censoredBands } from "../forward/anchor.js";
import type { ReadSurface } from "../scene/createScene.js";
import type { Geometry } from "../surface/geometry.js";
import type { Reading } from "../surface/reading.js";
import { surfaceTerms } from "../surface/saunderson.js";
import { surfaceAt, type TonerSet } from "../toners/tonerSet.js";

/** At which geometries a job can be worked out. */
export interface ReadableAngles {
  /** By target: those of its geometries that the card has too, and that both show. */
  readonly ofTargets: readonly (readonly Geometry[])[];
  /** Whether every target has one. */
  readonly isReadable: boolean;
  readonly warnings: readonly Warning[];
}

/** A surface and the geometries that it was seen at. */
export interface SeenSurface extends ReadSurface {
  readonly seenAt: readonly Geometry[];
}

/** A reading with more than this share of censored bands is not used: its K/S would be guesswork. */
const MOST_CENSORED = 0.5;

/**
 * The geometries that the card (`seenAt` null: an eye saw it at whatever the target was) and each target share, without those whose K/S cannot be told from the card or from the
 * target. What is left out is said, and where the card lacks it, how far off the pot is there (`offThere`). Throws `unknown-geometry` for a target that shares none.
 */
export function readableAngles(
  toners: TonerSet,
  card: ReadSurface & { readonly seenAt: SeenSurface["seenAt"] | null },
  targets: readonly SeenSurface[],
  offThere: (target: number, geometry: Geometry) => number | undefined,
): ReadableAngles {
  const readAt = ({ readings }: ReadSurface, geometry: Geometry) =>
    readings.find((reading) => reading.geometry === geometry);
  const isCensored = (reading: Reading, path: string): boolean => {
    const measured = Float64Array.from(reading.reflectance);
    const terms = surfaceTerms(surfaceAt(toners, reading.geometry, path));
    return censoredBands(measured, terms).length > MOST_CENSORED * measured.length;
  };
  const warnings: Warning[] = [];
  const leaveOut = (why: string, geometry: Geometry, path: string, off?: number): void => {
    const cost =
      off === undefined
        ? "nothing is known of the match there"
        : `the match there is not looked at; by the toners alone the pot is ΔE00 ${off.toFixed(1)} off there`;
    const message = `"${geometry}" is left out: ${why}; ${cost}`;
    if (warnings.every((warning) => warning.message !== message || warning.path !== path)) {
      warnings.push({ code: "angle-left-out", message, path });
    }
  };
  const shared = targets.map(({ seenAt }) => {
    const both = seenAt.filter((geometry) => card.seenAt?.includes(geometry) ?? true);
    if (both.length > 0) return both;
    const reason = `there is no reading at "${seenAt[0]}", which a target has`;
    throw new InputError("unknown-geometry", card.path, reason);
  });
  const readable = targets.map((target, t) =>
    shared[t].filter((geometry) =>
      [card, target].every((surface) => {
        const reading = readAt(surface, geometry);
        return reading === undefined || !isCensored(reading, surface.path);
      }),
    ),
  );
  const isReadable = readable.every((left) => left.length > 0);
  targets.forEach(({ seenAt, path }, t) => {
    for (const geometry of seenAt) {
      if (!shared[t].includes(geometry)) {
        leaveOut("the card was not read there", geometry, card.path, offThere(t, geometry));
      } else if (isReadable && !readable[t].includes(geometry)) {
        leaveOut("most bands lie under the reflection of the surface or above white", geometry, path);
      }
    }
  });
  // Where nothing is left the job is posed as it was read, to say so.
  return { ofTargets: isReadable ? readable : shared, isReadable, warnings };
}
