import { describe, expect, it } from "vitest";
import { CIE_1931 } from "../../src/colorimetry/data/cie1931.js";
import { CIE_1964 } from "../../src/colorimetry/data/cie1964.js";
import { OBSERVER, OBSERVER_IDS, type ObserverId, standardObserver } from "../../src/colorimetry/observer.js";
import { gridEnd } from "../../src/spectra/grid.js";

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

describe("the tables of the CIE observers", () => {
  it("keep the sums of their birth certificates (computed from the transcription)", () => {
    expect([CIE_1931.x, CIE_1931.y, CIE_1931.z].map((axis) => sum(axis).toFixed(8))).toEqual([
      "21.37313999",
      "21.37140785",
      "21.37866431",
    ]);
    expect([CIE_1964.x, CIE_1964.y, CIE_1964.z].map((axis) => sum(axis).toFixed(8))).toEqual([
      "23.32947969",
      "23.33207659",
      "23.33432960",
    ]);
  });

  it.each(OBSERVER_IDS)("%s sees equal energy as white, within 1e−4 (published: x = y = 1/3)", (id) => {
    const { x, y, z } = standardObserver(id);
    const all = sum(x) + sum(y) + sum(z);
    expect(Math.abs(sum(x) / all - 1 / 3)).toBeLessThan(1e-4);
    expect(Math.abs(sum(y) / all - 1 / 3)).toBeLessThan(1e-4);
  });

  it("published (from memory): ȳ of 1931 is V(λ), 1 at 555 nm and 0.503 at 510 and 610 nm", () => {
    const { grid, y } = standardObserver("1931-2");
    const at = (nm: number) => y[(nm - grid.start) / grid.step];
    expect([at(510), at(555), at(610)]).toEqual([0.503, 1, 0.503]);
    expect(Math.max(...y)).toBe(1);
  });

  it.each(OBSERVER_IDS)("%s is complete on its grid and never negative", (id) => {
    const { grid, x, y, z } = standardObserver(id);
    expect(gridEnd(grid)).toBe(830);
    for (const axis of [x, y, z]) {
      expect(axis.length).toBe(grid.count);
      expect(Math.min(...axis)).toBeGreaterThanOrEqual(0);
    }
  });
});

describe("OBSERVER", () => {
  it("names the known ones when it refuses", () => {
    const refused = expect.objectContaining({
      code: "unknown-observer",
      path: "viewing.observer",
      reason: expect.stringContaining("1931-2, 1964-10"),
    });
    expect(() => OBSERVER.check("2", "viewing.observer")).toThrow(refused);
    expect(() => standardObserver("10" as ObserverId, "viewing.observer")).toThrow(refused);
    expect(() => standardObserver("10" as ObserverId)).toThrow(expect.objectContaining({ path: "" }));
    expect(() => OBSERVER.check(undefined, "observer")).toThrow(expect.objectContaining({ code: "missing" }));
    expect(() => OBSERVER.check(10, "observer")).toThrow(expect.objectContaining({ code: "wrong-type" }));
  });
});
