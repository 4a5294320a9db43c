// Texts and records spoilt at random, handed to every door that takes them. Each must end in an answer or in an
// InputError with a code; anything else is printed and fails the run. Prints how many ended how, and the longest
// processor time. Run: npm run build && node benchmarks/mutatedInputs.mjs [number, 60000] [seed, 1]
import { readFileSync } from "node:fs";
import { correct, isInputError, predict, tonerDirections } from "masstone";
import { characterise } from "masstone/characterisation";
import * as colour from "masstone/colorimetry";
import * as formats from "masstone/formats";
import { jobState, learnStrengths, planHoldBack } from "masstone/planning";

const NUMBER = Number(process.argv[2] ?? 60_000);
let state = Number(process.argv[3] ?? 1) >>> 0;
/** Mulberry32: public domain, 32 bits of state. */
function random() {
  state = (state + 0x6d2b79f5) >>> 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
}
const below = (count) => Math.floor(random() * count);
const oneOf = (list) => list[below(list.length)];

const example = (name) => readFileSync(new URL(`../examples/${name}`, import.meta.url), "utf8");
const toners = JSON.parse(example("horsebox/toners.json"));
const job = { ...JSON.parse(example("horsebox/job.json")), toners };
const plan = { ...JSON.parse(example("horsebox/plan.json")), toners };
/** Nobody has a spectrum of the panels: colours, an eye, two cards, and a toner whose flakes lie as they were sprayed. */
const [angle] = toners.surfaces.map(({ geometry }) => geometry);
const seen = { geometry: angle, illuminant: "D65", observer: "1964-10", lab: [50, -5, 8], sd: 0.15 };
const graded = {
  card: "second",
  illuminant: "A",
  scale: "iso-3668",
  targetIs: { lighter: -1, redder: 2 },
  observer: "Ann",
};
const { card: onlyCard, targets: panels, ...bench } = job;
const seenOtherwise = {
  ...bench,
  toners: {
    ...toners,
    toners: toners.toners.map((toner, j) =>
      j === 1 ? { ...toner, role: "flake", orientation: { [angle]: { slope: 1, bend: -0.5 } } } : toner,
    ),
  },
  cards: [
    { name: "first", ...onlyCard, pot: { ...job.pot } },
    { name: "second", ...onlyCard, colours: [seen] },
  ],
  targets: [
    { name: panels[0].name, colours: [seen, { ...seen, illuminant: "A" }], formula: job.pot },
    {
      name: "by eye",
      comparisons: [graded, { ...graded, illuminant: "D65", targetIs: "matches" }],
      texture: "same",
    },
  ],
  observers: { Ann: { logGain: 0.1, sd: 0.2 } },
};
const learning = {
  toners,
  pots: [
    { name: "one", date: "2026-03-31", cards: [{ name: "a", pot: job.pot, readings: onlyCard.readings }] },
  ],
};
const samples = JSON.parse(example("ladder/samples.json"));
const { readings } = formats.readReadingsCsv(example("script/readings.csv"), {
  geometry: "d:8 specular excluded",
  scale: "percent",
});
const record = example("horsebox/job.record");
const askedFor = () => formats.readToners(JSON.stringify(toners));
const findText = () => example("script/readings.csv");

const NONSENSE = [
  null,
  "",
  "white",
  true,
  [],
  {},
  -1,
  0,
  1,
  1e308,
  -1e-300,
  5e-324,
  1e6,
  42.5,
  [[]],
  "__proto__",
  "constructor",
  "\u001b[2J",
  "a\u202eb",
  "../../etc/passwd",
  { toString: null },
  [null],
  1e21,
  -0,
  0.1,
  100,
  "2026-02-30",
];
const SCRAPS = [
  '"',
  "\n",
  "\0",
  "<",
  "&x;",
  ",",
  ";",
  "\t",
  "#",
  "]]>",
  "\uD800",
  "{",
  "[",
  "1e999",
  "NaN",
  "-",
  "=",
  "'",
  "\u202e",
  "\r",
];

