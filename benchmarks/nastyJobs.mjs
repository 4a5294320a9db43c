// Jobs that nobody would send who meant well: degenerate, huge, contradictory, fine steps, vast cups; invented, seeded.
import { predict } from "masstone";
import { createUniform } from "./inventedPaint.mjs";

const GEOMETRIES = ["d:8 specular excluded", "45as15", "45as25", "45as45", "45as75", "45as110"];
const LIGHTS = ["D65", "A", "F11", "F2", "F7", "D50"];
/** What is accepted at most: colours to match, toners × readings × bands. */
const MOST_COLOURS = 600;
const MOST_NUMBERS = 500_000;

/** Whatever the seed: a job that `correct` accepts. */
export function nastyJob(seed) {
  const uniform = createUniform(seed);
  const own = createUniform(seed + 2e6);
  const chance = (share) => uniform() < share;
  const one = (list) => list[Math.floor(list.length * uniform())];
  const between = (low, high) => low + (high - low) * uniform();
  const decades = (low, high) => 10 ** between(Math.log10(low), Math.log10(high));
  const isHuge = chance(0.15);
  const whole = (most) => 1 + Math.floor(uniform() * (isHuge ? most[1] : most[0]));

  const names = GEOMETRIES.slice(0, whole([2, 6]));
  const count = one(isHuge ? [16, 31, 61, 301] : [16, 31]);
  const grid = { start: 400, step: 300 / (count - 1), count };
  const illuminants = LIGHTS.slice(0, whole([3, 6])).map((name) => ({
    name,
    weight: one([1, 1, 0.5, 1e-6, 1000]),
  }));
  const mostReadings = Math.floor(MOST_COLOURS / illuminants.length);
  const panels = Math.min(whole([3, 100]), Math.max(1, Math.floor(mostReadings / names.length)));
  const most = Math.floor(MOST_NUMBERS / (panels * names.length * count));
  const toners = Math.max(2, Math.min(whole([14, 500]), most, 500));

  const nm = Array.from({ length: count }, (_, b) => 400 + grid.step * b);
  const hump = () => {
    const [centre, width] = [between(350, 750), decades(5, 300)];
    return (w) => Math.exp(-(((w - centre) / width) ** 2) / 2);
  };
  const curves = Array.from({ length: toners }, (_, n) => {
    const [k, s] = [hump(), hump()];
    const kind =
      n === 0 ? "plain" : one(["plain", "plain", "plain", "clear", "black", "white", "flat", "twin"]);
    if (kind === "clear") return { k: () => 0, s: () => 0 };
    if (kind === "black") return { k: () => decades(1, 1e3), s: () => 0 };
    if (kind === "white") return { k: () => 0, s: () => 1 };
    if (kind === "flat") return { k: () => 0.5, s: () => 0.5 };
    const [height, floor] = [decades(1e-4, 10), decades(1e-4, 1)];
    return { k: (w) => 1e-4 + height * k(w), s: (w) => floor * (0.1 + s(w)), isTwin: kind === "twin" };
  });
  curves.forEach(({ isTwin }, n) => {
    if (isTwin) curves[n] = curves[Math.floor(n * uniform())];
  });
  const byAngle = (of) => Object.fromEntries(names.map((name) => [name, nm.map(of)]));
  const set = {
    grid,
    surfaces: names.map((geometry) => ({ geometry, k1: 0.04, k2: one([0, 0.4, 0.6]) })),
    toners: curves.map(({ k, s }, n) => ({
      id: `t${n}`,
      k: byAngle(k),
      s: byAngle(s),
      ...(chance(0.1) && { strengthSd: one([0, 10]) }),
    })),
  };
  const reflectance = () => {
    const kind = one([
      "hump",
      "hump",
      "hump",
      "hump",
      "hump",
      "hump",
      "hump",
      "dark",
      "bright",
      "noise",
      "step",
    ]);
    const shape = hump();
    return nm.map((w, b) => {
      if (kind === "dark") return 0.0401;
      if (kind === "bright") return 0.9999;
      if (kind === "noise") return between(0.03, 1);
      if (kind === "step") return b % 2 === 0 ? 0.05 : 0.9;
      return 0.05 + 0.8 * shape(w);
    });
  };
  const readings = (of = reflectance) => names.map((geometry) => ({ geometry, grid, reflectance: of() }));
  const pot = { t0: decades(1e-3, 1e5) };
  for (let more = Math.floor(5 * uniform()); more > 0; more--) {
    pot[`t${Math.floor(toners * uniform())}`] ??= decades(1e-6, 1e3);
  }
  const inPot = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const some = (share, of) =>
    Object.fromEntries(set.toners.filter(() => chance(share)).map(({ id }) => [id, of()]));
  // Few of the nasty ones are beyond hope: near the card most of the work is done.
  // Most cards come from their pots: of the others nothing is worked out.
  const card = own() < 0.75 ? sprayed({ toners: set, pot }, readings(), own) : readings();
  const near = () =>
    card.map((reading) => {
      const off = between(-0.2, 0.2);
      return {
        ...reading,
        reflectance: reading.reflectance.map((r) => Math.min(1, r * (1 + off * uniform()))),
      };
    });
  return {
    toners: set,
    viewing: { observer: one(["1964-10", "1931-2"]), illuminants },
    pot,
    card: { readings: card },
    targets: Array.from({ length: panels }, (_, p) => ({
      name: `p${p}`,
      role: p > 0 && chance(0.3) ? "blend" : "edge",
      weight: p > 0 ? one([0, 1, 1e-6, 1000]) : 1,
      readings: chance(0.7) ? near() : readings(),
    })),
    ...(chance(0.3) && { objective: "minimax" }),
    ...(chance(0.2) && { tolerance: { edgeDeltaE00: decades(1e-6, 10), blendDeltaE00: 10 } }),
    limits: {
      ...(chance(0.8) && { potMaxGrams: Math.min(1e6, inPot * one([0.5, 1, 1.0001, 1.5, 10, 1e6])) }),
      ...(chance(0.8) && { scaleStepGrams: one([0, 1e-9, 1e-4, 0.01, 0.1, 1, 1000]) }),
      ...(chance(0.2) && { minPourGrams: decades(1e-4, 1e3) }),
      ...(chance(0.2) && { gramsPerDrop: some(0.4, () => decades(1e-6, 1)) }),
      ...(chance(0.6) && { maxPours: one([1, 2, 3, 4, 6, 20, 500]) }),
      ...(chance(0.4) && { pourWorthDeltaE00: one([0, 1, 100]) }),
      ...(chance(0.3) && { paintWorthDeltaE00: one([0, 1, 100]) }),
      ...(chance(0.3) && { stockGrams: some(0.5, () => one([0, 1e-6, 1, 1e6])) }),
    },
  };
}

