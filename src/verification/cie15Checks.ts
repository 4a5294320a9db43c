import { daylightChromaticity } from "../colorimetry/daylight.js";
import { illuminantSpectrum } from "../colorimetry/illuminant.js";
import { OBSERVER_IDS, type ObserverId, standardObserver } from "../colorimetry/observer.js";
import { tristimulusWeights } from "../colorimetry/weights.js";
import { sum } from "../core/sum.js";
import { DEFAULT_GRID } from "../spectra/grid.js";
import type { CheckGroup, Figure } from "./check.js";
import { CIE15_CHROMATICITIES, CIE15_DAYLIGHT_LOCUS, CIE15_POWERS } from "./data/cie15.js";

/** Observers and illuminants of the CIE. */
export function cie15Checks(): readonly CheckGroup[] {
  return [
    {
      title: "Standard observers: equal energy is white",
      source: "CIE 15: the colour-matching functions are normalised to x = y = 1/3",
      known: "memory",
      remark: "The tables sum to white within 1e-4.",
      checks: OBSERVER_IDS.map((observer) => ({
        name: `CIE ${observer}`,
        measure: "absolute",
        allowed: 1e-4,
        figures: () => chromaticityFigures(equalEnergy(observer), [1 / 3, 1 / 3]),
      })),
    },
    {
      title: "Illuminants: relative power at a wavelength",
      source: "ISO/CIE 11664-2 and CIE 15 tables, as carried by Debian's colord-data",
      known: "seen",
      checks: CIE15_POWERS.map(([illuminant, nm, expected, allowed]) => ({
        name: `${illuminant} at ${nm} nm`,
        measure: "absolute",
        allowed,
        figures: () => {
          const { grid, values } = illuminantSpectrum(illuminant);
          const got = values[Math.round((nm - grid.start) / grid.step)];
          return [{ name: "power", expected, got }];
        },
      })),
    },
    {
      title: "Illuminants: chromaticity",
      source: "CIE 15, as carried by colour-science, chromaticity_coordinates.py",
      known: "seen",
      remark:
        "Half the last digit for 2°; for 10° the F sources depend on the step of the sum (docs/decisions.md). LED-B3 was recovered from weights, not transcribed.",
      checks: CIE15_CHROMATICITIES.map(([illuminant, observer, x, y, allowed]) => ({
        name: `${illuminant}, CIE ${observer}`,
        measure: "absolute",
        allowed,
        figures: () =>
          chromaticityFigures(tristimulusWeights({ grid: DEFAULT_GRID, illuminant, observer }).white, [x, y]),
      })),
    },
    {
      title: "Daylight: chromaticity at a correlated colour temperature",
      source: "CIE 15, in the tests of colour-science, temperature/tests/test_cie_d.py",
      known: "seen",
      checks: CIE15_DAYLIGHT_LOCUS.map(([kelvin, x, y]) => ({
        name: `${kelvin} K`,
        measure: "absolute",
        allowed: 5e-10,
        figures: () => {
          const [gotX, gotY] = daylightChromaticity(kelvin);
          return [
            { name: "x", expected: x, got: gotX },
            { name: "y", expected: y, got: gotY },
          ];
        },
      })),
    },
  ];
}

function equalEnergy(observer: ObserverId): readonly number[] {
  const { x, y, z } = standardObserver(observer);
  return [x, y, z].map((axis) => sum(axis));
}

function chromaticityFigures(
  [x, y, z]: readonly number[],
  expected: readonly [number, number],
): readonly Figure[] {
  const all = x + y + z;
  return [
    { name: "x", expected: expected[0], got: x / all },
    { name: "y", expected: expected[1], got: y / all },
  ];
}
