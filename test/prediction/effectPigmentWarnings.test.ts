import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import { predict } from "../../src/prediction/predict.js";
import { tonerDirections } from "../../src/prediction/tonerDirections.js";
import type { TonerRole } from "../../src/toners/toner.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const job = horseboxJob();
const withRole = (id: string, role: TonerRole) => ({
  ...job,
  toners: {
    ...job.toners,
    toners: job.toners.toners.map((toner) => (toner.id === id ? { ...toner, role } : toner)),
  },
});
const codes = (warnings: readonly { readonly code: string; readonly toners?: readonly string[] }[]) =>
  warnings.filter(({ code }) => code === "effect-pigments").map(({ toners }) => toners);

describe("flake and pearl in the pot", () => {
  it.each(["flake", "pearl"] as const)("%s is said to be beyond the model, by every verb", (role) => {
    const spoilt = withRole("ochre", role);
    for (const { warnings } of [predict(spoilt), tonerDirections(spoilt), correct(spoilt)]) {
      expect(codes(warnings)).toEqual([["ochre"]]);
    }
  });

  it("is no matter where there is none of it", () => {
    const unused = job.toners.toners.find(({ id }) => !(id in job.pot));
    expect(unused).toBeDefined();
    for (const one of [job, withRole(unused?.id ?? "", "flake")])
      expect(codes(predict(one).warnings)).toEqual([]);
  });
});
