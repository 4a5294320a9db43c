import { describe, expect, it } from "vitest";
import { verifyCertificate } from "../../src/certificate/checker/verifyCertificate.js";
import { certify } from "../../src/certificate/prover/certify.js";
import { correct } from "../../src/correction/correct.js";
import { createEvaluation, evaluate } from "../../src/forward/evaluate.js";
import { createForwardModel } from "../../src/forward/forwardModel.js";
import { adviseNextStep } from "../../src/planning/nextStep/adviseNextStep.js";
import type { Job, JobCard } from "../../src/problem/job.js";
import { flakeWords } from "../../src/problem/spray/flakeWords.js";
import { hasOtherPaint, panelSpray } from "../../src/problem/spray/panelSpray.js";
import { withTilt } from "../../src/problem/spray/withTilt.js";
import { readingsLying, THREE_ANGLES, withOrientation } from "../fixtures/threeAngles.js";

const SET = withOrientation();
const pot = { silver: 80, white: 0, black: 10, blue: 10 };
const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
const job = (panel: number, card = 0, change: Partial<Job> = {}): Job => ({
  toners: SET,
  viewing,
  pot,
  card: { readings: readingsLying(pot, card) },
  targets: [{ name: "door", readings: readingsLying(pot, panel) }],
  ...change,
});

describe("how the flakes of a panel lie", () => {
  const model = createForwardModel(SET, viewing, ["45as15", "45as45", "45as110"]);
  const grams = Float64Array.from([80, 0, 10, 10]);
  const panelOf = (of: Readonly<Record<string, number>>, x: number) =>
    readingsLying(of, x).map(({ reflectance }, geometry) => ({
      target: 0,
      geometry,
      weight: 1 / 3,
      reflectance: Float64Array.from(reflectance),
      isInferred: false,
    }));

  it.each([-0.2, -0.1, 0, 0.1, 0.2])("is told from how it is tinted: %f", (x) => {
    const tinted = { ...pot, black: 13, blue: 7 };
    for (const of of [pot, tinted]) {
      const card = { model, pot: grams, tilt: 0 };
      const { tilt, left } = panelSpray(card, panelOf(of, x));
      expect(Math.abs(tilt - x)).toBeLessThan(0.02);
      expect(left).toBeLessThan(1);
      expect(hasOtherPaint(card, panelOf(of, x))).toBe(of === tinted);
    }
  });

  it("is against the card's own", () => {
    const at = createEvaluation(model);
    evaluate(withTilt(model, 0.05, 0.1), grams, at);
    // e^(l(0.15) − l(0.05)) on S of the silver, whatever it is at the card.
    const lying = withTilt(model, 0, 0.15);
    const flat = withTilt(model, 0, 0.05);
    const ratio = lying.coefficients.s[0] / flat.coefficients.s[0];
    expect(withTilt(model, 0.05, 0.1).coefficients.s[0] / model.coefficients.s[0]).toBeCloseTo(ratio, 12);
    expect(withTilt(model, 0.05, 0)).toBe(model);
  });
});

