// Makes toners.json beside it: generic toners for shops without K and S of their own. Most are measured pigments in
// epoxy (MASSTONE_OPEN_DATA/pigments-in-epoxy, see NOTICE); the earth colours, the red and the clear are inventions.
// Run: MASSTONE_OPEN_DATA=folder node examples/starter-set/make.mjs
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const grid = { start: 400, step: 10, count: 31 };
const nm = Array.from({ length: grid.count }, (_, i) => grid.start + i * grid.step);
const table = (file) => {
  const [head, ...rows] = readFileSync(
    join(process.env.MASSTONE_OPEN_DATA, "pigments-in-epoxy", file),
    "utf8",
  )
    .trim()
    .split(/\r?\n/)
    .map((line) => line.split(","));
  const at = new Map(rows.map((row) => [Number(row[0]), row]));
  return (pigment) => nm.map((w) => Number(at.get(w)[head.indexOf(pigment)]));
};
const [absorption, scattering] = [table("absorption.csv"), table("reduced-scattering.csv")];

/** No pigment absorbs nothing at all: a K of 0 could not be in doubt. Share of the largest K. */
const LEAST = 0.0005;
const round = (value) => Number(value.toPrecision(4));

// K = 2 μa and S = 0.75 μs′: the textbook conversion for dilute pigment.
const measured = (pigment) => {
  const k = absorption(pigment).map((value) => 2 * value);
  const least = LEAST * Math.max(...k);
  return { k: k.map((value) => Math.max(least, value)), s: scattering(pigment).map((value) => 0.75 * value) };
};
const edge = (at, width, high, low, s) => ({
  k: nm.map((w) => low + (high - low) / (1 + Math.exp((w - at) / width))),
  s: nm.map(() => s),
});
const TONERS = [
  ["white", "White", "white", measured("PW6")],
  ["black", "Black", "black", measured("Black")],
  ["blue", "Blue, greenish", "chromatic", measured("PB15:3")],
  ["green", "Green, bluish", "chromatic", measured("PG7")],
  ["violet", "Violet", "chromatic", measured("PV23")],
  ["magenta", "Magenta", "chromatic", measured("PR122")],
  ["rose", "Rose", "chromatic", measured("PV19")],
  ["lemon", "Yellow, greenish", "chromatic", measured("PY3")],
  ["yellow", "Yellow", "chromatic", measured("PY74")],
  ["deep-yellow", "Yellow, reddish", "chromatic", measured("PY65")],
  ["orange", "Orange, dull", "chromatic", measured("PO73")],
  ["red", "Red", "chromatic", edge(590, 9, 0.9, 0.004, 0.03)],
  ["ochre", "Yellow oxide", "chromatic", edge(505, 18, 0.6, 0.02, 0.09)],
  ["red-oxide", "Red oxide", "chromatic", edge(573, 14, 1.1, 0.03, 0.12)],
  ["clear", "Clear binder", "binder", { k: nm.map(() => 0), s: nm.map(() => 0) }],
];
const GEOMETRIES = ["45:0", "d:8 specular included"];
const everywhere = (values) =>
  Object.fromEntries(GEOMETRIES.map((geometry) => [geometry, values.map(round)]));
const toners = TONERS.map(([id, name, role, { k, s }]) => ({
  id,
  name,
  role,
  provenance: "generic",
  strengthSd: 0.3,
  misfit: 4,
  k: everywhere(k),
  s: everywhere(s),
}));
const file = {
  format: "masstone/toners",
  version: 1,
  grid,
  surfaces: [
    { geometry: "45:0", k1: 0.04, k2: 0.6 },
    { geometry: "d:8 specular included", k1: 0.04, k2: 0.6 },
  ],
  toners,
};
const lines = JSON.stringify(file)
  .replaceAll('{"id"', '\n{"id"')
  .replaceAll('"k":{', '\n "k":{')
  .replaceAll('"s":{', '\n "s":{');
writeFileSync(new URL("toners.json", import.meta.url), `${lines}\n`);
