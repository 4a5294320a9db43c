// Makes samples.json and readings.csv beside it: drawdowns of four invented toners over a black and white chart, as
// a shop with a spectrophotometer would read them. Films are of unequal thickness, weighing and readings have errors.
// Run: node examples/ladder/make.mjs
import { writeFileSync } from "node:fs";

const grid = { start: 400, step: 10, count: 31 };
const nm = Array.from({ length: grid.count }, (_, i) => grid.start + i * grid.step);
const peak = (centre, width) => (w) => Math.exp(-(((w - centre) / width) ** 2) / 2);
const below = (edge, width) => (w) => 1 / (1 + Math.exp((w - edge) / width));

// Absorption and scattering of a film of the usual thickness, unknown to the files.
const toners = {
  white: { k: (w) => 0.004 + 0.9 * Math.exp(-(w - 400) / 11), s: (w) => 6 * (w / 550) ** -0.3 },
  black: { k: (w) => 14 * (w / 550) ** -0.15, s: () => 0.3 },
  green: {
    k: (w) => 0.2 + 9 * peak(645, 48)(w) + 3 * peak(415, 28)(w),
    s: (w) => 0.4 + 0.3 * peak(510, 30)(w),
  },
  ochre: { k: (w) => 0.3 + 5 * below(505, 28)(w), s: () => 2.5 },
};
const surface = { k1: 0.04, k2: 0.6 };
const chart = {
  black: (w) => 0.005 + 0.00002 * (w - 400),
  white: (w) => 0.82 - 0.1 * Math.exp(-(w - 400) / 15),
};

const films = [
  ["white", { white: 100 }],
  ["black", { black: 100 }],
  ["green", { green: 100 }],
  ["ochre", { ochre: 100 }],
  ["grey 20", { white: 80, black: 20 }],
  ["grey 5", { white: 95, black: 5 }],
  ["grey 1", { white: 99, black: 1 }],
  ["green tint 50", { white: 50, green: 50 }],
  ["green tint 20", { white: 80, green: 20 }],
  ["green tint 5", { white: 95, green: 5 }],
  ["ochre tint 50", { white: 50, ochre: 50 }],
  ["ochre tint 20", { white: 80, ochre: 20 }],
  ["ochre tint 5", { white: 95, ochre: 5 }],
  ["dark green", { green: 90, black: 10 }],
  ["dark ochre", { ochre: 90, black: 10 }],
];

// A small generator of Gaussian noise (mulberry32 and Box–Muller), so that the files come out the same every time.
let state = 20261126;
const uniform = () => {
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};
const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());

// The film by the hyperbolic formulas of 1948, the surface by Saunderson with specular excluded.
const film = (k, s, thickness, backing) => {
  const a = 1 + k / s;
  const b = Math.sqrt(a * a - 1);
  const coth = 1 / Math.tanh(b * s * thickness);
  return (1 - backing * (a - b * coth)) / (a - backing + b * coth);
};
const measured = (inside) => ((1 - surface.k1) * (1 - surface.k2) * inside) / (1 - surface.k2 * inside);
// A bare chart is read as it is; the film sees it without air between, as what lies under a surface like its own.
const underFilm = (bare) => bare / ((1 - surface.k1) * (1 - surface.k2) + surface.k2 * bare);

const rows = [];
const row = (name, backing, at) =>
  rows.push(
    [name, backing, ...nm.map((w) => (100 * Math.max(0, at(w) + 0.0008 * normal())).toFixed(2))].join(","),
  );
for (const backing of Object.keys(chart)) row(`bare ${backing}`, "", chart[backing]);
for (const [name, recipe] of films) {
  const thickness = Math.exp(0.12 * normal());
  const weighed = Object.entries(recipe).map(([id, share]) => [id, share * Math.exp(0.005 * normal())]);
  const total = weighed.reduce((sum, [, share]) => sum + share, 0);
  const mix = (key, w) => weighed.reduce((sum, [id, share]) => sum + (share / total) * toners[id][key](w), 0);
  for (const backing of Object.keys(chart)) {
    row(name, backing, (w) =>
      measured(film(mix("k", w), mix("s", w), thickness, underFilm(chart[backing](w)))),
    );
  }
}
writeFileSync(
  new URL("readings.csv", import.meta.url),
  `${["name", "backing", ...nm.map((w) => `${w} nm`)].join(",")}\n${rows.join("\n")}\n`,
);

const geometry = "d:8 specular excluded";
const names = { white: "Strong white", black: "Deep black", green: "Bluish green", ochre: "Earth yellow" };
const samplesFile = {
  format: "masstone/samples",
  version: 1,
  grid,
  surfaces: [{ geometry, ...surface }],
  reference: "white",
  toners: Object.entries(names).map(([id, name]) => ({
    id,
    name,
    role: id === "white" || id === "black" ? id : "chromatic",
  })),
  files: [{ name: "readings.csv", geometry, scale: "percent" }],
  backings: { black: "bare black", white: "bare white" },
  options: { weighingSd: { absolute: 0, relative: 0.005 }, leaveOneOut: "each sample" },
  samples: films.map(([name, recipe]) => ({ name, recipe })),
  candidates: ["green", "ochre", "black"].flatMap((id) =>
    [2, 10, 35].map((share) => ({ recipe: { white: 100 - share, [id]: share }, backing: "black and white" })),
  ),
};
const text = JSON.stringify(samplesFile, null, 2).replace(
  /\{\s+([^{}[\]]+?)\s+\}/g,
  (_, list) => `{ ${list.replace(/\s+/g, " ")} }`,
);
writeFileSync(new URL("samples.json", import.meta.url), `${text}\n`);
