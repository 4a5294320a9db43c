import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { covers, DEFAULT_GRID, GRID, gridEnd, sameGrid, wavelengths } from "../../src/spectra/grid.js";

describe("GRID", () => {
  it("takes the instruments' usual grid", () => {
    expect(GRID.check({ start: 400, step: 10, count: 31 }, "grid")).toEqual(DEFAULT_GRID);
    expect(gridEnd(DEFAULT_GRID)).toBe(700);
  });

  it.each([
    [{ start: 350, step: 10, count: 31 }, "out-of-range", "grid.start"],
    [{ start: 400, step: 10, count: 45 }, "out-of-range", "grid"],
    [{ start: 400, step: 0, count: 31 }, "out-of-range", "grid.step"],
    [{ start: 400, step: -10, count: 31 }, "out-of-range", "grid.step"],
    [{ start: 400, step: 10, count: 2 }, "out-of-range", "grid.count"],
    [{ start: 400, step: 10, count: 30.5 }, "wrong-type", "grid.count"],
    [{ start: Number.NaN, step: 10, count: 31 }, "not-finite", "grid.start"],
    [{ start: 400, step: 10 }, "missing", "grid.count"],
    [{ start: 400, step: 10, count: 31, end: 700 }, "unknown-key", "grid.end"],
    [[400, 10, 31], "wrong-type", "grid"],
  ])("refuses %j with %s at %s", (value, code, path) => {
    expect(() => GRID.check(value, "grid")).toThrow(expect.objectContaining({ code, path }));
  });
});

describe("grids", () => {
  const grids = fc.record({
    start: fc.integer({ min: 360, max: 500 }),
    step: fc.constantFrom(0.1, 1, 3.3, 5, 10),
    count: fc.integer({ min: 3, max: 31 }),
  });

  it("list as many wavelengths as they say, from start to end", () => {
    fc.assert(
      fc.property(grids, (grid) => {
        const nm = wavelengths(grid);
        expect(nm.length).toBe(grid.count);
        expect(nm[0]).toBe(grid.start);
        expect(nm[grid.count - 1]).toBe(gridEnd(grid));
      }),
    );
  });

  it("cover each other exactly when their ranges agree, whatever the step", () => {
    fc.assert(
      fc.property(grids, grids, (a, b) => {
        const range = covers(a, b) && covers(b, a);
        expect(range && a.count === b.count).toBe(sameGrid(a, b));
      }),
    );
    expect(covers(DEFAULT_GRID, { start: 405, step: 1, count: 100 })).toBe(true);
    expect(covers(DEFAULT_GRID, { start: 395, step: 10, count: 31 })).toBe(false);
  });

  it("are the same in spite of rounding in the step", () => {
    expect(
      sameGrid({ start: 380, step: 10 / 3, count: 97 }, { start: 380, step: 3.33333333333, count: 97 }),
    ).toBe(true);
    expect(sameGrid(DEFAULT_GRID, { start: 400, step: 10.01, count: 31 })).toBe(false);
  });
});
