// Makes toners.json, job.json, plan.json and job.record beside it: an invented horsebox in faded sage green, invented toners, no real
// paint. The readings come from cans that are stronger or weaker than toners.json says, a surface a little
// different from the one it states, and an instrument with noise, so that the correction has something to do.
// Run: node examples/horsebox/make.mjs
import { createHash } from "node:crypto";
import { writeFileSync } from "node:fs";

const grid = { start: 400, step: 10, count: 31 };
const nm = Array.from({ length: grid.count }, (_, i) => grid.start + i * grid.step);
const geometry = "d:8 specular excluded";

const below = (edge, width) => (w) => 1 / (1 + Math.exp((w - edge) / width));
const peak = (centre, width) => (w) => Math.exp(-(((w - centre) / width) ** 2) / 2);
const times = (factor, toner) => ({ k: (w) => factor * toner.k(w), s: (w) => factor * toner.s(w) });

const white = { k: (w) => 0.0003 + 0.07 * Math.exp(-(w - 400) / 11), s: (w) => (w / 550) ** -0.3 };
const black = { k: (w) => 1.9 * (w / 550) ** -0.15, s: () => 0.035 };
const green = {
  k: (w) => 0.03 + 1.5 * peak(645, 48)(w) + 0.45 * peak(415, 28)(w),
  s: (w) => 0.05 + 0.03 * peak(510, 30)(w),
};
const clear = { k: () => 0, s: () => 0 };

const toners = [
  { id: "white", name: "Strong white", role: "white", strengthSd: 0.03, ...white },
  { id: "weak-white", name: "Weak white", role: "white", strengthSd: 0.05, ...times(0.2, white) },
  { id: "black", name: "Deep black", role: "black", strengthSd: 0.1, ...black },
  { id: "weak-black", name: "Weak black", role: "black", strengthSd: 0.1, ...times(0.1, black) },
  {
    id: "yellow",
    name: "Bright yellow",
    role: "chromatic",
    strengthSd: 0.15,
    k: (w) => 0.002 + 1.1 * below(488, 11)(w),
    s: (w) => 0.12 + 0.12 * below(520, 40)(w),
  },
  {
    id: "ochre",
    name: "Earth yellow",
    role: "chromatic",
    strengthSd: 0.1,
    k: (w) => 0.04 + 0.6 * below(505, 28)(w),
    s: () => 0.3,
  },
  {
    id: "red-oxide",
    name: "Earth red",
    role: "chromatic",
    strengthSd: 0.1,
    k: (w) => 0.05 + 0.95 * below(573, 13)(w),
    s: (w) => 0.2 + 0.2 * below(600, 60)(w),
  },
  { id: "green", name: "Bluish green", role: "chromatic", strengthSd: 0.15, ...green },
  { id: "weak-green", name: "Weak bluish green", role: "chromatic", strengthSd: 0.15, ...times(0.1, green) },
  {
    id: "blue",
    name: "Greenish blue",
    role: "chromatic",
    strengthSd: 0.15,
    k: (w) => 0.02 + 1.6 * peak(615, 58)(w),
    s: (w) => 0.03 + 0.03 * peak(460, 40)(w),
  },
  {
    id: "violet",
    name: "Violet",
    role: "chromatic",
    strengthSd: 0.15,
    k: (w) => 0.06 + 1.7 * peak(562, 42)(w),
    s: () => 0.025,
  },
  { id: "clear", name: "Clear binder", role: "binder", ...clear },
];

// What is really in the cans and on the bench, unknown to toners.json.
const trueStrength = {
  white: 0.98,
  "weak-black": 1.1,
  yellow: 1.12,
  green: 0.93,
  "weak-green": 0.93,
  ochre: 1.05,
};
const trueSurface = { k1: 0.04, k2: 0.62, rest: 0.03 };
const noiseSd = 0.0006;

// A small generator of Gaussian noise (mulberry32 and Box–Muller), so that the files come out the same every time.
let state = 20261125;
const uniform = () => {
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};
const noise = () => noiseSd * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());

const read = (recipe, { strength = trueStrength, yellowing = 0 } = {}) => {
  const total = (key, w) =>
    Object.entries(recipe).reduce((sum, [id, grams]) => {
      const toner = toners.find((candidate) => candidate.id === id);
      return sum + grams * (strength[id] ?? 1) * toner[key](w);
    }, 0);
  const { k1, k2, rest } = trueSurface;
  const reflectance = nm.map((w) => {
    const q = total("k", w) / total("s", w) + yellowing * Math.exp(-(w - 400) / 35);
    const inside = 1 + q - Math.sqrt(q * q + 2 * q);
    return Number((rest * k1 + ((1 - k1) * (1 - k2) * inside) / (1 - k2 * inside) + noise()).toFixed(4));
  });
  return { geometry, grid, reflectance };
};

const spectrum = (values) => ({ [geometry]: nm.map((w) => Number(values(w).toPrecision(5))) });
const tonersFile = {
  format: "masstone/toners",
  version: 1,
  grid,
  surfaces: [{ geometry, k1: 0.04, k2: 0.6 }],
  toners: toners.map(({ k, s, ...toner }) => ({ ...toner, k: spectrum(k), s: spectrum(s) })),
};

// The first pot: the formula with most of its yellow, green and black held back, since the sun has eaten some.
const pot = { white: 180, ochre: 14, green: 9, "weak-black": 20, clear: 30 };
// What the panels look like now, as if freshly mixed from the same cans.
const panels = {
  "near-side door": { white: 180, ochre: 15.5, green: 11.2, yellow: 6.5, "weak-black": 44, clear: 30 },
  "tail ramp": {
    white: 180,
    ochre: 16.2,
    green: 10.9,
    yellow: 5.2,
    "weak-black": 41,
    clear: 30,
    "red-oxide": 0.3,
  },
};

