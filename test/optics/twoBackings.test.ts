import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { film, overBacking } from "../../src/optics/film.js";
import { attenuation } from "../../src/optics/infiniteFilm.js";
import { type BackingPair, type FilmFromBackings, filmFromBackings } from "../../src/optics/twoBackings.js";
import { FILMS_OF_PAPER, FILMS_OVER_TWO_BACKINGS } from "../../src/verification/data/films.js";
import { powerOfTen } from "../support/filmArbitraries.js";
import { relativeDifference } from "../support/relativeDifference.js";

const readings = (kx: number, sx: number, backings: readonly [number, number]): BackingPair => {
  const layer = film(kx, sx, 1);
  return { backings, films: [overBacking(layer, backings[0]), overBacking(layer, backings[1])] };
};

function identified(found: FilmFromBackings): Extract<FilmFromBackings, { status: "identified" }> {
  if (found.status !== "identified") throw new Error(`${found.status}: ${found.reason}`);
  return found;
}

describe("filmFromBackings: computed (arcoth form of Kubelka 1948)", () => {
  it.each(FILMS_OVER_TWO_BACKINGS)("K %d S %d X %d", (k, s, x, black, white, overBlack, overWhite) => {
    const found = identified(filmFromBackings({ backings: [black, white], films: [overBlack, overWhite] }));
    expect(relativeDifference(found.sx, s * x)).toBeLessThan(1e-13);
    expect(relativeDifference(found.kx, k * x)).toBeLessThan(1e-12);
    expect(relativeDifference(found.ratio, k / s)).toBeLessThan(1e-12);
  });
});

describe("filmFromBackings: computed (paper, one sheet over black and over a pad of itself, ISO 9416 from memory)", () => {
  it.each(FILMS_OF_PAPER)("%d g/m², R0 %d, R∞ %d", (grammage, r0, rInfinity, s, k) => {
    const pair: BackingPair = { backings: [0, rInfinity], films: [r0, rInfinity] };
    const found = identified(filmFromBackings(pair));
    expect(relativeDifference((1000 / grammage) * found.sx, s)).toBeLessThan(1e-12);
    expect(relativeDifference((1000 / grammage) * found.kx, k)).toBeLessThan(1e-12);
  });
});

describe("filmFromBackings: inverse of film and overBacking", () => {
  const backings = fc
    .tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 500, max: 1000 }))
    .map(([black, white]) => [black / 1000, white / 1000] as const);

  it("finds KX and SX of any film that lets light through", () => {
    fc.assert(
      fc.property(powerOfTen(-4, 1), powerOfTen(-3, 1.3), backings, (kx, sx, [black, white]) => {
        const u = attenuation(kx, sx);
        fc.pre(u < 8);
        const found = identified(filmFromBackings(readings(kx, sx, [black, white])));
        // The readings differ by about 4e^(−2u)·Rg: what rounding of them costs grows as e^(2u); what KX adds to
        // them is about KX of R, so a small KX is known to the digits of R, not to its own.
        const rounding = 1e-15 * Math.exp(2 * u) * (1 + kx + sx) ** 2;
        expect(Math.abs(found.kx - kx)).toBeLessThan(100 * rounding);
        expect(Math.abs(found.sx - sx)).toBeLessThan(100 * rounding);
      }),
      { numRuns: 500 },
    );
  });

  it("does not care which backing comes first", () => {
    fc.assert(
      fc.property(powerOfTen(-3, 0.5), powerOfTen(-3, 0.5), backings, (kx, sx, [black, white]) => {
        const { films } = readings(kx, sx, [black, white]);
        const there = filmFromBackings({ backings: [black, white], films });
        const back = filmFromBackings({ backings: [white, black], films: [films[1], films[0]] });
        expect(back).toEqual(there);
      }),
    );
  });

  it("knows a clear film, a white film and no film at all", () => {
    const clear = identified(filmFromBackings(readings(0.3, 0, [0.04, 0.85])));
    expect(relativeDifference(clear.kx, 0.3)).toBeLessThan(1e-13);
    expect(clear.sx).toBeLessThan(1e-15);
    const clearOverBlack = identified(filmFromBackings({ backings: [0, 0.8], films: [0, 0.5] }));
    expect(relativeDifference(clearOverBlack.kx, Math.log(0.8 / 0.5) / 2)).toBeLessThan(1e-14);
    expect(clearOverBlack).toMatchObject({ sx: 0, ratio: Number.POSITIVE_INFINITY });
    const white = identified(filmFromBackings(readings(0, 4, [0.04, 0.85])));
    expect(relativeDifference(white.sx, 4)).toBeLessThan(1e-13);
    expect(white.kx).toBeLessThan(1e-14);
    const none = identified(filmFromBackings({ backings: [0.04, 0.85], films: [0.04, 0.85] }));
    expect(none).toMatchObject({ kx: 0, sx: 0 });
  });

  it("stays sharp for a film that almost hides", () => {
    const found = identified(filmFromBackings(readings(1, 30, [0, 0.8]), { resolution: 1e-12 }));
    expect(attenuation(1, 30)).toBeGreaterThan(7);
    expect(relativeDifference(found.sx, 30)).toBeLessThan(1e-9);
  });
});

