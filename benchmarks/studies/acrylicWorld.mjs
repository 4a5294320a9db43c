// A world of paint that does not obey the package's equations, with K and S of real acrylics (MASSTONE_OPEN_DATA):
// cans off by 20 %, k2 that falls in the dark, white that crowds itself; and, where asked for, every toner's K and S
// off by rough random curves. The package is told the published K and S and one surface.
import { readFileSync } from "node:fs";
import { join } from "node:path";

export const GEOMETRY = "d:8 specular excluded";
const WHITE_ID = "TitaniumWhite";
const SURFACE = { k1: 0.03, k2: 0.65 };
const CAN_SD = 0.2;
const CROWDING = 0.25;
const STEEPEST = 0.16;
const CURVE_NM = 100;

/** The toners as the package is told of them, and worlds drawn around them. */
export function acrylicWorld(folder) {
  const rowsOf = (file) =>
    readFileSync(join(folder, "artist-paint-ks", file), "utf8")
      .trim()
      .split(/\r?\n/)
      .map((line) => line.split(","));
  const [head, ...kRows] = rowsOf("k.csv");
  const [, ...sRows] = rowsOf("s.csv");
  const bands = [...kRows.keys()].filter((i) => Number(kRows[i][0]) >= 400 && Number(kRows[i][0]) <= 700);
  const nm = bands.map((i) => Number(kRows[i][0]));
  const ids = head.slice(1);
  const column = (rows, j) => bands.map((i) => Number(rows[i][j + 1]));
  const k = ids.map((_, j) => column(kRows, j));
  const s = ids.map((_, j) => column(sRows, j));
  const white = ids.indexOf(WHITE_ID);
  const grid = { start: nm[0], step: nm[1] - nm[0], count: nm.length };
  const toners = {
    grid,
    surfaces: [{ geometry: GEOMETRY, ...SURFACE }],
    toners: ids.map((id, j) => ({
      id,
      role: j === white ? "white" : "chromatic",
      strengthSd: CAN_SD,
      k: { [GEOMETRY]: k[j] },
      s: { [GEOMETRY]: s[j] },
    })),
  };
  const root = maternRoot(nm.length, grid.step);
  const rough = (values, sd, random) => {
    const z = nm.map(() => random.normal());
    return values.map(
      (value, b) => value * Math.exp(sd * root[b].reduce((sum, entry, i) => sum + entry * z[i], 0)),
    );
  };
  /** One shop: its cans, surface and paint; `curves` makes its toners other than characterised. */
  const shop = (random, curves) => {
    const strengths = ids.map(() => Math.exp(CAN_SD * random.normal()));
    const k2 = SURFACE.k2 + 0.03 * (2 * random.uniform() - 1);
    const rise = STEEPEST * random.uniform();
    const trueK = curves ? k.map((values) => rough(values, 0.08, random)) : k;
    const trueS = curves ? s.map((values) => rough(values, 0.1, random)) : s;
    const truth = (grams) => {
      const total = grams.reduce((sum, amount) => sum + amount, 0);
      const crowded = 1 - (CROWDING * grams[white]) / total;
      return nm.map((_, b) => {
        let absorption = 0;
        let scattering = 0;
        grams.forEach((amount, j) => {
          absorption += amount * strengths[j] * trueK[j][b];
          scattering += amount * strengths[j] * trueS[j][b] * (j === white ? crowded : 1);
        });
        const q = absorption / scattering;
        const inside = 1 / (1 + q + Math.sqrt(q * q + 2 * q));
        const kept = k2 + rise * (inside - 0.5);
        return ((1 - SURFACE.k1) * (1 - kept) * inside) / (1 - kept * inside);
      });
    };
    const read = (reflectance) => {
      const gain = 0.001 * random.normal();
      return reflectance.map((value) => Math.max(0, value * (1 + gain) + 0.0005 * random.normal()));
    };
    return { truth, read };
  };
  /** Grams of a pot: mostly white, coloured with white, or with hardly any white. */
  const pot = (random, kind) => {
    const between = (low, high) => low + (high - low) * random.uniform();
    const coloured = [...ids.keys()].filter((j) => j !== white);
    const some = (count) =>
      Array.from({ length: count }, () => coloured.splice(random.integer(coloured.length), 1)[0]);
    const grams = ids.map(() => 0);
    grams[white] = kind === 0 ? 100 : kind === 1 ? between(20, 60) : between(2, 10);
    const toners = kind === 0 ? some(2 + random.integer(2)) : some(3);
    for (const j of toners)
      grams[j] = kind === 0 ? 0.3 * 20 ** random.uniform() : between(...(kind === 1 ? [5, 30] : [10, 40]));
    return grams;
  };
  /** What more is in the panel: of what is in the pot up to 30 %; and, where the pot lacks something, of one other toner. */
  const panelOf = (grams, random, lacks) => {
    const inPot = [...grams.keys()].filter((j) => grams[j] > 0);
    const panel = [...grams];
    for (const j of inPot) panel[j] *= 1 + 0.3 * random.uniform() * (random.uniform() < 0.7 ? 1 : 0);
    if (!lacks) return panel;
    const others = [...grams.keys()].filter((j) => grams[j] === 0);
    const colour = inPot.filter((j) => j !== white).reduce((sum, j) => sum + grams[j], 0);
    panel[others[random.integer(others.length)]] = 0.2 + 0.08 * random.uniform() * colour;
    return panel;
  };
  return { toners, ids, grid, shop, pot, panelOf };
}

/** Lower Cholesky factor of a Matérn-3/2 correlation over the bands. */
function maternRoot(count, step) {
  const root = [];
  for (let i = 0; i < count; i++) {
    root.push(new Array(count).fill(0));
    for (let j = 0; j <= i; j++) {
      const d = (Math.sqrt(3) * (i - j) * step) / CURVE_NM;
      let sum = (1 + d) * Math.exp(-d) + (i === j ? 1e-9 : 0);
      for (let m = 0; m < j; m++) sum -= root[i][m] * root[j][m];
      root[i][j] = j === i ? Math.sqrt(sum) : sum / root[j][j];
    }
  }
  return root;
}
