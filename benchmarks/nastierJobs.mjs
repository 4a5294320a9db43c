// Nasty jobs of other kinds: seen by colours and eyes, with several cards, with flake; plans, learning, characterisation.
import { createUniform } from "./inventedPaint.mjs";
import { nastyJob } from "./nastyJobs.mjs";

/** Apart from the seeds of the jobs themselves. */
const OWN_SEEDS = 1e6;

function draws(seed) {
  const uniform = createUniform(seed + OWN_SEEDS);
  const chance = (share) => uniform() < share;
  const below = (count) => Math.floor(count * uniform());
  const one = (list) => list[below(list.length)];
  const between = (low, high) => low + (high - low) * uniform();
  return { uniform, chance, below, one, between };
}

/** Colours and grades in the place of spectra, earlier cards with other pots, flake that lies as it was sprayed. */
export function nastierJob(seed) {
  const job = nastyJob(seed);
  const { chance, below, one, between } = draws(seed);
  const geometries = job.toners.surfaces.map(({ geometry }) => geometry);
  const lit = job.viewing.illuminants.map(({ name }) => name);
  const colour = () => ({
    geometry: one(geometries),
    illuminant: one([...lit, "D65", "A"]),
    observer: one(["1964-10", "1931-2"]),
    lab: [between(0, 100), between(-60, 60), between(-60, 60)],
    ...(chance(0.5) && { sd: one([0.01, 0.15, 1, 5]) }),
  });
  const comparison = (cards) => ({
    card: one(cards),
    illuminant: one([...lit, "D65"]),
    scale: "iso-3668",
    targetIs: chance(0.2)
      ? "matches"
      : {
          lighter: below(11) - 5,
          ...(chance(0.5) ? { redder: below(11) - 5 } : { moreChromatic: below(11) - 5 }),
        },
    ...(chance(0.5) && { observer: one(["Ann", "Ben"]) }),
  });
  const { card, ...rest } = job;
  const more = chance(0.6) ? 1 + below(12) : 0;
  const ids = Object.keys(job.pot);
  const cards = Array.from({ length: more + 1 }, (_, c) => ({
    name: `card ${c}`,
    ...(c < more && {
      pot: Object.fromEntries(
        ids.map((id, i) => [id, job.pot[id] * (i === 0 ? 1 : one([0.1, 0.5, 0.9, 1]))]),
      ),
    }),
    readings: card.readings.map((reading) => ({
      ...reading,
      reflectance: reading.reflectance.map((r) => Math.min(1, r * between(0.9, 1.1))),
    })),
  }));
  const names = cards.map(({ name }) => name);
  const isFlaked = chance(0.5);
  return {
    ...rest,
    toners: {
      ...job.toners,
      toners: job.toners.toners.map((toner) =>
        isFlaked && chance(0.4)
          ? {
              ...toner,
              role: "flake",
              orientation: Object.fromEntries(
                geometries.map((geometry) => [geometry, { slope: between(-8, 8), bend: between(-8, 8) }]),
              ),
            }
          : chance(0.1)
            ? { ...toner, role: "white" }
            : toner,
      ),
    },
    cards,
    targets: job.targets.map((target) => {
      const kind = one(["spectrum", "colour", "eye", "all"]);
      if (kind === "spectrum") return target;
      const { readings, ...plain } = target;
      return {
        ...plain,
        ...(kind === "all" && { readings: readings.slice(0, 1 + below(readings.length)) }),
        ...(kind !== "eye" && { colours: Array.from({ length: 1 + below(4) }, colour) }),
        ...(kind !== "colour" && {
          comparisons: Array.from({ length: 1 + below(4) }, () => comparison(names)),
        }),
        ...(chance(0.3) && { formula: job.pot }),
        ...(chance(0.1) && { texture: "coarser" }),
      };
    }),
  };
}

/** Up to 12 panels, each by spectra or colours; up to 50 formulas; cups, steps and draws of any size. */
export function nastyPlan(seed) {
  const { toners, viewing, targets, card, limits } = nastyJob(seed);
  const { chance, below, one, between } = draws(seed);
  const ids = toners.toners.map(({ id }) => id);
  const formula = (n) => ({
    name: `formula ${n}`,
    grams: Object.fromEntries([
      ["t0", 100],
      ...Array.from({ length: below(one([4, 4, 30])) }, () => [one(ids), 10 ** between(-3, 3)]),
    ]),
    ...(chance(0.5) && { readings: card.readings }),
  });
  const { potMaxGrams, scaleStepGrams } = limits;
  return {
    toners,
    viewing,
    formulas: Array.from({ length: 1 + below(one([2, 4, 50])) }, (_, n) => formula(n)),
    panels: targets.slice(0, 12).map(({ name, role, readings }) => ({ name, role, readings })),
    wantedGrams: Math.min(1e6, 10 ** between(0, 6)),
    limits: {
      ...(chance(0.3) && potMaxGrams !== undefined && { potMaxGrams: 1e6 }),
      ...(scaleStepGrams !== undefined && { scaleStepGrams }),
    },
    options: { draws: one([200, 1000, 100_000]), seed },
  };
}

/** Up to 40 pots of up to 12 cards, some of them never sprayed from that pot. */
export function nastyLearning(seed) {
  const { toners, pot, card } = nastyJob(seed);
  const { chance, below, one, between } = draws(seed);
  const ids = toners.toners.map(({ id }) => id);
  return {
    toners,
    pots: Array.from({ length: 1 + below(one([3, 40])) }, (_, p) => {
      let now = { ...pot };
      return {
        name: `pot ${p}`,
        cards: Array.from({ length: 1 + below(one([3, 12])) }, (_, c) => {
          now = { ...now };
          for (let more = below(3); more > 0; more--) {
            const id = one(ids);
            now[id] = (now[id] ?? 0) + 10 ** between(-3, 3);
          }
          return {
            name: `card ${c}`,
            pot: now,
            readings: card.readings.map((reading) => ({
              ...reading,
              reflectance: chance(0.8)
                ? reading.reflectance.map((r) => Math.min(1, r * between(0.95, 1.05)))
                : reading.reflectance.map(() => between(0.03, 1)),
            })),
          };
        }),
      };
    }),
  };
}

/** Up to 60 films of up to 12 toners, read over backings that may be alike; nonsense readings among them. */
export function nastyLadder(seed) {
  const { toners } = nastyJob(seed);
  const { chance, below, one, between } = draws(seed);
  const some = toners.toners.slice(0, 1 + below(12));
  const { grid } = toners;
  const values = (of) => Array.from({ length: grid.count }, of);
  const sample = (name, recipe) => ({
    name,
    recipe,
    ...(chance(0.3) && { thickness: 10 ** between(0, 2) }),
    readings: toners.surfaces.map(({ geometry }) => ({
      geometry,
      grid,
      reflectance: values(() => between(0.03, one([0.1, 0.9]))),
      ...(chance(0.5) && { backing: values(() => one([0.05, 0.8])) }),
    })),
  });
  return {
    grid,
    surfaces: toners.surfaces,
    toners: some.map(({ id }) => ({ id })),
    samples: [
      ...some.map(({ id }, n) => sample(`alone ${n}`, { [id]: 1 })),
      ...Array.from({ length: below(one([10, 50])) }, (_, n) =>
        sample(`mix ${n}`, {
          [one(some).id]: 1,
          ...(chance(0.5) && { [one(some).id]: 10 ** between(-3, 3) }),
        }),
      ),
    ],
    options: {
      ...(chance(0.5) && { leaveOneOut: "each sample" }),
      ...(chance(0.3) && { fitSurface: ["k2"] }),
    },
  };
}