describe("filmFromBackings: says what it cannot tell", () => {
  const pair = (black: number, white: number, overBlack: number, overWhite: number): BackingPair => ({
    backings: [black, white],
    films: [overBlack, overWhite],
  });
  const notIdentifiable = (reason: string) => ({ status: "not-identifiable", reason });

  it.each([
    ["backings too alike", pair(0.5, 0.5, 0.3, 0.4)],
    ["too dark", pair(0, 0.8, 0, 0)],
    ["not a Kubelka–Munk film", pair(0, 0.8, 0.4, 0.3)],
    ["not a Kubelka–Munk film", pair(0.1, 0.8, 0.02, 0.79)],
    ["not a Kubelka–Munk film", pair(0, 0.8, 0.3, 0.95)],
    ["not a Kubelka–Munk film", pair(0, 0.8, 0.3, 1.2)],
    ["not a Kubelka–Munk film", pair(0, 0.8, -0.1, 0.5)],
    ["not a Kubelka–Munk film", pair(0, 0.8, -0.1, -0.1)],
    ["not a Kubelka–Munk film", pair(0, 0.8, 1.1, 1.1)],
    ["backings too alike", pair(0, 1e-9, 0.3, 0.4)],
    ["too dark", pair(0, 0.8, 1e-9, 1e-9)],
    ["too dark", pair(0, 0.8, -1e-9, -1e-9)],
  ])("%s: %o", (reason, readings) => {
    expect(filmFromBackings(readings)).toEqual(notIdentifiable(reason));
  });

  it("ratio alone where the film hides", () => {
    const found = filmFromBackings(readings(4, 40, [0, 0.8]));
    expect(found).toMatchObject({ status: "ratio-only", reason: "hides fully" });
    if (found.status === "ratio-only") expect(relativeDifference(found.ratio, 0.1)).toBeLessThan(1e-12);
  });

  it("takes a white of 1, and what the resolution makes of it, as one that hides", () => {
    for (const reading of [1, 1 + 1e-9]) {
      expect(filmFromBackings(pair(0, 0.8, reading, reading))).toMatchObject({ status: "ratio-only" });
    }
  });

  it("allows the more the less the backings tell: an error of the readings over what they differ by", () => {
    // A white film over backings that differ by 0.02: an error of 1e-3 in a reading moves K by a hundredth.
    const white = readings(0, 0.5, [0.5, 0.52]);
    const off = { ...white, films: [white.films[0], white.films[1] + 9e-4] as const };
    expect(filmFromBackings(off, { resolution: 1e-3 })).toMatchObject({ status: "identified", kx: 0 });
    expect(filmFromBackings(off, { resolution: 1e-5 })).toEqual(notIdentifiable("not a Kubelka–Munk film"));
  });

  it("takes differences up to the resolution as none", () => {
    const almost = pair(0, 0.8, 0.3, 0.3004);
    expect(filmFromBackings(almost).status).toBe("identified");
    expect(filmFromBackings(almost, { resolution: 5e-4 }).status).toBe("ratio-only");
    const noisyWhite = readings(0, 2, [0, 0.8]);
    const tooBright = { ...noisyWhite, films: [noisyWhite.films[0], noisyWhite.films[1] + 1e-4] as const };
    expect(filmFromBackings(tooBright)).toEqual(notIdentifiable("not a Kubelka–Munk film"));
    expect(filmFromBackings(tooBright, { resolution: 2e-4 })).toMatchObject({ status: "identified", kx: 0 });
  });

  it("never answers with a number that is not one, or a negative one", () => {
    const anything = fc.oneof(
      fc.integer({ min: -100, max: 1100 }).map((thousandths) => thousandths / 1000),
      fc.constantFrom(0, 1, 1e-9, 1 - 1e-9, Number.MIN_VALUE, 1 - 2 ** -53),
    );
    fc.assert(
      fc.property(
        anything,
        anything,
        anything,
        anything,
        fc.constantFrom(0, 1e-9, 1e-3),
        (g1, g2, r1, r2, resolution) => {
          const backings = [Math.min(1, Math.max(0, g1)), Math.min(1, Math.max(0, g2))] as const;
          const found = filmFromBackings({ backings, films: [r1, r2] }, { resolution });
          if (found.status === "not-identifiable") return;
          expect(found.ratio).toBeGreaterThanOrEqual(0);
          if (found.status === "ratio-only") return;
          expect(found.kx).toBeGreaterThanOrEqual(0);
          expect(found.sx).toBeGreaterThanOrEqual(0);
          expect(Number.isFinite(found.kx) && Number.isFinite(found.sx)).toBe(true);
        },
      ),
      { numRuns: 5000 },
    );
  });
});
