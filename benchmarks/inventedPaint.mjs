// Fifteen invented toners, a pot, and a card and a faded panel as an instrument would read them: smooth curves, no
// real paint. The cans are a little stronger or weaker than the toner set says, the surface is a little different
// from the one it states, and the readings have noise, so that a correction has to work for its answer.

export const GRID = { start: 400, step: 10, count: 31 };
const NM = Array.from({ length: GRID.count }, (_, i) => GRID.start + i * GRID.step);

export const ONE_ANGLE = ["d:8 specular excluded"];
export const FIVE_ANGLES = ["45as15", "45as25", "45as45", "45as75", "45as110"];

export const ONE_LIGHT = { observer: "1964-10", illuminants: [{ name: "D65", weight: 1 }] };
export const TWO_LIGHTS = {
  observer: "1964-10",
  illuminants: [...ONE_LIGHT.illuminants, { name: "A", weight: 0.3 }],
};

const STATED = { k1: 0.04, k2: 0.6 };
const REAL = { k1: 0.04, k2: 0.62, rest: 0.03 };
const REAL_STRENGTH = { white: 0.98, black: 1.1, yellow: 1.12, green: 0.93, ochre: 1.05, umber: 0.9 };
const NOISE_SD = 0.0006;

const below = (edge, width) => (nm) => 1 / (1 + Math.exp((nm - edge) / width));
const peak = (centre, width) => (nm) => Math.exp(-(((nm - centre) / width) ** 2) / 2);
const flat = (value) => () => value;
const sum = (floor, height, shape) => (nm) => floor + height * shape(nm);

const SPECTRA = {
  white: { k: (nm) => 0.0003 + 0.07 * Math.exp(-(nm - 400) / 11), s: (nm) => (nm / 550) ** -0.3 },
  black: { k: (nm) => 1.9 * (nm / 550) ** -0.15, s: flat(0.035) },
  yellow: { k: sum(0.002, 1.1, below(488, 11)), s: sum(0.12, 0.12, below(520, 40)) },
  lemon: { k: sum(0.002, 0.9, below(468, 9)), s: flat(0.2) },
  orange: { k: sum(0.004, 1.2, below(545, 12)), s: flat(0.16) },
  ochre: { k: sum(0.04, 0.6, below(505, 28)), s: flat(0.3) },
  "red-oxide": { k: sum(0.05, 0.95, below(573, 13)), s: sum(0.2, 0.2, below(600, 60)) },
  red: { k: sum(0.01, 1.6, below(590, 9)), s: flat(0.08) },
  magenta: { k: sum(0.02, 1.5, peak(535, 32)), s: flat(0.04) },
  violet: { k: sum(0.06, 1.7, peak(562, 42)), s: flat(0.025) },
  "red-blue": { k: sum(0.03, 1.7, peak(590, 45)), s: flat(0.03) },
  blue: { k: sum(0.02, 1.6, peak(615, 58)), s: sum(0.03, 0.03, peak(460, 40)) },
  green: { k: sum(0.03, 1.5, peak(645, 48)), s: sum(0.05, 0.03, peak(510, 30)) },
  umber: { k: sum(0.3, 0.7, below(560, 60)), s: flat(0.15) },
  clear: { k: flat(0), s: flat(0) },
};

/** The toners as characterised, a little different at each angle. */
export function tonerSet(geometries) {
  const at = (curve, drift) =>
    Object.fromEntries(
      geometries.map((geometry, g) => [geometry, NM.map((nm) => curve(nm) * (1 + drift * g))]),
    );
  return {
    grid: GRID,
    surfaces: geometries.map((geometry) => ({ geometry, ...STATED })),
    toners: Object.entries(SPECTRA).map(([id, { k, s }]) => ({ id, k: at(k, 0.01), s: at(s, -0.02) })),
  };
}

/** Something of every toner, white most of all: no sum is cut short by a zero. */
export const FULL_POT = Float64Array.from(Object.keys(SPECTRA), (id, j) =>
  id === "white" ? 300.5 : 1.5 + 3 * j,
);

/** One card, one faded panel, two lights: the pot has had its yellow, green and black held back. */
export function fadedJob() {
  const noise = createNoise(20261125);
  const pot = { white: 180, ochre: 14, green: 9, black: 2, clear: 30 };
  const panel = { ...pot, ochre: 15.5, green: 11.2, black: 4.2, yellow: 6.5, "red-oxide": 0.3 };
  return {
    toners: tonerSet(ONE_ANGLE),
    viewing: TWO_LIGHTS,
    pot,
    card: { readings: [read(pot, noise)] },
    targets: [{ name: "near-side door", role: "edge", readings: [read(panel, noise)] }],
    limits: { potMaxGrams: 400, scaleStepGrams: 0.1, maxPours: 4 },
  };
}

