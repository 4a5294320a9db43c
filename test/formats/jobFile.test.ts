import { describe, expect, it } from "vitest";
import type { Form } from "../../src/core/shape/shape.js";
import { JOB_FILE } from "../../src/formats/jobFile.js";
import { checkMix } from "../../src/prediction/predict.js";
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
