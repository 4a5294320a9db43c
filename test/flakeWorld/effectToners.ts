import { GRID } from "../simulator/pigments.js";

/** What flakes of one kind are like before any gun has laid them. */
export interface Grade {
  /** Area projected on the film per unit of build, of paint that is nothing but the toner. */
  readonly area: number;
  readonly width: number;
  readonly unruly: number;
  readonly isClear: boolean;
  /** Share mirrored at a wavelength, by the cosine at which light meets the flake. */
  readonly mirror: (nm: number) => (cosine: number) => number;
}

/** A toner of this world: what it truly does in paint that is nothing but it, per unit of build. */
export interface EffectToner {
  readonly id: string;
  readonly role: "white" | "black" | "chromatic" | "flake" | "pearl";
  readonly absorption: readonly number[];
  readonly scattering: readonly number[];
  readonly grade?: Grade;
}

type Shape = (nm: number) => number;
const peak =
  (centre: number, width: number): Shape =>
  (nm) =>
    Math.exp(-(((nm - centre) / width) ** 2) / 2);
const below =
  (edge: number, width: number): Shape =>
  (nm) =>
    1 / (1 + Math.exp((nm - edge) / width));

export type GradeName =
  | "coarse-silver"
  | "fine-silver"
  | "blue-pearl"
  | "gold-pearl"
  | "lens-silver"
  | "ground-silver";

/** Those of the toners, and two that are on panels alone: the painter has no toner of them. */
export const GRADES: Readonly<Record<GradeName, Grade>> = {
  "coarse-silver": { area: 14, width: 0.085, unruly: 0.12, isClear: false, mirror: () => () => 0.88 },
  "fine-silver": { area: 22, width: 0.15, unruly: 0.12, isClear: false, mirror: () => () => 0.83 },
  "blue-pearl": platelets(12, 0.1, 0.45, 675),
  "gold-pearl": platelets(12, 0.11, 0.42, 870),
  "lens-silver": { area: 11, width: 0.065, unruly: 0.05, isClear: false, mirror: () => () => 0.9 },
  "ground-silver": { area: 18, width: 0.115, unruly: 0.3, isClear: false, mirror: () => () => 0.84 },
};

/** Clear platelets with a coat: `path` is the way to and fro in it, nm; they mirror best where it is 1½ waves. */
function platelets(area: number, width: number, most: number, path: number): Grade {
  const mirror = (nm: number) => (cosine: number) => {
    // In the coat (index 2.4, in paint of 1.5) the path shortens as light comes in flatter.
    const inside = Math.sqrt(1 - (1.5 / 2.4) ** 2 * (1 - cosine * cosine));
    return 0.06 + (most - 0.06) * Math.sin((Math.PI * path * inside) / nm) ** 2;
  };
  return { area, width, unruly: 0.12, isClear: true, mirror };
}

type Kind = Omit<EffectToner, "absorption" | "scattering"> & {
  readonly absorbs: Shape;
  readonly scatters: Shape;
};
const KINDS: readonly Kind[] = [
  {
    id: "coarse-silver",
    role: "flake",
    absorbs: () => 0.05,
    scatters: () => 0.5,
    grade: GRADES["coarse-silver"],
  },
  { id: "fine-silver", role: "flake", absorbs: () => 0.08, scatters: () => 1, grade: GRADES["fine-silver"] },
  { id: "blue-pearl", role: "pearl", absorbs: () => 0.02, scatters: () => 0.6, grade: GRADES["blue-pearl"] },
  {
    id: "gold-pearl",
    role: "pearl",
    absorbs: peak(400, 40),
    scatters: () => 0.6,
    grade: GRADES["gold-pearl"],
  },
  { id: "white", role: "white", absorbs: (nm) => 0.01 + Math.exp(-(nm - 400) / 10), scatters: () => 22 },
  { id: "black", role: "black", absorbs: (nm) => 24 * (nm / 550) ** -0.2, scatters: () => 0.4 },
  {
    id: "blue",
    role: "chromatic",
    absorbs: (nm) => 0.15 + 16 * peak(618, 55)(nm) + 3 * peak(690, 30)(nm),
    scatters: (nm) => 0.2 + 0.4 * peak(470, 45)(nm),
  },
  {
    id: "green",
    role: "chromatic",
    absorbs: (nm) => 0.2 + 15 * peak(648, 50)(nm) + 6 * peak(418, 30)(nm),
    scatters: () => 0.4,
  },
  { id: "violet", role: "chromatic", absorbs: (nm) => 0.4 + 15 * peak(566, 40)(nm), scatters: () => 0.2 },
  { id: "red", role: "chromatic", absorbs: (nm) => 0.1 + 13 * below(588, 9)(nm), scatters: () => 0.8 },
  { id: "yellow", role: "chromatic", absorbs: (nm) => 0.05 + 11 * below(486, 11)(nm), scatters: () => 1 },
];

export const WAVELENGTHS = Array.from({ length: GRID.count }, (_, i) => GRID.start + i * GRID.step);

/** Eleven invented toners: two grades of aluminium, two pearls, and pigments for them. */
export const EFFECT_TONERS: readonly EffectToner[] = KINDS.map(({ absorbs, scatters, ...rest }) => ({
  ...rest,
  absorption: WAVELENGTHS.map(absorbs),
  scattering: WAVELENGTHS.map(scatters),
}));
