import { describe, expect, it } from "vitest";
import { certify } from "../../src/certificate/prover/certify.js";
import { correct } from "../../src/correction/correct.js";
import { inferReadings } from "../../src/correction/inferReadings.js";
import type { Job, Target } from "../../src/problem/job.js";
import { colourOf } from "../fixtures/colourOf.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const job = horseboxJob();
const [{ readings: ofPanel }] = job.targets;
const byLab = (shift = 0, target: Partial<Target> = {}): Job => {
  const { card, ...rest } = job;
  return {
    ...rest,
    cards: [{ name: "card", readings: [], colours: card.readings.map((one) => colourOf(one, { shift })) }],
    targets: [
      { name: "door", readings: [], colours: ofPanel.map((one) => colourOf(one, { shift })), ...target },
    ],
  };
};
const byEye = (targetIs: object | "matches", more: Partial<Target> = {}): Job => {
  const { card: _, ...rest } = job;
  const seen = { card: "card", illuminant: "D65", scale: "iso-3668", targetIs };
  return {
    ...rest,
    cards: [{ name: "card", readings: [] }],
    targets: [{ name: "door", readings: [], comparisons: [seen], ...more }],
  } as unknown as Job;
};
const gramsOf = ({ additions }: ReturnType<typeof correct>) =>
  Object.fromEntries(additions.map(({ toner, grams }) => [toner, grams]));

describe("a job by colorimeter", () => {
  const bySpectra = correct({ ...job, targets: [{ name: "door", readings: ofPanel }] });
  const answer = correct(byLab());

  it("is corrected, and what it pours brings the spectra together as well", () => {
    expect(answer.status).toBe("corrected");
    const { additions } = answer;
    const limits = { ...job.limits, stockGrams: gramsOf(answer), maxPours: additions.length };
    const only = job.toners.toners.filter(({ id }) => !additions.some(({ toner }) => toner === id));
    const stockGrams = { ...limits.stockGrams, ...Object.fromEntries(only.map(({ id }) => [id, 0])) };
    const seen = correct({
      ...job,
      targets: [{ name: "door", readings: ofPanel }],
      limits: { ...limits, stockGrams },
    });
    expect(seen.predictions[0].deltaE00After).toBeLessThan(0.8);
    const [{ deltaE00Before }] = answer.predictions;
    expect(Math.abs(deltaE00Before - bySpectra.predictions[0].deltaE00Before)).toBeLessThan(0.35);
  });

  it("is wider in doubt than one by spectra, and says whose doubt it is", () => {
    const forecast = correct(byLab(), { forecast: true }).forecast;
    const ofSpectra = correct({ ...job, targets: [{ name: "door", readings: ofPanel }] }, { forecast: true });
    expect(forecast?.causes.panel).toBeGreaterThan(0);
    expect(ofSpectra.forecast?.causes).not.toHaveProperty("panel");
    expect(answer.expected?.deltaE00Most).toBeGreaterThan(bySpectra.expected?.deltaE00Most as number);
  });

  it("moves as far when the instrument reads card and panel alike too high", () => {
    const wayOf = ({ predictions: [{ labBefore, labTarget }] }: typeof answer) =>
      labTarget.map((value, axis) => value - labBefore[axis]);
    const off = wayOf(correct(byLab(1)));
    const apart = colourOf(ofPanel[0]).lab.map(
      (value, axis) => value - colourOf(job.card.readings[0]).lab[axis],
    );
    for (const way of [wayOf(answer), off]) {
      way.forEach((value, axis) => {
        expect(Math.abs(value - apart[axis])).toBeLessThan(0.3);
      });
    }
  });

  it("infers spectra that hold what spectrophotometers would have read, within its bands", () => {
    const { cards, targets } = inferReadings(byLab());
    const [read] = job.card.readings;
    const [inferred] = cards[0].readings;
    expect(inferred.grid.count).toBeGreaterThan(20);
    const away = inferred.reflectance.map((value, b) => {
      const place = (inferred.grid.start - read.grid.start) / read.grid.step + b;
      return Math.abs(value - read.reflectance[place]) / inferred.sd[b];
    });
    expect(away.filter((sds) => sds < 3).length).toBeGreaterThan(0.9 * away.length);
    expect(targets.map(({ name }) => name)).toEqual(["door"]);
    expect(Math.min(...targets[0].readings[0].sd)).toBeGreaterThan(0);
  });

  it("says that a panel does not look like its formula where that is another paint's", () => {
    const { toners } = job.toners;
    const formula = { [toners[0].id]: 100, [toners[1].id]: 60 };
    const { warnings } = correct(byLab(0, { formula }));
    expect(warnings.map(({ code }) => code)).toContain("unexplained-panel");
    const own = correct(byLab(0, { formula: job.pot }));
    expect(own.status).toBe("corrected");
  });

  it("has a certificate that says that targets were inferred", () => {
    expect(certify(byLab(), answer).given).toBe("inferred");
    expect(certify(job, bySpectra)).not.toHaveProperty("given");
  });

  it("is refused without light, at a geometry of no toner, and for a card that was seen elsewhere than the panel", () => {
    const { cards, ...rest } = byLab();
    const [card] = cards as NonNullable<Job["cards"]>;
    expect(() => correct(rest as Job)).toThrow(/\[missing\]/);
    const [own] = card.colours ?? [];
    const geometry = own.geometry === "45:0" ? "d:8 specular excluded" : "45:0";
    expect(() => correct({ ...rest, cards: [{ ...card, colours: [{ ...own, geometry }] }] })).toThrow(
      /\[unknown-geometry\]/,
    );
  });
});

