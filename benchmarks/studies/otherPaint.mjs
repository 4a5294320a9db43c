// A small world of paint that does not obey the package's equations, to judge its steps in. All toners are invented.

export const GRID = { start: 400, step: 10, count: 31 };
export const GEOMETRY = "d:8 specular excluded";

const NM = Array.from({ length: GRID.count }, (_, i) => GRID.start + i * GRID.step);
const below = (edge, width) => (nm) => 1 / (1 + Math.exp((nm - edge) / width));
const peak = (centre, width) => (nm) => Math.exp(-(((nm - centre) / width) ** 2) / 2);

const SHAPES = {
  black: { k: (nm) => 1.9 * (nm / 550) ** -0.15, s: () => 0.035 },
  blue: { k: (nm) => 0.02 + 1.6 * peak(615, 58)(nm), s: (nm) => 0.03 + 0.03 * peak(460, 40)(nm) },
  green: {
    k: (nm) => 0.03 + 1.5 * peak(645, 48)(nm) + 0.45 * peak(415, 28)(nm),
    s: (nm) => 0.05 + 0.03 * peak(510, 30)(nm),
  },
  ochre: { k: (nm) => 0.04 + 0.6 * below(505, 28)(nm), s: () => 0.3 },
  red: { k: (nm) => 0.004 + 1.3 * below(590, 9)(nm), s: (nm) => 0.08 + 0.1 * below(600, 40)(nm) },
  "red-oxide": { k: (nm) => 0.05 + 0.95 * below(573, 13)(nm), s: (nm) => 0.2 + 0.2 * below(600, 60)(nm) },
  violet: { k: (nm) => 0.06 + 1.7 * peak(562, 42)(nm), s: () => 0.025 },
  white: { k: (nm) => 0.0003 + 0.07 * Math.exp(-(nm - 400) / 11), s: (nm) => (nm / 550) ** -0.3 },
  yellow: { k: (nm) => 0.002 + 1.1 * below(488, 11)(nm), s: (nm) => 0.12 + 0.12 * below(520, 40)(nm) },
};

/** In the order in which the solver keeps toners. */
export const IDS = Object.keys(SHAPES).sort();
export const WHITE = IDS.indexOf("white");

const K = IDS.map((id) => NM.map(SHAPES[id].k));
const S = IDS.map((id) => NM.map(SHAPES[id].s));

/** What the package is told: these K and S, full strength unless given, the surface k1 = 0.04, k2 = 0.6. */
export const tonerSet = (strengths = IDS.map(() => 1)) => ({
  grid: GRID,
  surfaces: [{ geometry: GEOMETRY, k1: 0.04, k2: 0.6 }],
  toners: IDS.map((id, j) => ({
    id,
    strength: strengths[j],
    k: { [GEOMETRY]: K[j] },
    s: { [GEOMETRY]: S[j] },
  })),
});

/** What a world differs by: strength as sd of ln, the rest as shares of the full differences. */
export const WORLDS = {
  "as described": { strengthSd: 0.2, trace: 1, surface: 1 },
  "no trace absorption": { strengthSd: 0.2, trace: 0, surface: 1 },
  "strengths alone": { strengthSd: 0.2, trace: 0, surface: 0 },
  "cans half as far off": { strengthSd: 0.1, trace: 1, surface: 1 },
};

/**
 * One workshop: its cans, its surface, its dirt and its instrument, drawn from `random`. `read` gives the reflectance
 * of grams of each toner with the given trace absorption in them, `noisy` what the instrument makes of it.
 */
export function createWorkshop(random, { strengthSd, trace, surface }) {
  const between = (min, max) => min + (max - min) * random.uniform();
  const betweenLogs = (min, max) => Math.exp(between(Math.log(min), Math.log(max)));
  const strengths = IDS.map(() => Math.exp(strengthSd * random.normal()));
  const k1 = 0.04 + surface * between(-0.005, 0.005);
  const k2 = 0.6 + surface * between(-0.03, 0.03);
  const bend = surface * between(0, 0.08);
  const rest = surface * between(0, 0.03);
  const crowding = surface * between(0, 0.25);
  const dirt = trace * betweenLogs(1e-5, 5e-3);
  const hump = peak(between(400, 700), between(20, 80));
  const dirtIsInWhite = random.uniform() < 0.5;
  const noiseSd = betweenLogs(0.0005, 0.003);

  const read = (grams, dirtyGrams) => {
    const total = grams.reduce((sum, g) => sum + g, 0);
    const whiteScatters = 1 - (crowding * grams[WHITE]) / total;
    return NM.map((nm, band) => {
      let k = dirtyGrams * dirt * hump(nm);
      let s = 0;
      grams.forEach((g, j) => {
        k += g * strengths[j] * K[j][band];
        s += g * strengths[j] * S[j][band] * (j === WHITE ? whiteScatters : 1);
      });
      const q = k / s;
      const inside = 1 + q - Math.sqrt(q * q + 2 * q);
      const back = k2 - bend * (inside - 0.5);
      return rest * k1 + ((1 - k1) * (1 - back) * inside) / (1 - back * inside);
    });
  };
  const noisy = (reflectance) => reflectance.map((r) => Math.max(0, r + noiseSd * random.normal()));
  return { strengths, crowding, read, noisy, dirtIsInWhite };
}

/** The kinds of pot. */
export const KINDS = ["nearly white", "light", "mid", "dark"];

/** A pot of a kind, and what would have to be added to make the target: strong toners into whites among them. */
export function drawRecipe(kind, random) {
  const between = (min, max) => min + (max - min) * random.uniform();
  const coloured = [...IDS.keys()].filter((j) => j !== WHITE);
  const some = (count, from) => {
    const rest = [...from];
    return Array.from({ length: count }, () => rest.splice(random.integer(rest.length), 1)[0]);
  };
  const pot = IDS.map(() => 0);
  const added = IDS.map(() => 0);
  const pourInto = (mix, toners, grams) => {
    for (const j of toners) mix[j] = grams(j);
  };
  pot[WHITE] = kind === "dark" ? between(0, 8) : 100;
  if (kind === "nearly white") {
    pourInto(pot, some(random.integer(3), coloured), () => between(0.02, 0.3));
    pourInto(added, some(1 + random.integer(2), coloured), () => 0.1 * 80 ** random.uniform());
  } else if (kind === "light") {
    pourInto(pot, some(1 + random.integer(3), coloured), () => between(0.3, 6));
    pourInto(added, some(1 + random.integer(3), IDS.keys()), (j) =>
      j === WHITE ? between(10, 60) : 0.1 * 80 ** random.uniform(),
    );
  } else {
    const most = kind === "dark" ? [10, 60] : [5, 60];
    pourInto(pot, some(2 + random.integer(2), coloured), () => between(...most));
    if (kind === "dark") pot[IDS.indexOf("black")] += between(5, 40);
    pourInto(added, some(1 + random.integer(3), IDS.keys()), (j) =>
      j === WHITE ? between(5, 40) : between(1, 20),
    );
  }
  return { pot, added };
}
