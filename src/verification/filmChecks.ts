import { film, overBacking } from "../optics/film.js";
import { absorptionRatio, reflectivity, reflectivityFromRatio } from "../optics/infiniteFilm.js";
import { lay } from "../optics/stack.js";
import { filmFromBackings } from "../optics/twoBackings.js";
import type { Check, CheckGroup } from "./check.js";
import {
  FILMS_COMPUTED,
  FILMS_OF_GLASS,
  FILMS_OF_PAPER,
  FILMS_OVER_TWO_BACKINGS,
  FILMS_PUBLISHED,
  FILMS_THAT_HIDE,
} from "./data/films.js";

/** Kubelka and Munk's film, forwards, at its limits and backwards, and layers upon layers. */
export function filmChecks(): readonly CheckGroup[] {
  return [
    {
      title: "Kubelka–Munk film over a backing",
      source: "unit test of a painterly-rendering library (T. Lindemeier), which allows 1e-5",
      known: "seen",
      checks: FILMS_PUBLISHED.map(([k, s, x, backing, expected]) => ({
        name: `K ${k}, S ${s}, X ${x} over ${backing}`,
        measure: "absolute",
        allowed: 1e-5,
        figures: () => [{ name: "R", expected, got: overBacking(film(k, s, x), backing) }],
      })),
    },
    {
      title: "Kubelka–Munk film: R, R0, T and R∞, with and without absorption and scattering",
      source: "Kubelka 1948 in 30 digits (mpmath)",
      known: "computed",
      checks: FILMS_COMPUTED.map(([k, s, x, backing, r, r0, t, rInfinity]) => ({
        name: `K ${k}, S ${s}, X ${x} over ${backing}`,
        measure: "relative",
        allowed: 1e-13,
        figures: () => {
          const layer = film(k, s, x);
          return [
            { name: "R", expected: r, got: overBacking(layer, backing) },
            { name: "R0", expected: r0, got: layer.reflectance },
            { name: "T", expected: t, got: layer.transmittance },
            { name: "R∞", expected: rInfinity, got: reflectivity(k, s) },
          ];
        },
      })),
    },
    {
      title: "A film that hides: K/S = (1 − R∞)²/2R∞, both ways",
      source: "Kubelka & Munk 1931, 15 digits",
      known: "computed",
      checks: FILMS_THAT_HIDE.map(([rInfinity, ratio]) => ({
        name: `R∞ = ${rInfinity}`,
        measure: "absolute",
        allowed: 2e-14 * Math.max(1, ratio),
        figures: () => [
          { name: "K/S", expected: ratio, got: absorptionRatio(rInfinity) },
          { name: "R∞", expected: rInfinity, got: reflectivityFromRatio(ratio) },
        ],
      })),
    },
    {
      title: "K and S from readings over black and white",
      source: "arcoth form of Kubelka 1948",
      known: "computed",
      checks: FILMS_OVER_TWO_BACKINGS.map(([k, s, x, black, white, ...films]) =>
        backwards(`K ${k}, S ${s}, X ${x} over ${black} and ${white}`, {
          pair: { backings: [black, white], films },
          expected: { k: k * x, s: s * x },
        }),
      ),
    },
    {
      title: "K and S of paper, one sheet over black and over a pad of itself, in m²/kg",
      source: "the form of ISO 9416, from memory",
      known: "computed",
      checks: FILMS_OF_PAPER.map(([grammage, r0, rInfinity, s, k]) =>
        backwards(`${grammage} g/m², R0 ${r0}, R∞ ${rInfinity}`, {
          pair: { backings: [0, rInfinity], films: [r0, rInfinity] },
          expected: { k, s },
          scale: 1000 / grammage,
        }),
      ),
    },
    {
      title: "Layers upon layers: a glass plate, two faces of n = 1.5",
      source: "tests of mitsuba3, six digits",
      known: "seen",
      checks: FILMS_OF_GLASS.map(([face, expected]) => ({
        name: `faces that reflect ${face}`,
        measure: "absolute",
        allowed: 1e-6,
        figures: () => {
          const boundary = {
            reflectanceAbove: face,
            reflectanceBelow: face,
            transmittanceDown: 1 - face,
            transmittanceUp: 1 - face,
          };
          return [{ name: "R", expected, got: lay(boundary, boundary).reflectanceAbove }];
        },
      })),
    },
  ];
}

/** Readings of one film, and K and S (times thickness, or times a scale) that must come back out of them. */
interface Backwards {
  readonly pair: Parameters<typeof filmFromBackings>[0];
  readonly expected: { readonly k: number; readonly s: number };
  readonly scale?: number;
}

function backwards(name: string, { pair, expected, scale = 1 }: Backwards): Check {
  return {
    name,
    measure: "relative",
    allowed: 1e-12,
    figures: () => {
      const found = filmFromBackings(pair);
      const { kx, sx } = found.status === "identified" ? found : { kx: Number.NaN, sx: Number.NaN };
      return [
        { name: "K", expected: expected.k, got: scale * kx },
        { name: "S", expected: expected.s, got: scale * sx },
      ];
    },
  };
}
