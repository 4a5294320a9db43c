// Makes the files beside it: a ladder of invented effect toners at six angles, their toner set, and a car door in silver blue
// that was sprayed flatter than the card. Films are made by the world of test/flakeWorld (oriented mirrors and platelets in
// pigment, a gun that repeats to 2 %), which knows nothing of K and S. Needs a checkout.
// Run from the root: node examples/effect/make.mjs [FOLDER to write to instead]
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { importSources } from "../../benchmarks/studies/importSources.mjs";

const [paints, angles, pigments, instruments, randoms, characterising, tables, samplesFile, surfaces] =
  await importSources(
    "test/flakeWorld/effectPaint.ts",
    "test/flakeWorld/directions.ts",
    "test/simulator/pigments.ts",
    "test/simulator/instrument.ts",
    "src/numeric/probability/random.ts",
    "src/characterisation/characterise.ts",
    "src/formats/readingsCsv.ts",
    "src/formats/samplesFile.ts",
    "src/surface/surface.ts",
  );

const random = randoms.createRandom(20261129);
const instrument = instruments.createInstrument(random);
const read = paints.createEffectReader();
const gun = () => 0.02 * random.normal();
/** Every second band: the files stay small. */
const grid = { start: pigments.GRID.start, step: 20, count: 16 };
const film = (grams, tilt, strengths = {}) => {
  const factors = read({ grams, strengths }, { tilt: tilt + gun() });
  return angles.ANGLES.map((geometry) => ({
    geometry,
    grid,
    reflectance: instrument
      .read(factors[geometry])
      .filter((_, band) => band % 2 === 0)
      .map((value) => Number(value.toFixed(4))),
  }));
};

const toners = [
  { id: "coarse-silver", name: "Coarse silver", role: "flake" },
  { id: "blue-pearl", name: "Blue pearl", role: "pearl" },
  { id: "white", name: "White", role: "white" },
  { id: "black", name: "Black", role: "black" },
  { id: "blue", name: "Blue", role: "chromatic" },
];
// How far "flatter" and "steeper" truly are, no file says.
const TURNS = [
  ["a little flatter", "flatter", -0.1],
  ["flatter", "flatter", -0.2],
  ["a little steeper", "steeper", 0.1],
  ["steeper", "steeper", 0.2],
];
const effects = ["coarse-silver", "blue-pearl"];
const ladder = [
  ...effects.flatMap((id) => [
    [`${id} 100`, { [id]: 100 }],
    [`${id} 95`, { [id]: 95, black: 5 }],
    [`${id} 85`, { [id]: 85, black: 15 }],
    [`${id} 70`, { [id]: 70, black: 30 }],
  ]),
  ...effects.flatMap((id) =>
    TURNS.map(([how, spray, tilt]) => [`${id} 70, ${how}`, { [id]: 70, black: 30 }, spray, tilt]),
  ),
  ["blue in silver 15", { "coarse-silver": 85, blue: 15 }],
  ["blue in silver 40", { "coarse-silver": 60, blue: 40 }],
  ["blue in pearl", { "blue-pearl": 60, blue: 25, black: 15 }],
  ["blue in white", { white: 70, blue: 30 }],
  ["white", { white: 100 }],
  ["grey", { white: 97, black: 3 }],
  ["black", { black: 100 }],
  ["silver with white", { "coarse-silver": 90, white: 10 }],
  ["pearl with white", { "blue-pearl": 90, white: 10 }],
  ["silver and pearl", { "coarse-silver": 60, "blue-pearl": 40 }],
].map(([name, recipe, spray, tilt = 0]) => ({ name, recipe, spray, readings: film(recipe, tilt) }));

// Records over several lines, short ones and lists of numbers on one: the files are meant to be read.
const text = (value) =>
  `${JSON.stringify(value, null, 2)
    .replace(/\[\s+(-?[\d.e-]+(?:,\s+-?[\d.e-]+)*)\s+\]/g, (_, list) => `[${list.replace(/\s+/g, " ")}]`)
    .replace(/\{\s+("[^{}[\]]{1,90}?)\s+\}/g, (_, keys) => `{ ${keys.replace(/\s+/g, " ")} }`)}\n`;
const out = process.argv[2] ?? fileURLToPath(new URL(".", import.meta.url));
const write = (name, content) => writeFileSync(join(out, name), content);

const readings = ladder.flatMap(({ name, readings: ofFilm }) => ofFilm.map((reading) => ({ name, reading })));
const csv = tables.writeReadingsCsv(readings);
write("readings.csv", csv);
const samples = {
  format: "masstone/samples",
  version: 1,
  grid,
  surfaces: angles.ANGLES.map((geometry) => surfaces.surfaceFromIndex(geometry, 1.5)),
  reference: "coarse-silver",
  toners,
  files: [{ name: "readings.csv" }],
  samples: ladder.map(({ name, recipe, spray }) => ({ name, recipe, ...(spray && { spray }) })),
};
write("samples.json", text(samples));

// What masstone says of them, without the covariances: they would be twenty times the rest.
const { job } = samplesFile.readSamples(text(samples), () => csv);
const { uncertainty: _, ...found } = characterising.characterise(job).toners;
const rounded = (spectra) =>
  Object.fromEntries(
    Object.entries(spectra).map(([key, values]) => [
      key,
      Array.from(values, (value) => Number(value.toPrecision(4))),
    ]),
  );
const short = (map) =>
  Object.fromEntries(Object.entries(map).map(([key, value]) => [key, Number(value.toFixed(3))]));
const set = {
  format: "masstone/toners",
  version: 1,
  ...found,
  surfaces: found.surfaces.map(({ geometry, ...terms }) => ({ geometry, ...short(terms) })),
  toners: found.toners.map(({ k, s, orientation, ...toner }) => ({
    ...toner,
    ...(orientation && {
      orientation: Object.fromEntries(Object.entries(orientation).map(([key, one]) => [key, short(one)])),
    }),
    k: rounded(k),
    s: rounded(s),
  })),
};
write("toners.json", text(set));

// The door: more blue and black than in the pot, and sprayed flatter by 15 %.
const pot = { "coarse-silver": 60, "blue-pearl": 15, black: 6.5, blue: 9 };
const strengths = { black: 1.08, blue: 0.94 };
const door = film({ ...pot, black: 7.4, blue: 11 }, -0.15);
const first = film(pot, 0, strengths);
const jobOf = (cards) => ({
  format: "masstone/job",
  version: 1,
  toners: "toners.json",
  viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
  pot,
  cards,
  // Half a unit is less than a gun repeats to at the face.
  tolerance: { edgeDeltaE00: 1 },
  targets: [{ name: "driver's door", role: "edge", texture: "same", readings: door }],
});
// No gun has a dial for that: the painter goes by feel, and comes near.
const second = film(pot, -0.2, strengths);
write("job.json", text(jobOf([{ name: "card 1", pot, readings: first }])));
write(
  "second-card.json",
  text(
    jobOf([
      { name: "card 1", pot, readings: first },
      { name: "card 2", pot, readings: second },
    ]),
  ),
);