describe("a diagnosis before grams", () => {
  it.each([
    [-0.15, "flatter"],
    [0.15, "steeper"],
  ])("%f: the flakes lie %s on the panel, and nothing is poured", (x, way) => {
    const answer = correct(job(x));
    expect([answer.status, answer.additions]).toEqual(["respray", []]);
    expect(answer.spray?.paintDiffers).toBe(false);
    expect(flakeWords(answer.spray)).toContain(`lie ${way} on the panel by`);
    expect(Math.abs((answer.spray?.tilt ?? 0) / x - 1)).toBeLessThan(0.2);
    const next = adviseNextStep(job(x), answer);
    expect([next.step, next.choices]).toEqual(["respray", []]);
  });

  it.each([-0.15, 0.15])("%f and another paint: grams are solved for a card sprayed so", (x) => {
    const both = job(x, 0, {
      targets: [{ name: "door", readings: readingsLying({ ...pot, blue: 18 }, x) }],
    });
    const answer = correct(both);
    expect([answer.status, answer.spray?.paintDiffers]).toEqual(["respray", true]);
    expect(answer.additions.map(({ toner }) => toner)).toEqual(["blue"]);
    // Silver and black stay, so 8 g more make that paint.
    expect(Math.abs(answer.additions[0].grams / 8 - 1)).toBeLessThan(0.25);
    for (const { deltaE00After, deltaE00Allowed } of answer.predictions)
      expect(deltaE00After).toBeLessThan(deltaE00Allowed);
    expect(answer.expected).toBeNull();
    expect(flakeWords(answer.spray, true)).toMatch(/and its paint differs too: pour, then spray the card so/);
    const next = adviseNextStep(both, answer);
    expect([next.step, next.grams]).toEqual(["respray", { blue: answer.additions[0].grams }]);
    // What is proved is of that card too: a pour that is nothing near the card as it lies now.
    const certificate = certify(both, answer);
    expect(certificate.verdict).toBe("matched");
    expect(verifyCertificate(both, answer, certificate)).toEqual({ isValid: true });
    expect(certificate.weightedDeltaE00.reached).toBeCloseTo(answer.weightedDeltaE00.after, 9);
  });

  it("grams decide where both lie alike", () => {
    const tinted = { ...pot, blue: 12 };
    const answer = correct(job(0, 0, { targets: [{ name: "door", readings: readingsLying(tinted, 0.02) }] }));
    expect(answer.spray?.verdict).toBe("alike");
    expect(answer.additions.map(({ toner }) => toner)).toContain("blue");
  });

  const twice = (first: number, second: number, panel: number) => {
    const cards: readonly JobCard[] = [first, second].map((x) => ({ pot, readings: readingsLying(pot, x) }));
    const { card: _, ...rest } = job(panel);
    return correct({ ...rest, cards });
  };

  it("a second card that was sprayed nearer is corrected by grams, one that was not is asked for again", () => {
    expect(twice(0, 0.15, 0.15).status).toBe("good-enough");
    expect(twice(0, 0.01, 0.15).status).toBe("respray");
  });

  it("spraying was not it where the angles still do not agree with a second card", () => {
    const { card: _, ...rest } = job(0);
    const cards = [0, 0.15].map((x) => ({ pot, readings: readingsLying(pot, x) }));
    // A flake that this one is not, however it lies: its own pattern over the bands at every angle.
    const readings = readingsLying(pot, 0.2).map((reading, g) => ({
      ...reading,
      reflectance: Array.from(reading.reflectance, (r, b) => r * (1 + 0.4 * Math.sin(b / 2 + g))),
    }));
    const answer = correct({ ...rest, cards, targets: [{ name: "door", readings }] });
    expect([answer.status, answer.stopReason, answer.additions]).toEqual(["other-flake", "second-card", []]);
  });

  it("unlike textures are another flake, whatever the colours", () => {
    const coarser = { name: "door", readings: readingsLying(pot, 0), texture: "coarser" as const };
    const answer = correct(job(0, 0, { targets: [{ ...coarser, readings: readingsLying(pot, 0.1) }] }));
    expect([answer.status, answer.stopReason]).toEqual(["other-flake", "texture"]);
    expect(adviseNextStep(job(0), answer).step).toBe("other-flake");
  });

  it("says nothing of spraying where the pot does not hide", () => {
    const toners = SET.toners.map((toner) =>
      toner.role === "white" ? toner : { ...toner, ...thinned(toner) },
    );
    const thin = { ...SET, toners };
    const answer = correct(job(0.15, 0, { toners: thin }));
    expect(answer.spray).toEqual({ verdict: "not-hiding", tilt: null });
    expect(answer.status).not.toBe("respray");
  });

  it("white poured into flake is said to tilt it, flake of known orientation is no warning of its own", () => {
    const lighter = { ...pot, white: 4 };
    const answer = correct(job(0, 0, { targets: [{ name: "door", readings: readingsLying(lighter, 0) }] }));
    expect(answer.additions.map(({ toner }) => toner)).toContain("white");
    const codes = answer.warnings.map(({ code }) => code);
    expect(codes).toContain("white-tilts-flake");
    expect(codes).not.toContain("effect-pigments");
  });

  it("without an orientation nothing is said", () => {
    expect("spray" in correct(job(0.15, 0, { toners: THREE_ANGLES }))).toBe(false);
  });
});

/** K and S of a hundredth: the same colours, beside white a film that shows what is under it. */
function thinned({ k, s }: (typeof SET.toners)[number]) {
  const less = (spectra: typeof k) =>
    Object.fromEntries(
      Object.entries(spectra).map(([geometry, values]) => [geometry, Array.from(values, (v) => v / 100)]),
    );
  return { k: less(k), s: less(s) };
}
