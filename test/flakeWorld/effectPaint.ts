import type { Grams } from "../../src/toners/pot.js";
import { ANGLES, type Angle, createDirections } from "./directions.js";
import { EFFECT_TONERS, GRADES, type Grade, type GradeName, WAVELENGTHS } from "./effectToners.js";
import { type PaintLayer, reflectanceFactors } from "./film.js";
import { type FlakeOptics, flakeOptics } from "./flakes.js";

/** A paint as it truly is. */
export interface EffectPaint {
  readonly grams: Grams;
  /** Strength of the cans, by toner id; 1 where absent. Of a flake it is how much of it there is. */
  readonly strengths?: Grams;
  /** Another grade in the place of a toner's own. */
  readonly grades?: Readonly<Record<string, GradeName>>;
}

/** How a film was sprayed. */
export interface Sprayed {
  /** ln of the width of its flakes' tilts against the gun as it should be: above 0 they lie steeper. */
  readonly tilt: number;
  /** Film build, 1 as it should be. */
  readonly build?: number;
  /** ln of how many flakes lie askew against the usual; follows `tilt` when absent. */
  readonly askew?: number;
}

/** What no toner file knows of. */
export interface EffectPhysics {
  /** Width grows by this share with the share of white in the paint. */
  readonly whiteTilts: number;
  /** ln width of the upper half of a film against the lower; 0 makes one layer of it. */
  readonly depthTilt: number;
  readonly ground: number;
}

export const EFFECT_PHYSICS: EffectPhysics = Object.freeze({ whiteTilts: 1.5, depthTilt: -0.1, ground: 0.3 });

/** Reflectance factors by angle, band by band. */
export type Factors = Readonly<Record<Angle, readonly number[]>>;

const MODES = 16;

/** Reads films of effect paint: what a six-angle instrument without error would say. */
export function createEffectReader(
  physics: EffectPhysics = EFFECT_PHYSICS,
): (paint: EffectPaint, sprayed: Sprayed) => Factors {
  const directions = createDirections();
  return ({ grams, strengths = {}, grades = {} }, { tilt, build = 1, askew = tilt }) => {
    const total = EFFECT_TONERS.reduce((sum, { id }) => sum + (grams[id] ?? 0), 0);
    const parts = EFFECT_TONERS.flatMap((toner) => {
      const share = (grams[toner.id] ?? 0) / total;
      return share > 0 ? [{ toner, share, amount: share * (strengths[toner.id] ?? 1) }] : [];
    });
    const white = parts.find(({ toner }) => toner.role === "white")?.share ?? 0;
    const laid = tilt + Math.log(1 + physics.whiteTilts * white);
    const halves = physics.depthTilt === 0 ? [0] : [physics.depthTilt / 2, -physics.depthTilt / 2];

    const kept = new Map<string, FlakeOptics>();
    const opticsOf = (id: string, grade: Grade, amount: number, depth: number, nm: number): FlakeOptics => {
      const key = grade.isClear ? `${id} ${depth} ${nm}` : `${id} ${depth}`;
      const found = kept.get(key);
      if (found) return found;
      const made = flakeOptics(
        {
          area: grade.area * amount,
          width: grade.width * Math.exp(laid + depth),
          unruly: Math.min(0.6, grade.unruly * Math.exp(askew)),
          mirror: grade.mirror(nm),
          isClear: grade.isClear,
        },
        directions,
        MODES,
      );
      kept.set(key, made);
      return made;
    };

    const layers = (absorption: number, scattering: number, nm: number): readonly PaintLayer[] =>
      halves.map((depth) => ({
        absorption,
        scattering,
        flakes: parts.flatMap(({ toner: { id, grade }, amount }) => {
          const named = grades[id] === undefined ? grade : GRADES[grades[id]];
          return named ? [opticsOf(id, named, amount, depth, nm)] : [];
        }),
        build: build / halves.length,
      }));
    const sum = (key: "absorption" | "scattering", band: number) =>
      parts.reduce((all, { toner, amount }) => all + amount * toner[key][band], 0);
    const pigment = WAVELENGTHS.map((nm, band) => ({
      nm,
      absorption: sum("absorption", band),
      scattering: sum("scattering", band),
    }));
    const isGrey = parts.every(({ toner }) => toner.grade?.isClear !== true);
    const higher = (extinction: number, nm: number) =>
      reflectanceFactors(layers(extinction, 0, nm), physics.ground, directions, MODES, 1);
    // Where flakes mirror all bands alike the higher modes are one smooth curve over the pigment's extinction.
    const higherAt = isGrey
      ? curveThrough(
          pigment.map((one) => one.absorption + one.scattering),
          (x) => higher(x, 550),
        )
      : undefined;
    const bands = pigment.map(({ nm, absorption, scattering }) => {
      const even = reflectanceFactors(layers(absorption, scattering, nm), physics.ground, directions, 1);
      const rest = (higherAt ?? higher)(absorption + scattering, nm);
      return even.map((factor, v) => factor + rest[v]);
    });
    const at = (angle: number) => bands.map((factors) => factors[angle]);
    return Object.fromEntries(ANGLES.map((angle, a) => [angle, at(a)])) as unknown as Factors;
  };
}

const NODES = 9;

/** Interpolation over the logarithm of where `of` will be asked, at Chebyshev's nodes in barycentric form. */
function curveThrough(
  places: readonly number[],
  of: (place: number) => readonly number[],
): (place: number) => readonly number[] {
  const logs = places.map((place) => Math.log(place));
  const middle = (Math.max(...logs) + Math.min(...logs)) / 2;
  const half = Math.max(1e-6, (Math.max(...logs) - Math.min(...logs)) / 2);
  const nodes = Array.from({ length: NODES }, (_, k) => {
    const angle = (Math.PI * (k + 0.5)) / NODES;
    const log = middle + half * Math.cos(angle);
    return { log, weight: (-1) ** k * Math.sin(angle), values: of(Math.exp(log)) };
  });
  return (place) => {
    const log = Math.log(place);
    const exact = nodes.find((node) => Math.abs(node.log - log) < 1e-9 * half);
    if (exact) return exact.values;
    const pulls = nodes.map((node) => node.weight / (log - node.log));
    const all = pulls.reduce((total, pull) => total + pull, 0);
    return nodes[0].values.map(
      (_, v) => nodes.reduce((total, { values }, k) => total + pulls[k] * values[v], 0) / all,
    );
  };
}
