import { describe, expect, it } from "vitest";
import { isShown } from "../../../src/certificate/checker/differenceClaim.js";
import type { Lab } from "../../../src/colorimetry/lab.js";
import { mostAlong, TARGETS, WAYS } from "../mostAlong.js";

describe("a claim about CIEDE2000 near a colour", () => {
  it.each([0.1, 1, 4])("is shown a little above what colours within %d show, and refused below", (within) => {
    // The checker's ranges are wider the farther it looks: so much above the truth it must not refuse.
    const slack = within < 1 ? 1.03 : within < 2 ? 1.14 : 1.45;
    for (const target of TARGETS) {
      for (const n of WAYS) {
        const most = mostAlong(target, n, within);
        expect(isShown({ target, n, most: 0.995 * most, within }), `${target} ${n}`).toBe(false);
        expect(isShown({ target, n, most: slack * most, within }), `${target} ${n}`).toBe(true);
      }
    }
  });

  it("that takes more parts of the plane than allowed is not shown", () => {
    const [target, n, within]: [Lab, Lab, number] = [[50, 10, 10], [0, 1, 0], 1];
    const claim = { target, n, most: 1.14 * mostAlong(target, n, within), within };
    expect(isShown(claim)).toBe(true);
    expect(isShown(claim, 8)).toBe(false);
  });

  it("is nothing for no direction, never shown of what promises nothing, nor farther than it can look", () => {
    const target: Lab = [50, 10, 10];
    expect(isShown({ target, n: [0, 0, 0], most: 0, within: 1 })).toBe(true);
    expect(isShown({ target, n: [1, 0, 0], most: 0, within: 1 })).toBe(false);
    expect(isShown({ target, n: [0, 1, 0], most: 0, within: 1 })).toBe(false);
    expect(isShown({ target, n: [0, 1, 0], most: 1e9, within: 21 })).toBe(true);
    expect(isShown({ target, n: [0, 1, 0], most: 1e9, within: 21.2 })).toBe(false);
  });
});
