import { describe, expect, it } from "vitest";
import type { Form } from "../../src/core/shape/shape.js";
import { JOB_FILE, readJob } from "../../src/formats/jobFile.js";
import { checkMix } from "../../src/prediction/predict.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { smallSet } from "../toners/smallSet.js";

const mix = {
  toners: smallSet(),
  viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
  pot: { white: 1 },
};

/** The keys of a record, through the rules around it. */
const keysOf = (form: Form): readonly string[] =>
  form.kind === "rule" ? keysOf(form.shape.form) : form.kind === "record" ? Object.keys(form.fields) : [];

describe("a whole job", () => {
  const others = keysOf(JOB_FILE.form).filter((key) => !Object.hasOwn(mix, key));

  it.each(others)("may be given where a mix will do: %s is passed over", (key) => {
    const { toners, pot } = checkMix({ ...mix, [key]: "whatever" });
    expect({ toners, pot }).toEqual({ toners: mix.toners, pot: mix.pot });
  });

  it("has such keys, and a mix takes no others", () => {
    expect(others).toContain("targets");
    expect(() => checkMix({ ...mix, target: 1 })).toThrow(/^target: .*\[unknown-key\]$/);
  });
});

describe("the sizes of the belief of a job file", () => {
  const grid = { start: 400, step: 100, count: 4 };
  const readings = [{ geometry: "45:0", grid, reflectance: [0.5, 0.5, 0.5, 0.5] }];
  const text = (belief?: object) =>
    JSON.stringify({
      format: "masstone/job",
      version: 1,
      ...mix,
      toners: "toners.json",
      card: { readings },
      targets: [{ name: "door", readings }],
      belief,
    });
  const sizesWith = (set: Partial<TonerSet>, belief?: object) => {
    const { paintCurveSd, companySd } = readJob(text(belief), () => ({ ...smallSet(), ...set })).belief ?? {};
    return { paintCurveSd, companySd };
  };

  it("are the usual ones where toners behave", () => {
    expect(sizesWith({})).toEqual({ paintCurveSd: 0.03, companySd: 0 });
    expect(sizesWith({ misfit: 0.69 })).toEqual({ paintCurveSd: 0.03, companySd: 0 });
  });

  it("are larger where the line of the toners is badly behaved, 0.08 and 0.2 per unit of its misfit", () => {
    expect(sizesWith({ misfit: 1.5 })).toEqual({ paintCurveSd: 0.12, companySd: 1.5 * 0.2 });
  });

  it("are the shop's own where it gives them", () => {
    expect(sizesWith({ misfit: 1.5 }, { companySd: 0 })).toEqual({ paintCurveSd: 0.12, companySd: 0 });
  });
});
