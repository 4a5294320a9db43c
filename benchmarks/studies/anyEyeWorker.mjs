// A thread of anyEye.mjs: whole jobs of one way of seeing in the acrylic world, ΔE00 after every card.
import { parentPort } from "node:worker_threads";
import { acrylicWorld, GEOMETRY } from "./acrylicWorld.mjs";
import { importSources } from "./importSources.mjs";

const [correcting, randoms, weights, xyzs, labs, differences, parts, scales, directing, inferring] =
  await importSources(
    "src/correction/correct.ts",
    "src/numeric/probability/random.ts",
    "src/colorimetry/weights.ts",
    "src/colorimetry/xyz.ts",
    "src/colorimetry/lab.ts",
    "src/colorimetry/ciede2000.ts",
    "src/colorimetry/differenceParts.ts",
    "src/scene/readings/greyScale.ts",
    "src/prediction/predict.ts",
    "src/correction/inferReadings.ts",
  );
const world = acrylicWorld(process.env.MASSTONE_OPEN_DATA);
const OBSERVER = "1964-10";
const SCALE = "iso-3668";
const CARDS = 3;
/** What an eye is like: noise per difference, what it sees nothing below, sd of ln gain. */
const EYE = { noise: 0.3, threshold: 0.5, gainSd: 0.2 };
const LAB_SD = 0.15;
/** A painter pours this share of what the directions say. */
const CAREFUL = 0.7;

const lightOf = (illuminant) =>
  weights.tristimulusWeights({ grid: world.grid, illuminant, observer: OBSERVER });
const LIGHTS = { D65: lightOf("D65"), A: lightOf("A") };
const labOf = (reflectance, light = "D65") =>
  labs.labFromXyz(
    xyzs.xyzFromReflectance(Float64Array.from(reflectance), LIGHTS[light]),
    LIGHTS[light].white,
  );

/** The toners as a shop without K and S of its own knows them: 10 % and 3 nm off in shape, strength 30 %. */
function generic(toners, random) {
  const { step } = world.grid;
  return {
    ...toners,
    toners: toners.toners.map((toner) => {
      const nm = 3 * random.normal();
      const [level, tilt, bend] = [0, 1, 2].map(() => 0.06 * random.normal());
      const k = toner.k[GEOMETRY].map((_, b, all) => {
        const at = Math.min(all.length - 1, Math.max(0, b + nm / step));
        const low = Math.min(all.length - 2, Math.floor(at));
        const value = all[low] + (at - low) * (all[low + 1] - all[low]);
        const x = (2 * b) / (all.length - 1) - 1;
        return value * Math.exp(level + tilt * x + bend * (2 * x * x - 1));
      });
      return { ...toner, provenance: "generic", strengthSd: 0.3, misfit: 4, k: { [GEOMETRY]: k } };
    }),
  };
}

/** Formula, pot and panel: light took up to a third of the colours, the painter held back as much and more. */
function startOf(random, kind, lacks) {
  const formula = world.pot(random, kind);
  const white = world.ids.indexOf("TitaniumWhite");
  const panel = formula.map((grams, j) =>
    j === white ? grams : grams * Math.exp(-Math.abs(0.12 + 0.12 * random.normal())),
  );
  const pot = formula.map((grams, j) =>
    j === white ? grams * (0.8 + 0.15 * random.uniform()) : grams * (0.25 + 0.6 * random.uniform()),
  );
  if (lacks) {
    const others = [...formula.keys()].filter((j) => formula[j] === 0);
    const colour = formula.reduce((sum, grams, j) => sum + (j === white ? 0 : grams), 0);
    panel[others[random.integer(others.length)]] = 0.2 + 0.08 * random.uniform() * colour;
  }
  return { formula, panel, pot };
}

const grams = (amounts) =>
  Object.fromEntries(world.ids.flatMap((id, j) => (amounts[j] > 0 ? [[id, amounts[j]]] : [])));

function gradeOf(difference) {
  const steps = scales.stepsOf(SCALE);
  const size = Math.abs(difference);
  const step =
    steps.find(({ grade }) => size < scales.rangeOfGrade(SCALE, grade).high) ?? steps[steps.length - 1];
  return Math.sign(difference) * step.grade;
}

/** What a job carries of cards and panel, by way of seeing. */
function waysOf(random, { bias }) {
  const shift = [0, 0, 0].map(() => bias * random.normal());
  const colour = (reflectance) => ({
    geometry: GEOMETRY,
    illuminant: "D65",
    observer: OBSERVER,
    lab: labOf(reflectance).map((value, axis) => value + shift[axis] + LAB_SD * random.normal()),
    sd: LAB_SD,
  });
  const gain = Math.exp(EYE.gainSd * random.normal());
  const look = (panel, card) => {
    const seen = parts.differenceParts(labOf(card), labOf(panel));
    const said = (part) => {
      const w = gain * seen[part];
      return w + Math.hypot(EYE.noise * w, EYE.threshold) * random.normal();
    };
    return { lighter: said("lighter"), redder: said("redder"), yellower: said("yellower") };
  };
  return { colour, look };
}

const fromReading = (reflectance) => ({ geometry: GEOMETRY, grid: world.grid, reflectance });