/** Every place in a value, of long lists the first three entries. */
function places(value, path = []) {
  if (typeof value !== "object" || value === null) return [path];
  const entries = Array.isArray(value) ? [...value.slice(0, 3).entries()] : Object.entries(value);
  return [path, ...entries.flatMap(([key, inner]) => places(inner, [...path, key]))];
}

function spoiltValue(value, everywhere) {
  const copy = structuredClone(value);
  for (let times = 1 + below(3); times > 0; times--) {
    const path = oneOf(everywhere);
    if (path.length === 0) continue;
    const parent = path.slice(0, -1).reduce((at, key) => at?.[key], copy);
    if (typeof parent !== "object" || parent === null) continue;
    const key = path.at(-1);
    const how = below(5);
    if (how === 0) Array.isArray(parent) ? parent.splice(Number(key), 1) : delete parent[key];
    else if (how === 1 && Array.isArray(parent))
      parent.push(structuredClone(oneOf([...parent, oneOf(NONSENSE)])));
    else if (how === 2)
      parent[key] = structuredClone(
        places(value).length > 0 ? oneOf([value, ...Object.values(value)]) : null,
      );
    else if (how === 3 && typeof parent[key] === "number")
      parent[key] *= oneOf([-1, 0, 1e-9, 1e9, 100, 0.01, 1.5]);
    else parent[key] = structuredClone(oneOf(NONSENSE));
  }
  return copy;
}

function spoiltText(text) {
  let spoilt = text;
  for (let times = 1 + below(3); times > 0; times--) {
    const at = below(spoilt.length + 1);
    const to = at + below(40);
    const how = below(5);
    if (how === 0) spoilt = spoilt.slice(0, at);
    else if (how === 1) spoilt = spoilt.slice(0, to) + spoilt.slice(at);
    else if (how === 2) spoilt = spoilt.slice(0, at) + spoilt.slice(to);
    else if (how === 3) spoilt = spoilt.slice(0, at) + oneOf(SCRAPS) + spoilt.slice(at);
    else {
      const turned = String.fromCharCode((spoilt.charCodeAt(at) || 0) ^ (1 << below(8)));
      spoilt = spoilt.slice(0, at) + turned + spoilt.slice(at + 1);
    }
  }
  return spoilt;
}

/** A JSON value spoilt inside (mostly) or in its text. */
const json = (value) => {
  const everywhere = places(value);
  const text = JSON.stringify(value);
  return () => (below(4) > 0 ? JSON.stringify(spoiltValue(value, everywhere)) : spoiltText(text));
};
/** The value itself, spoilt: for what has no file of its own. */
const value = (whole) => {
  const everywhere = places(whole);
  return () => spoiltValue(whole, everywhere);
};
const plain = (text) => () => spoiltText(text);

const { additions, status } = correct(formats.readJob(JSON.stringify(job), askedFor));
const ANSWER = {
  kind: "answer",
  library: "0.0.0",
  answer: { format: "masstone/correction", additions, status },
};

/** A record whose lines are sealed after they were spoilt: what stands in them has to be refused by itself. */
function sealed() {
  const entries = [...formats.readRecord(record).entries, { entry: ANSWER }];
  const spoilt = spoiltValue(
    entries.map(({ entry }) => entry),
    [
      [0],
      [1],
      [2],
      ...places(entries[0].entry, [0]),
      ...places(entries[1].entry, [1]),
      ...places(entries.at(-1).entry, [entries.length - 1]),
    ],
  );
  let end = formats.NO_ENTRIES;
  let text = "";
  for (const entry of Object.values(spoilt)) {
    const next = formats.recordLine({ end }, entry, "2026-03-31T14:05:00.000Z");
    text += next.line;
    end = next.end;
  }
  return text;
}