function read(recipe, noise) {
  const total = (key, nm) =>
    Object.entries(recipe).reduce(
      (subtotal, [id, grams]) => subtotal + grams * (REAL_STRENGTH[id] ?? 1) * SPECTRA[id][key](nm),
      0,
    );
  const reflectance = NM.map((nm) => {
    const q = total("k", nm) / total("s", nm);
    const inside = 1 + q - Math.sqrt(q * q + 2 * q);
    const through = ((1 - REAL.k1) * (1 - REAL.k2) * inside) / (1 - REAL.k2 * inside);
    return Number((REAL.rest * REAL.k1 + through + noise()).toFixed(4));
  });
  return { geometry: ONE_ANGLE[0], grid: GRID, reflectance };
}

/** Gaussian noise, the same at every run (Box–Muller). */
function createNoise(seed) {
  const uniform = createUniform(seed);
  return () => NOISE_SD * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** Numbers from 0 to 1, the same at every run (mulberry32). */
export function createUniform(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * Another job of the same size: a pot of four toners and a panel with up to four more or more of them, to which
 * something that cannot be taken out of the pot is missing now and then. The cup takes half as much again as the pot.
 */
export function seededJob(seed) {
  const uniform = createUniform(seed);
  const noise = createNoise(seed + 1e6);
  const colours = Object.keys(SPECTRA).filter((id) => id !== "clear");
  const draw = () => colours[Math.floor(colours.length * uniform())];
  const pot = { white: 60 + 120 * uniform() };
  while (Object.keys(pot).length < 4) pot[draw()] ??= 1 + 15 * uniform();
  const panel = { ...pot };
  for (let more = 1 + Math.floor(4 * uniform()); more > 0; more--) {
    const id = draw();
    panel[id] = (panel[id] ?? 0) + 0.5 + 10 * uniform();
  }
  if (uniform() < 0.2) panel.white *= 0.9 + 0.1 * uniform();
  const grams = Object.values(pot).reduce((total, amount) => total + amount, 0);
  return {
    toners: tonerSet(ONE_ANGLE),
    viewing: TWO_LIGHTS,
    pot,
    card: { readings: [read(pot, noise)] },
    targets: [{ name: "panel", role: "edge", readings: [read(panel, noise)] }],
    limits: { potMaxGrams: 1.5 * grams, scaleStepGrams: 0.1, maxPours: 4 },
  };
}

/** The same job grown: more toners (mixed out of the fifteen), finer grid, more geometries, more panels. */
export function growthJob({ toners, bands, geometries, targets }) {
  const noise = createNoise(20261125);
  const step = 300 / (bands - 1);
  const grid = { start: 400, step, count: bands };
  const nm = Array.from({ length: bands }, (_, i) => 400 + i * step);
  const names = FIVE_ANGLES.slice(0, geometries);
  const ids = Object.keys(SPECTRA);
  const curve = (n, key) => {
    const own = SPECTRA[ids[n % ids.length]][key];
    const other = SPECTRA[ids[(3 * n + 1) % ids.length]][key];
    const share = n < ids.length ? 0 : 0.15 * Math.floor(n / ids.length);
    return (w) => (1 - share) * own(w) + share * other(w);
  };
  const all = Array.from({ length: toners }, (_, n) => ({ id: `${ids[n % ids.length]} ${n}`, n }));
  const byAngle = (of) =>
    Object.fromEntries(names.map((name, g) => [name, nm.map((w) => of(w) * (1 + 0.01 * g))]));
  const set = {
    grid,
    surfaces: names.map((geometry) => ({ geometry, ...STATED })),
    toners: all.map(({ id, n }) => ({ id, k: byAngle(curve(n, "k")), s: byAngle(curve(n, "s")) })),
  };
  const readings = (recipe) =>
    names.map((geometry, g) => {
      const total = (key, w) => recipe.reduce((sum, grams, n) => sum + grams * curve(n, key)(w), 0);
      const reflectance = nm.map((w) => {
        const q = total("k", w) / total("s", w);
        const inside = 1 + q - Math.sqrt(q * q + 2 * q);
        const through = ((1 - REAL.k1) * (1 - REAL.k2) * inside) / (1 - REAL.k2 * inside);
        return Number(((1 - 0.02 * g) * (REAL.rest * REAL.k1 + through) + noise()).toFixed(4));
      });
      return { geometry, grid, reflectance };
    });
  const pot = [180, 2, 3, 0, 4];
  const panels = Array.from({ length: targets }, (_, t) => [180, 3 + 0.02 * t, 6 + 0.05 * t, 0.5, 5]);
  return {
    toners: set,
    viewing: TWO_LIGHTS,
    pot: Object.fromEntries(pot.map((grams, n) => [all[n].id, grams])),
    card: { readings: readings(pot) },
    targets: panels.map((panel, t) => ({ name: `panel ${t + 1}`, readings: readings(panel) })),
    limits: { potMaxGrams: 400, scaleStepGrams: 0.1, maxPours: 4 },
  };
}