function runJob({ arm, seed, kind, lacks = false, bias = 0, isGeneric = false, formulaKnown = true }) {
  const random = randoms.createRandom(seed);
  const toners = isGeneric ? generic(world.toners, randoms.createRandom(seed + 1)) : world.toners;
  const shop = world.shop(random, false);
  const { formula, panel: panelGrams, pot: start } = startOf(random, kind, lacks);
  const panel = shop.truth(panelGrams);
  const { colour, look } = waysOf(random, { bias });
  const viewing = { observer: OBSERVER, illuminants: [{ name: "D65" }] };
  const target = { name: "panel" };
  if (formulaKnown) target.formula = grams(formula);
  if (arm === "spectra") target.readings = [fromReading(shop.read(panel))];
  if (arm === "lab") target.colours = [colour(panel)];
  if (arm === "eye") target.comparisons = [];
  const seenPanel = colour(panel);
  const cards = [];
  let pot = start;
  const differencesAt = () =>
    ["D65", "A"].map((light) => differences.ciede2000(labOf(panel, light), labOf(shop.truth(pot), light)));
  const deltaE00 = [differencesAt()];
  const expected = [];
  const milliseconds = [];
  const inferred = [];
  for (let c = 1; c <= CARDS; c++) {
    const truth = shop.truth(pot);
    const name = `card ${c}`;
    const card = { name, pot: grams(pot) };
    if (arm === "spectra") card.readings = [fromReading(shop.read(truth))];
    if (arm === "lab") card.colours = [colour(truth)];
    const seen = look(panel, truth);
    if (arm === "eye") {
      const targetIs = Object.fromEntries(
        Object.entries(seen).map(([part, value]) => [part, gradeOf(value)]),
      );
      target.comparisons = [...target.comparisons, { card: name, illuminant: "D65", scale: SCALE, targetIs }];
    }
    cards.push(card);
    let additions;
    if (arm === "painter" || arm === "shift") {
      additions = byDirections(
        toners,
        pot,
        arm,
        arm === "painter" ? seen : { from: colour(truth).lab, to: seenPanel.lab },
      );
    } else {
      const job = {
        toners,
        viewing,
        pot: grams(pot),
        cards,
        targets: [target],
        tolerance: { edgeDeltaE00: 0.1 },
      };
      const began = process.cpuUsage().user;
      const answer = correcting.correct(job, { alternatives: false, wayOut: false });
      milliseconds.push((process.cpuUsage().user - began) / 1000);
      expected.push(answer.expected);
      if (arm === "lab" || arm === "eye") {
        const start = process.cpuUsage().user;
        inferring.inferReadings(job);
        inferred.push((process.cpuUsage().user - start) / 1000);
      }
      additions = world.ids.map((id) => answer.additions.find(({ toner }) => toner === id)?.grams ?? 0);
    }
    pot = pot.map(
      (amount, j) => amount + (additions[j] > 0 ? Math.max(0, additions[j] + 0.02 * random.normal()) : 0),
    );
    deltaE00.push(differencesAt());
  }
  return { deltaE00, expected, milliseconds, inferred };
}

/** The painter: the one or two toners that best lessen what he sees, at 70 %; or a shift of Lab by all of them. */
function byDirections(toners, pot, arm, seen) {
  const total = pot.reduce((sum, amount) => sum + amount, 0);
  const viewing = { observer: OBSERVER, illuminants: [{ name: "D65" }] };
  const at = (amounts) => directing.predict({ toners, pot: grams(amounts), viewing }).predictions?.[0].lab;
  const now = at(pot);
  const wanted =
    arm === "painter"
      ? [seen.lighter, seen.redder, seen.yellower]
      : seen.to.map((value, axis) => value - seen.from[axis]);
  const inWords = (lab) => {
    const { lighter, redder, yellower } = parts.differenceParts(now, lab);
    return arm === "painter" ? [lighter, redder, yellower] : lab.map((value, axis) => value - now[axis]);
  };
  const step = 0.02 * total;
  const moves = pot.map((_, j) => {
    const more = [...pot];
    more[j] += step;
    return inWords(at(more)).map((value) => value / step);
  });
  let best = { left: wanted.reduce((sum, value) => sum + value * value, 0), amounts: pot.map(() => 0) };
  const tried = pot.flatMap((_, i) => pot.flatMap((__, j) => (j >= i ? [[i, j]] : [])));
  for (const [i, j] of tried) {
    const [a, b] = solved(moves[i], i === j ? undefined : moves[j], wanted);
    const left = wanted.reduce(
      (sum, value, axis) => sum + (value - a * moves[i][axis] - b * moves[j][axis]) ** 2,
      0,
    );
    if (left < best.left - 1e-9) {
      const amounts = pot.map(() => 0);
      amounts[i] += a;
      amounts[j] += b;
      best = { left, amounts };
    }
  }
  const share = arm === "painter" ? CAREFUL : 1;
  return best.amounts.map((amount) => share * Math.min(amount, total));
}

/** Least squares of one or two columns, none below 0. */
function solved(x, y, wanted) {
  const dot = (p, q) => p.reduce((sum, value, i) => sum + value * q[i], 0);
  const alone = Math.max(0, dot(x, wanted) / dot(x, x));
  if (!y) return [alone, 0];
  const [xx, xy, yy, xw, yw] = [dot(x, x), dot(x, y), dot(y, y), dot(x, wanted), dot(y, wanted)];
  const determinant = xx * yy - xy * xy;
  const a = (yy * xw - xy * yw) / determinant;
  const b = (xx * yw - xy * xw) / determinant;
  return a >= 0 && b >= 0 && Number.isFinite(a) ? [a, b] : [alone, 0];
}

parentPort.on("message", (job) => {
  parentPort.postMessage({ id: job.id, outcome: runJob(job) });
});
