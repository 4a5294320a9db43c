import { importSources } from "./importSources.mjs";

const THREE = ["45as15", "45as45", "45as110"];
const GUN_SD = 0.02;
const VIEWING = { observer: "1964-10", illuminants: [{ name: "D65" }] };

/** Jobs of effect paint in a world of other physics, with toners from the ladder of a seed. */
export async function createFlakeJobs(ladderSeed) {
  const [
    paints,
    draws,
    randoms,
    shops,
    instruments,
    characterising,
    correcting,
    predicting,
    problems,
    jobs,
    models,
    evaluating,
    tying,
    pots,
    difference,
    lab,
    xyz,
    weighing,
  ] = await importSources(
    "test/flakeWorld/effectPaint.ts",
    "test/flakeWorld/effectJobs.ts",
    "src/numeric/probability/random.ts",
    "test/flakeWorld/effectShop.ts",
    "test/simulator/instrument.ts",
    "src/characterisation/characterise.ts",
    "src/correction/correct.ts",
    "src/prediction/predict.ts",
    "src/problem/problem.ts",
    "src/problem/job.ts",
    "src/forward/forwardModel.ts",
    "src/forward/evaluate.ts",
    "src/forward/anchor.ts",
    "src/toners/pot.ts",
    "src/colorimetry/ciede2000.ts",
    "src/colorimetry/lab.ts",
    "src/colorimetry/xyz.ts",
    "src/colorimetry/weights.ts",
  );
  const read = paints.createEffectReader();
  const ladder = shops.characterisationJob(read, randoms.createRandom(ladderSeed));
  const { toners } = characterising.characterise(ladder);
  const untilted = { ...toners, toners: toners.toners.map(({ orientation: _, ...toner }) => toner) };
  const angles = toners.surfaces.map(({ geometry }) => geometry);
  const weights = weighing.tristimulusWeights({ grid: toners.grid, illuminant: "D65", observer: "1964-10" });
  const labOf = ({ reflectance }) =>
    lab.labFromXyz(xyz.xyzFromReflectance(reflectance, weights), weights.white);
  const apart = (a, b) => a.map((one, i) => difference.ciede2000(labOf(one), labOf(b[i])));
  const worst = (a, b) => Math.max(...apart(a, b));
  const some = (readings) => readings.filter(({ geometry }) => THREE.includes(geometry));
  const poured = ({ additions }) => additions.reduce((sum, { grams }) => sum + grams, 0);
  const ask = (pot, cards, panel, set = toners) =>
    correcting.correct(
      { toners: set, viewing: VIEWING, pot, cards, targets: [{ name: "panel", readings: panel }] },
      { alternatives: false, wayOut: false },
    );
  const told = (answer) => ({
    status: answer.status,
    verdict: answer.spray?.verdict,
    tilt: answer.spray?.tilt,
    grams: poured(answer),
    leftOut: answer.warnings.some(({ code }) => code === "angle-left-out"),
  });

  /**
   * What a painter does who is told so, card after card; `left` is the difference of each card from the panel. `sprayFirst`:
   * pours nothing before a card that is sprayed otherwise.
   */
  function follow({ pot, card, panel, film, set, gun, cards: count, sprayFirst = false }) {
    let now = pot;
    let tilt = 0;
    const cards = [{ pot, readings: card }];
    const steps = [];
    const left = [];
    for (let step = 0; step < count; step++) {
      const answer = ask(now, cards, panel, set);
      steps.push(told(answer));
      if (answer.status === "other-flake") break;
      if (answer.status === "respray") tilt += answer.spray.tilt;
      if (answer.status !== "respray" || !sprayFirst) now = answer.potAfter;
      const readings = film(now, tilt, gun);
      cards.push({ pot: now, readings });
      left.push(worst(readings, panel));
    }
    return {
      before: worst(card, panel),
      steps,
      left,
      grams: steps.reduce((sum, { grams }) => sum + grams, 0),
    };
  }

  /** What the next film reads that holds a step more than the pot, by the tie to the card, by each angle for itself, by toners alone. */
  function predictedSteps(pot, card, after, reading) {
    const job = jobs.checkJob({
      toners,
      viewing: VIEWING,
      pot,
      card: { readings: card },
      targets: [{ name: "step", readings: reading }],
    });
    const { problem } = problems.prepareProblem(job);
    const bare = models.createForwardModel(problem.model.set, VIEWING, problem.model.geometries);
    const inOrder = (grams) => pots.gramsInOrder(grams, problem.model.set.toners);
    const readOfCard = Float64Array.from(
      problem.model.geometries.flatMap((geometry) =>
        Array.from(card.find((one) => one.geometry === geometry).reflectance),
      ),
    );
    const off = (model) => {
      const at = evaluating.createEvaluation(model);
      evaluating.evaluate(model, inOrder(after), at);
      return Math.max(
        ...model.geometries.map((geometry, g) => {
          const aim = labOf(reading.find((one) => one.geometry === geometry));
          return difference.ciede2000(Array.from(at.lab.subarray(3 * g, 3 * g + 3)), aim);
        }),
      );
    };
    return {
      belief: off(problem.model),
      anchor: off(tying.anchorToCard(bare, inOrder(pot), readOfCard)),
      alone: off(bare),
    };
  }

  /** The pot, its cans, the panel's paint, a step of the gun and a shop of the job of a seed. */
  function begin(seed) {
    const random = randoms.createRandom(seed);
    const pot = draws.drawFormula(random);
    const strengths = draws.drawStrengths(random);
    const other = draws.anotherPaint(pot, random);
    const grades = draws.unknownGrade(pot, random);
    const step = (random.uniform() < 0.5 ? -1 : 1) * (0.1 + 0.1 * random.uniform());
    const instrument = instruments.createInstrument(random);
    const film = (grams, tilt, gun = GUN_SD, more = {}) =>
      shops.readAngles(
        read({ grams, strengths, ...more }, { tilt: tilt + gun * random.normal() }),
        instrument,
      );
    return { random, pot, other, grades, step, film };
  }

  /** A panel of the pot's paint with another grade of silver; undefined of a pot without silver. */
  function runGrade(seed) {
    const { pot, grades, film } = begin(seed);
    if (!grades) return undefined;
    const panel = film(pot, 0, GUN_SD, { grades });
    return follow({ pot, card: film(pot, 0), film, gun: GUN_SD, set: toners, panel, cards: 2 });
  }

  function runJob(seed) {
    const { random, pot, other, grades, step, film } = begin(seed);
    const panelOf = (grams, tilt, gun = GUN_SD) => film(grams, tilt, gun, { strengths: {} });
    const set = toners;
    const exact = { pot, card: film(pot, 0, 0), film, gun: 0 };
    const usual = { pot, card: film(pot, 0), film, gun: GUN_SD };
    const tinted = panelOf(other, 0, 0);
    const tintedByGun = panelOf(other, 0);
    const sprayed = film(pot, step);
    const both = panelOf(other, step);
    const again = film(pot, 0);
    const named = Object.keys(pot);
    const more = named[named.length - 1];
    const stepped = { ...pot, [more]: pot[more] * (1.15 + 0.2 * random.uniform()) };
    // A card that reads what the toners say: nothing of it is learnt.
    const { readings: asPredicted } = predicting.predict({ toners, viewing: VIEWING, pot });
    const blank = asPredicted.map(({ geometry, grid, reflectance }) => ({ geometry, grid, reflectance }));
    const unanchored = ask(pot, [{ pot, readings: blank }], tinted, untilted);
    const graded = grades && film(pot, 0, GUN_SD, { grades });
    const lacking = ["red", "blue", "yellow", "green", "violet"].find((id) => !(id in pot));
    const withMore = panelOf({ ...other, [lacking]: 6 }, step);
    return {
      step,
      floor: { worst: worst(usual.card, again), by: apart(usual.card, again) },
      exact: follow({ ...exact, set, panel: tinted, cards: 2 }),
      exactAlone: follow({ ...exact, set: untilted, panel: tinted, cards: 2 }),
      unanchored: { left: [worst(film(unanchored.potAfter, 0, 0), tinted)] },
      gun: follow({ ...usual, set, panel: tintedByGun, cards: 2 }),
      gunAlone: follow({ ...usual, set: untilted, panel: tintedByGun, cards: 2 }),
      alike: told(ask(pot, [{ pot, readings: usual.card }], again)),
      spray: follow({ ...usual, set, panel: sprayed, cards: 2 }),
      sprayAlone: follow({ ...usual, set: untilted, panel: sprayed, cards: 1 }),
      three: told(ask(pot, [{ pot, readings: some(usual.card) }], some(sprayed))),
      both: follow({ ...usual, set, panel: both, cards: 2 }),
      known: predictedSteps(pot, exact.card, stepped, film(stepped, 0, 0)),
      ...(graded && { grade: follow({ ...usual, set, panel: graded, cards: 2 }) }),
      bothInTurn: follow({ ...usual, set, panel: both, cards: 2, sprayFirst: true }),
      more: follow({ ...usual, set, panel: withMore, cards: 2 }),
      moreInTurn: follow({ ...usual, set, panel: withMore, cards: 2, sprayFirst: true }),
    };
  }
  return { runJob, runGrade, films: ladder.samples.length, angles };
}