const jobFile = {
  format: "masstone/job",
  version: 1,
  toners: "toners.json",
  viewing: {
    observer: "1964-10",
    illuminants: [
      { name: "D65", weight: 1 },
      { name: "A", weight: 0.3 },
    ],
  },
  pot,
  card: { readings: [read(pot)] },
  targets: [
    { name: "near-side door", role: "edge", weight: 1, readings: [read(panels["near-side door"])] },
    { name: "tail ramp", role: "blend", weight: 0.5, readings: [read(panels["tail ramp"])] },
  ],
  limits: { potMaxGrams: 400, scaleStepGrams: 0.1, maxPours: 4, stockGrams: { yellow: 60, violet: 20 } },
};

// Before any of that: two formulas on hand, and three panels that the sun has faded unevenly. The horsebox was painted
// with the first, years ago, from other cans; the second is the later shade, with blue where there was green.
const formulas = {
  "sage green, first years": {
    white: 180,
    ochre: 16,
    green: 12.5,
    yellow: 8,
    "weak-black": 44,
    clear: 30,
  },
  "sage green, later years": { white: 180, ochre: 24, blue: 6.5, yellow: 7, "weak-black": 40, clear: 30 },
};
const oldCans = { green: 1.04, yellow: 0.96, "weak-black": 1.03 };
const sun = {
  "tail ramp": { green: 0.88, yellow: 0.77, yellowing: 0.004 },
  "near-side door": { green: 0.92, yellow: 0.83, yellowing: 0.002 },
  roof: { green: 0.66, yellow: 0.48, ochre: 0.98, yellowing: 0.012 },
};
const original = formulas["sage green, first years"];
const planFile = {
  format: "masstone/plan",
  version: 1,
  toners: "toners.json",
  viewing: jobFile.viewing,
  formulas: Object.entries(formulas).map(([name, grams], i) => ({
    name,
    grams,
    ...(i === 0 && { readings: [read(grams, { strength: oldCans })] }),
  })),
  panels: Object.entries(sun).map(([name, { yellowing, ...left }], i) => ({
    name,
    role: i === 0 ? "blend" : "edge",
    share: i === 2 ? 2 : 1,
    readings: [
      read(Object.fromEntries(Object.entries(original).map(([id, grams]) => [id, grams * (left[id] ?? 1)])), {
        strength: oldCans,
        yellowing,
      }),
    ],
  })),
  wantedGrams: 600,
  fadePriors: { ochre: { meanLoss: 0.01, sdLoss: 0.01 }, "red-oxide": { meanLoss: 0.01, sdLoss: 0.01 } },
  limits: { potMaxGrams: 700, scaleStepGrams: 0.1 },
};

// How the job went on: the first pot and its card, what was poured after the first correction, and a third card of a
// pot with more green in it than was noted, which the cards before it give away.
const { pot: _pot, card: firstCard, format: _format, version: _version, ...asked } = jobFile;
const cans = { yellow: "Y-12", black: "B-3", green: "G-7" };
const pours = (grams) =>
  Object.entries(grams).map(([toner, amount]) => ({
    kind: "pour",
    toner,
    grams: amount,
    ...(cans[toner] && { can: cans[toner] }),
  }));
const first = { yellow: 7, black: 2.6, green: 1.9 };
const noted = { green: 0.4 };
const reallyPoured = { green: 2.4 };
const together = (...pots) => {
  const all = {};
  for (const one of pots) for (const [id, grams] of Object.entries(one)) all[id] = (all[id] ?? 0) + grams;
  return all;
};
const cardEntry = (name, contents) => ({ kind: "card", name, readings: [read(contents)] });
const entries = [
  { kind: "job", job: asked },
  ...pours(pot),
  { kind: "card", name: "card 1", readings: firstCard.readings },
  ...pours(first),
  cardEntry("card 2", together(pot, first)),
  ...pours(noted),
  cardEntry("card 3", together(pot, first, reallyPoured)),
  { kind: "note", text: "the lid of the green was loose" },
];
const sha256 = (content) => createHash("sha256").update(content).digest("hex");
const started = Date.UTC(2026, 2, 31, 8, 30);
let previous = "0".repeat(64);
const lines = entries.map((entry, number) => {
  const at = new Date(started + 300_000 * number).toISOString();
  const body = JSON.stringify({ format: "masstone/record", version: 1, number, at, previous, entry });
  previous = sha256(body);
  return `${body.slice(0, -1)},"hash":"${previous}"}\n`;
});
const end = { format: "masstone/record-end", version: 1, entries: entries.length, hash: previous };
writeFileSync(new URL("job.record", import.meta.url), lines.join(""));
writeFileSync(new URL("job.record.end", import.meta.url), `${JSON.stringify(end)}\n`);

// Records over several lines, lists of numbers on one: the files are meant to be read.
const text = (value) =>
  `${JSON.stringify(value, null, 2).replace(/\[\s+(-?[\d.e-]+(?:,\s+-?[\d.e-]+)*)\s+\]/g, (_, list) => `[${list.replace(/\s+/g, " ")}]`)}\n`;
for (const [name, file] of Object.entries({
  "toners.json": tonersFile,
  "job.json": jobFile,
  "plan.json": planFile,
})) {
  writeFileSync(new URL(name, import.meta.url), text(file));
}