const COLOURS = [
  [50, 10, -10],
  [95, 100, 108],
  [Number.NaN, 0, 0],
  [1, 2],
  "grey",
  null,
  undefined,
  [1e300, 0, 0],
  [0, 0, 0],
  {},
  [50, "0", 0],
  new Float64Array(3),
  [1e6, -1e6, 1e6],
];
const colours = () => [
  oneOf(Object.values(colour).filter((one) => typeof one === "function")),
  Array.from({ length: below(4) }, () => oneOf(COLOURS)),
];

/** What is spoilt, what is done with it, and how often among a hundred. */
const KINDS = {
  "job, corrected": [json(job), (text) => correct(formats.readJob(text, askedFor, findText)), 6],
  "job, predicted": [json(job), (text) => predict(formats.readMix(text, askedFor)), 10],
  "job, directions": [
    json(job),
    (text) => tonerDirections(formats.readMixOnCard(text, askedFor, findText)),
    8,
  ],
  "job, seen otherwise": [json(seenOtherwise), (text) => correct(formats.readJob(text, askedFor)), 6],
  learning: [value(learning), (job) => learnStrengths(job), 4],
  toners: [json({ format: "masstone/toners", version: 1, ...toners }), formats.readToners, 10],
  plan: [json(plan), (text) => formats.readPlan(text, askedFor), 8],
  "plan, planned": [
    json({ ...plan, options: { draws: 20 } }),
    (text) => planHoldBack(formats.readPlan(text, askedFor)),
    1,
  ],
  samples: [json(samples), (text) => formats.readSamples(text, () => example("ladder/readings.csv")), 8],
  "samples, characterised": [
    json(samples),
    (text) => characterise(formats.readSamples(text, () => example("ladder/readings.csv")).job),
    0.2,
  ],
  record: [plain(record), (text) => jobState(formats.readRecord(text).entries), 8],
  "record, sealed": [sealed, (text) => jobState(formats.readRecord(text).entries), 8],
  csv: [plain(formats.writeReadingsCsv(readings)), (text) => formats.readReadingsCsv(text), 8],
  cgats: [plain(formats.writeReadingsCgats(readings)), (text) => formats.readReadingsCgats(text), 8],
  cxf3: [plain(formats.writeReadingsCxf3(readings)), (text) => formats.readReadingsCxf3(text), 8],
  readings: [json(JSON.parse(formats.writeReadingsJson(readings))), formats.readReadingsJson, 8],
  "doors for colour": [colours, ([of, list]) => of(...list), 8],
};
const shares = Object.values(KINDS).map(([, , share]) => share);
const all = shares.reduce((sum, share) => sum + share);

console.log("| what | spoilt | answered | refused | codes | longest |\n|---|---|---|---|---|---|");
let uncoded = 0;
let total = 0;
for (const [name, [spoil, use, share]] of Object.entries(KINDS)) {
  const count = Math.round((NUMBER * share) / all);
  const codes = new Map();
  let answered = 0;
  let longest = 0;
  for (let i = 0; i < count; i++) {
    const input = spoil();
    const start = process.cpuUsage();
    try {
      use(input);
      answered++;
    } catch (error) {
      const isCoded = isInputError(error) && /^[a-z-]+$/.test(error.code);
      codes.set(error.code, (codes.get(error.code) ?? 0) + 1);
      if (!isCoded && uncoded++ < 10) console.error(name, error, String(JSON.stringify(input)).slice(0, 300));
    }
    const { user, system } = process.cpuUsage(start);
    longest = Math.max(longest, (user + system) / 1000);
  }
  total += count;
  console.log(
    `| ${name} | ${count} | ${answered} | ${count - answered} | ${codes.size} | ${longest.toFixed(0)} ms |`,
  );
}
console.log(`\n${total} spoilt inputs, ${uncoded} that ended in no answer and no coded error.`);
process.exitCode = uncoded > 0 ? 1 : 0;
