import type { CharacterisationJob } from "../../src/characterisation/job.js";
import type { Sample } from "../../src/characterisation/sample.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import type { Geometry } from "../../src/surface/geometry.js";
import type { Grams } from "../../src/toners/pot.js";
import { createInstrument } from "./instrument.js";
import { createPaintReader, PAINT_PHYSICS, type PaintPhysics } from "./paint.js";
import { GRID, PIGMENTS } from "./pigments.js";

export const GEOMETRY: Geometry = "d:8 specular included";

/** A drawdown bar's film and how evenly a hand draws it (sd of ln depth). */
const DRAWN_DEPTH = 12;
const DRAWN_DEPTH_SD = 0.05;

/** Black and white fields of the chart, as read bare: under the same gloss as the film. */
const CHART = { black: 0.02, white: 0.85 };

/** Weaker toners are tinted with less white: parts of toner in 100 parts with white. */
const TINTS = { strong: [4, 15, 45], weak: [25, 60, 90] };
const SHADE = { strong: 94, weak: 98 };

/**
 * The ladders that the toners of this world are characterised from: masstone, three tints with white and one shade
 * with black of every toner, drawn down over black and white and read with an instrument's noise. What masstone is
 * told of the surface is k1, and it fits one k2 for all, which no film here has.
 */
export function drawdownJob(seed: number, physics: PaintPhysics = PAINT_PHYSICS): CharacterisationJob {
  const random = createRandom(seed);
  const read = createPaintReader(physics);
  const instrument = createInstrument(random);
  const drawDown = (name: string, recipe: Grams): Sample => {
    const depth = DRAWN_DEPTH * Math.exp(DRAWN_DEPTH_SD * random.normal());
    const readings = Object.entries(CHART).map(([backingName, backing]) => ({
      geometry: GEOMETRY,
      grid: GRID,
      reflectance: instrument.read(read({ grams: recipe }, { depth, backing })),
      backing: new Array<number>(GRID.count).fill(bare(backing, physics.index)),
      backingName,
    }));
    return { name, recipe, readings };
  };
  const samples = PIGMENTS.flatMap(({ id, k, s }) => {
    const masstone = drawDown(id, { [id]: 100 });
    if (id === "white") return [masstone];
    const kind = Math.max(...k, ...s) < 0.3 ? "weak" : "strong";
    const tints = TINTS[kind].map((parts) =>
      drawDown(`${id} ${parts} in white`, { [id]: parts, white: 100 - parts }),
    );
    if (id.startsWith("black")) return [masstone, ...tints];
    return [
      masstone,
      ...tints,
      drawDown(`${id} ${SHADE[kind]} with black`, { [id]: SHADE[kind], black: 100 - SHADE[kind] }),
    ];
  });
  return {
    grid: GRID,
    surfaces: [{ geometry: GEOMETRY, k1: 0.04, k2: 0.6 }],
    toners: PIGMENTS.map(({ id, role }) => ({ id, role, strengthSd: 0.2 })),
    samples,
    options: {
      reflectanceSd: { floor: 0.002, relative: 0.01 },
      thicknessSd: 2 * DRAWN_DEPTH_SD,
      fitSurface: ["k2"],
    },
  };
}

/** What the instrument reads of a bare field of internal reflectance `matt` under gloss: Saunderson at this index. */
function bare(matt: number, index: number): number {
  const k1 = ((index - 1) / (index + 1)) ** 2;
  const k2 = 0.5963;
  return k1 + ((1 - k1) * (1 - k2) * matt) / (1 - k2 * matt);
}
