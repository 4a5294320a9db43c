/** A toner of the simulated world: what one gram of it truly does to light, over 400–700 nm every 10 nm. */
export interface Pigment {
  readonly id: string;
  readonly role: "white" | "black" | "chromatic";
  /** Absorption and reduced scattering, in the unit of white's S at 550 nm, as a Kubelka–Munk K and S would be. */
  readonly k: readonly number[];
  readonly s: readonly number[];
  /** Asymmetry of its scattering. */
  readonly g: number;
  /** Share of its absorption that the hardest fade of a job takes, ÷ that of the most fugitive. */
  readonly fugitive: number;
}

export const GRID = { start: 400, step: 10, count: 31 } as const;

type Shape = (nm: number) => number;
const below =
  (edge: number, width: number): Shape =>
  (nm) =>
    1 / (1 + Math.exp((nm - edge) / width));
const peak =
  (centre: number, width: number): Shape =>
  (nm) =>
    Math.exp(-(((nm - centre) / width) ** 2) / 2);

const shapes: readonly (Omit<Pigment, "k" | "s"> & { readonly k: Shape; readonly s: Shape })[] = [
  {
    id: "white",
    role: "white",
    k: (nm) => 0.0004 + 0.09 * Math.exp(-(nm - 400) / 10),
    s: (nm) => (nm / 550) ** -0.35,
    g: 0.6,
    fugitive: 0,
  },
  {
    id: "black",
    role: "black",
    k: (nm) => 2.1 * (nm / 550) ** -0.2,
    s: (nm) => 0.03 * (nm / 550) ** -1,
    g: 0.3,
    fugitive: 0,
  },
  {
    id: "blue",
    role: "chromatic",
    k: (nm) => 0.015 + 1.5 * peak(618, 55)(nm) + 0.25 * peak(690, 30)(nm),
    s: (nm) => 0.03 + 0.05 * peak(470, 45)(nm),
    g: 0.35,
    fugitive: 0.3,
  },
  {
    id: "green",
    role: "chromatic",
    k: (nm) => 0.02 + 1.4 * peak(648, 50)(nm) + 0.5 * peak(418, 30)(nm),
    s: (nm) => 0.05 + 0.04 * peak(515, 32)(nm),
    g: 0.35,
    fugitive: 0.3,
  },
  {
    id: "violet",
    role: "chromatic",
    k: (nm) => 0.05 + 1.5 * peak(566, 40)(nm) + 0.3 * peak(520, 25)(nm),
    s: () => 0.03,
    g: 0.35,
    fugitive: 0.9,
  },
  {
    id: "red",
    role: "chromatic",
    k: (nm) => 0.006 + 1.2 * below(588, 9)(nm) - 0.35 * peak(440, 35)(nm),
    s: (nm) => 0.08 + 0.12 * below(610, 45)(nm),
    g: 0.45,
    fugitive: 0.8,
  },
  {
    id: "red-oxide",
    role: "chromatic",
    k: (nm) => 0.06 + 0.9 * below(575, 13)(nm) + 0.05 * peak(860, 120)(nm),
    s: (nm) => 0.2 + 0.25 * below(605, 55)(nm),
    g: 0.6,
    fugitive: 0,
  },
  {
    id: "yellow",
    role: "chromatic",
    k: (nm) => 0.003 + 1.0 * below(486, 11)(nm),
    s: (nm) => 0.12 + 0.13 * below(525, 40)(nm),
    g: 0.45,
    fugitive: 1,
  },
  {
    id: "yellow-oxide",
    role: "chromatic",
    k: (nm) => 0.05 + 0.55 * below(508, 27)(nm) + 0.04 * peak(640, 50)(nm),
    s: (nm) => 0.28 * (nm / 550) ** -0.3,
    g: 0.6,
    fugitive: 0,
  },
];

/** Full-strength toners that also come as a let-down, and what share of the let-down they are. */
const LET_DOWNS = ["black", "blue", "violet", "red", "yellow"];
const LET_DOWN = 0.1;

const wavelengths = Array.from({ length: GRID.count }, (_, i) => GRID.start + i * GRID.step);

/** Nine invented toners and five let-downs of them in clear binder, in the order of their ids. */
export const PIGMENTS: readonly Pigment[] = shapes
  .map((shape) => ({ ...shape, k: wavelengths.map(shape.k), s: wavelengths.map(shape.s) }))
  .flatMap((full) => {
    if (!LET_DOWNS.includes(full.id)) return [full];
    const thinned = (values: readonly number[]) => values.map((value) => LET_DOWN * value);
    return [full, { ...full, id: `${full.id}-let-down`, k: thinned(full.k), s: thinned(full.s) }];
  })
  .sort((a, b) => (a.id < b.id ? -1 : 1));

export const IDS: readonly string[] = PIGMENTS.map(({ id }) => id);
