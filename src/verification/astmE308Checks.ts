import { tristimulusWeights } from "../colorimetry/weights.js";
import { xyzFromReflectance } from "../colorimetry/xyz.js";
import { DEFAULT_GRID, type Grid, gridEnd, wavelengths } from "../spectra/grid.js";
import type { CheckGroup } from "./check.js";
import {
  ASTM_E308_SAMPLE,
  ASTM_E308_SUMS,
  ASTM_E308_WEIGHTS,
  ASTM_E308_WHITES,
  type PublishedWeights,
} from "./data/astmE308.js";

const AXES = ["x", "y", "z"] as const;

/** White points, tables of weights and worked sums of ASTM E308. */
export function astmE308Checks(): readonly CheckGroup[] {
  return [
    {
      title: "White points",
      source: "ASTM E308 Table 5, as carried by Unicolour, Illuminant.cs",
      known: "seen",
      remark: "No one way of summing gives all of them; see docs/decisions.md.",
      checks: ASTM_E308_WHITES.map(([illuminant, observer, x, z, allowed]) => ({
        name: `${illuminant}, CIE ${observer}`,
        measure: "absolute",
        allowed,
        figures: () => {
          const { white } = tristimulusWeights({ grid: DEFAULT_GRID, illuminant, observer });
          return [x, 100, z].map((expected, i) => ({ name: "XYZ"[i], expected, got: white[i] }));
        },
      })),
    },
    {
      title: "Tables of tristimulus weights",
      source: "ASTM E308-15, as carried by colour-science, test_tristimulus_values.py",
      known: "seen",
      remark: "Three decimals there.",
      checks: ASTM_E308_WEIGHTS.map((table) => ({
        name: `${table.illuminant}, CIE ${table.observer}, ${gridText(table.grid)}`,
        measure: "absolute",
        allowed: 0.001,
        figures: () => weightFigures(table),
      })),
    },
    {
      title: "Worked sums of one sample",
      source: "colour-science, test_tristimulus_values.py",
      known: "seen",
      remark: "Allowed is what the ways of summing differ by.",
      checks: ASTM_E308_SUMS.map(([illuminant, observer, grid, expected, allowed]) => ({
        name: `${illuminant}, CIE ${observer}, ${gridText(grid)}`,
        measure: "absolute",
        allowed,
        figures: () => {
          const weights = tristimulusWeights({ grid, illuminant, observer });
          const xyz = xyzFromReflectance(sampleOn(grid), weights);
          return expected.map((value, i) => ({ name: "XYZ"[i], expected: value, got: xyz[i] }));
        },
      })),
    },
  ];
}

function weightFigures(table: PublishedWeights) {
  const ours = tristimulusWeights(table);
  const nm = wavelengths(table.grid);
  return AXES.flatMap((axis) =>
    table[axis].map((thousandths, i) => ({
      name: `${axis.toUpperCase()} at ${nm[i]} nm`,
      expected: thousandths / 1000,
      got: ours[axis][i],
    })),
  );
}

/** The sample is given from 400 to 700 nm every 5 nm and counts as 0 elsewhere. */
function sampleOn(grid: Grid): readonly number[] {
  return Array.from(wavelengths(grid), (nm) => (ASTM_E308_SAMPLE[(nm - 400) / 5] ?? 0) / 10000);
}

function gridText(grid: Grid): string {
  return `${grid.start}–${gridEnd(grid)}/${grid.step} nm`;
}