/** Readings of a card of a pot as the package predicts it, a little off; as they were where it predicts none. */
function sprayed({ toners, pot }, otherwise, uniform) {
  let read;
  try {
    read = predict({
      toners,
      pot,
      viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
    }).readings;
  } catch {
    return otherwise;
  }
  const off = 10 ** (-4 + 3 * uniform());
  return otherwise.map((reading) => {
    const { reflectance } = read.find(({ geometry }) => geometry === reading.geometry) ?? reading;
    return {
      ...reading,
      reflectance: Array.from(reflectance, (r) => Math.min(1, r * (1 + off * (2 * uniform() - 1)))),
    };
  });
}

/** What of an answer breaks a limit of its job. */
export function breaches({ pot, limits, toners }, { additions, potAfter }) {
  const inPot = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const { potMaxGrams = 10 * inPot, scaleStepGrams = 0.1, gramsPerDrop = {}, stockGrams = {} } = limits;
  const { maxPours = 4, minPourGrams = 0 } = limits;
  const poured = additions.reduce((sum, { grams }) => sum + grams, 0);
  const near = (a, b) => Math.abs(a - b) <= 1e-6 * Math.max(1e-3, Math.abs(a), Math.abs(b));
  const found = [];
  if (poured > Math.max(0, potMaxGrams - inPot) * (1 + 1e-9) + 1e-9) found.push("cup");
  if (additions.length > maxPours) found.push("pours");
  for (const { toner, grams, drops } of additions) {
    const drop = gramsPerDrop[toner];
    const step = drop ?? scaleStepGrams;
    if (!(grams > 0)) found.push("sign");
    if (grams > (stockGrams[toner] ?? Number.POSITIVE_INFINITY) * (1 + 1e-9)) found.push("stock");
    if (step > 0 && !near(Math.round(grams / step) * step, grams)) found.push("step");
    if (drop === undefined ? drops !== null : !near(drops * drop, grams)) found.push("drops");
    if (drop === undefined && grams < minPourGrams * (1 - 1e-6)) found.push("least pour");
    if (!near(potAfter[toner], (pot[toner] ?? 0) + grams)) found.push("pot");
  }
  if (Object.keys(potAfter).some((id) => !toners.toners.some((toner) => toner.id === id))) found.push("id");
  return found;
}