describe("a job by eye", () => {
  it("never claims a match, proves nothing, and names the next look", () => {
    const job1 = byEye({ lighter: 2, redder: 0, yellower: 1 });
    const answer = correct(job1);
    expect(answer.status).toBe("by-eye");
    expect(answer.additions.length).toBeGreaterThan(0);
    expect(answer.expected?.withinProbability).toBeLessThan(0.9);
    expect(answer.compareNext).toMatchObject({ target: "door", card: "card" });
    expect(answer.compareNext?.illuminant).not.toBe("D65");
    const certificate = certify(job1, answer);
    expect(certificate.verdict).toBe("undetermined");
    expect(certificate.proofs).toEqual([]);
  });

  it("moves the paint the way that was said, more for a higher grade", () => {
    const lighter = [1, 2, 3].map((grade) => {
      const { predictions } = correct(byEye({ lighter: grade, redder: 0, yellower: 0 }));
      return predictions[0].labTarget[0] - predictions[0].labBefore[0];
    });
    expect(lighter[0]).toBeGreaterThan(0.2);
    expect(lighter[1]).toBeGreaterThan(lighter[0]);
    expect(lighter[2]).toBeGreaterThan(lighter[1]);
    const darker = correct(byEye({ lighter: -2, redder: 0, yellower: 0 })).predictions[0];
    expect(darker.labTarget[0]).toBeLessThan(darker.labBefore[0]);
  });

  it("pours nothing for a match, and is surer of it after a second light", () => {
    const once = correct(byEye("matches"));
    expect(once.additions).toEqual([]);
    const look = { card: "card", illuminant: "D65", scale: "iso-3668", targetIs: "matches" } as const;
    const twice = correct(byEye("matches", { comparisons: [look, { ...look, illuminant: "A" }] }));
    expect(twice.expected?.withinProbability).toBeGreaterThan(once.expected?.withinProbability as number);
  });

  it("takes a spectrum of the panel beside a look at a card that was not read", () => {
    const answer = correct(byEye({ lighter: 1, redder: 0, yellower: 0 }, { readings: ofPanel }));
    expect(answer.status).toBe("by-eye");
    expect(answer.predictions[0].labTarget).toEqual(
      correct({ ...job, targets: [{ name: "door", readings: ofPanel }] }).predictions[0].labTarget,
    );
  });

  it("learns how large differences look to a named eye, and uses it in the next job", () => {
    const look = (card: string, lighter: number) => ({
      card,
      illuminant: "D65" as const,
      scale: "iso-3668" as const,
      targetIs: { lighter, redder: 0, yellower: 0 },
      observer: "Ann",
    });
    const { card: _, ...rest } = job;
    const read = {
      ...rest,
      cards: [{ name: "card", readings: job.card.readings }],
      targets: [{ name: "door", readings: [], comparisons: [look("card", 3)] }],
    };
    const { observers } = correct(read);
    expect(observers?.Ann.sd).toBeLessThan(0.2);
    const small = correct({ ...read, observers: { Ann: { logGain: 0.7, sd: 0.05 } } }).predictions[0];
    const large = correct({ ...read, observers: { Ann: { logGain: -0.3, sd: 0.05 } } }).predictions[0];
    expect(small.deltaE00Before).toBeLessThan(large.deltaE00Before);
  });
});
