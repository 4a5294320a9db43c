import { describe, expect, it } from "vitest";
import type { Characterisation } from "../../src/characterisation/characterisation.js";
import { characterise } from "../../src/characterisation/characterise.js";
import { type Drawdown, drawDown, EXACT, GEOMETRY, jobOf, PAINTS } from "./world.js";

const CHART = [0.05, 0.85];
const film = (recipe: Drawdown["recipe"], thickness = 1): Drawdown => ({
  recipe,
  thickness,
  backings: CHART,
});
const opaque = (recipe: Drawdown["recipe"]): Drawdown => ({ recipe, thickness: 1, backings: "opaque" });

/** Largest relative error of K and S, both divided by `unit` first. */
function worstError({ toners }: Characterisation, unit: (band: number) => number = () => 1): number {
  let worst = 0;
  for (const { id, ...toner } of toners.toners) {
    for (const what of ["k", "s"] as const) {
      PAINTS[id][what].forEach((value, band) => {
        const found = toner[what][GEOMETRY]?.[band] ?? Number.NaN;
        worst = Math.max(worst, Math.abs((found * unit(band)) / value - 1));
      });
    }
  }
  return worst;
}

const LADDER = [
  film({ white: 1 }, 0.9),
  film({ red: 1 }, 1.2),
  film({ blue: 1 }, 0.7),
  film({ white: 1, red: 1 }, 1.1),
  film({ white: 4, red: 1 }, 0.8),
  film({ white: 1, blue: 1 }, 1.3),
  film({ white: 4, blue: 1 }, 1),
  film({ red: 1, blue: 1, white: 2 }, 1.05),
];
const drawn = (drawdowns: readonly Drawdown[]) => drawdowns.map((d, i) => drawDown(`${i}`, d));

describe("characterise gives K and S back within 1e−6 (films made by the textbook formula in 40 digits)", () => {
  it("from one drawdown of each over two backings, of measured thickness: per µm, without refinement", () => {
    const samples = [film({ white: 1 }, 0.4), film({ red: 1 }, 0.6), film({ blue: 1 }, 0.5)].map((d, i) => ({
      ...drawDown(`${i}`, d),
      thickness: d.thickness,
    }));
    const found = characterise(jobOf(samples, { options: { ...EXACT, refine: "none" } }));
    expect(found.method).toBe("two-backings");
    expect(found.basis).toBe("per-micrometre");
    expect(worstError(found)).toBeLessThan(1e-6);
  });

  it("from masstone and tint, opaque: relative to S of the white, without refinement", () => {
    const samples = drawn([
      opaque({ white: 1 }),
      opaque({ red: 1 }),
      opaque({ white: 3, red: 1 }),
      opaque({ blue: 1 }),
      opaque({ white: 3, blue: 1 }),
    ]);
    const found = characterise(jobOf(samples, { options: { ...EXACT, refine: "none" } }));
    expect(found.method).toBe("masstone-and-tint");
    expect(found.basis).toBe("relative");
    expect(worstError(found, (band) => PAINTS.white.s[band])).toBeLessThan(1e-6);
  });

  it("from opaque ladders with steps to spare, without refinement and jointly", () => {
    const steps = [1, 2, 5, 10].flatMap((white) => [opaque({ white, red: 1 }), opaque({ white, blue: 1 })]);
    const samples = drawn([opaque({ white: 1 }), opaque({ red: 1 }), opaque({ blue: 1 }), ...steps]);
    for (const refine of ["none", "joint"] as const) {
      const found = characterise(jobOf(samples, { options: { ...EXACT, refine } }));
      expect(found.method).toBe(refine === "none" ? "ladders" : "joint");
      expect(worstError(found, (band) => PAINTS.white.s[band])).toBeLessThan(1e-6);
    }
  });

  it("jointly with the thickness of every film unknown: per mean film, and the thicknesses too", () => {
    const found = characterise(jobOf(drawn(LADDER), { options: EXACT }));
    expect(found.method).toBe("joint");
    expect(found.basis).toBe("per-film");
    const mean = Math.exp(
      LADDER.reduce((sum, { thickness }) => sum + Math.log(thickness), 0) / LADDER.length,
    );
    expect(worstError(found, () => 1 / mean)).toBeLessThan(1e-6);
    found.samples.forEach(({ thickness }, i) => {
      expect(Math.abs(((thickness?.value ?? 0) * mean) / LADDER[i].thickness - 1)).toBeLessThan(1e-6);
    });
  });

  it("from opaque films and translucent ones over one backing or two, mixed", () => {
    const mixed: Drawdown[] = [
      ...LADDER.map((d, i) => (i % 3 === 2 ? { ...d, backings: i % 2 === 0 ? [0.05] : [0.85] } : d)),
      opaque({ white: 2, red: 1 }),
      opaque({ white: 2, blue: 3 }),
    ];
    const samples = mixed.map((d, i) => ({
      ...drawDown(`${i}`, d),
      ...(i < 2 && { thickness: d.thickness }),
    }));
    const found = characterise(jobOf(samples, { options: EXACT }));
    expect(found.basis).toBe("per-micrometre");
    expect(worstError(found)).toBeLessThan(1e-6);
  });

  it("with k2 unknown too, and says that the readings tell it", () => {
    const options = { ...EXACT, fitSurface: ["k2"] } as const;
    const surfaces = [{ geometry: GEOMETRY, k1: 0.04, k2: 0.5 } as const];
    const found = characterise(jobOf(drawn(LADDER), { options, surfaces }));
    const [k2] = found.surfaceEstimates ?? [];
    expect(k2.value).toBeCloseTo(0.6, 6);
    expect(k2.identifiable).toBe(true);
    expect(found.toners.surfaces[0].k2).toBe(k2.value);
  });
});
