/** A folder under src, what lives there and which other layers it may import; every layer may import core. */
export interface Layer {
  readonly folder: string;
  readonly holds: string;
  readonly imports: readonly string[];
}

const OPTICAL = ["spectra", "colorimetry", "optics", "surface", "toners"];
const POSED = ["numeric", ...OPTICAL, "scene", "forward", "belief", "problem"];

const MODEL: readonly Layer[] = [
  { folder: "core", holds: "errors with code and place, checks", imports: [] },
  {
    folder: "numeric",
    holds: "gate to ml-matrix, least squares, roots, programmes, statistics; knows no colour",
    imports: [],
  },
  { folder: "spectra", holds: "grid, spectrum, resampling", imports: [] },
  {
    folder: "colorimetry",
    holds: "observers, illuminants, weights, XYZ, Lab, differences, gate to colorjs.io",
    imports: ["spectra"],
  },
  { folder: "optics", holds: "Kubelka–Munk film, inverse, stacks, hiding", imports: ["numeric", "spectra"] },
  { folder: "surface", holds: "Saunderson, Fresnel, geometries, readings", imports: ["spectra"] },
  { folder: "toners", holds: "toner, toner set, pot, mixture", imports: ["spectra", "optics", "surface"] },
  {
    folder: "tolerance",
    holds: "limits, verdicts, blend allowance",
    imports: ["spectra", "colorimetry"],
  },
  {
    folder: "scene",
    holds: "what was mixed and read, on the bands and geometries that toners and readings share",
    imports: ["spectra", "colorimetry", "surface", "toners"],
  },
  {
    folder: "forward",
    holds: "amounts → reflectance → colour, with slopes, and the tie to a card: the only forward model",
    imports: OPTICAL,
  },
  {
    folder: "belief",
    holds: "what cards say of cans, toners, paint and surface: posterior, tie, spread, risk, judgement",
    imports: ["numeric", ...OPTICAL, "scene", "forward"],
  },
  {
    folder: "characterisation",
    holds: "readings of known mixes → toners",
    imports: ["numeric", ...OPTICAL, "scene", "forward", "belief"],
  },
  {
    folder: "problem",
    holds: "a job made ready: goal, bench, tied model, terms of the objective, diagnosis of spraying",
    imports: ["numeric", ...OPTICAL, "tolerance", "scene", "forward", "belief"],
  },
  {
    folder: "prediction",
    holds: "the verbs predict and directions",
    imports: [...OPTICAL, "scene", "forward", "belief", "problem"],
  },
  {
    folder: "search",
    holds: "problem → additions: subsets, lattice, refinement, few pours",
    imports: POSED,
  },
  {
    folder: "forecast",
    holds: "what the next card will show, way back, first share",
    imports: [...POSED, "search"],
  },
  {
    folder: "correction",
    holds: "pot + card + targets → additions, alternatives and why",
    imports: [...POSED, "search", "forecast"],
  },
  {
    folder: "certificate",
    holds: "job + correction → what is proved of it, and the check of the proof",
    imports: ["numeric", ...OPTICAL, "forward", "problem", "search", "correction"],
  },
  {
    folder: "planning",
    holds: "hold back, several panels, learning, the next step",
    imports: [...POSED, "tolerance", "search", "forecast", "correction"],
  },
  {
    folder: "record",
    holds: "a job over time: entries, state, what next",
    imports: [...POSED, "forecast", "correction", "planning"],
  },
];

/** Carries tables of figures: the command line alone has use for it, no door lets it out. */
const VERIFICATION: Layer = {
  folder: "verification",
  holds: "published figures, and what comes out of the library for them",
  imports: ["numeric", "spectra", "colorimetry", "optics", "surface", "toners"],
};

const model = MODEL.map(({ folder }) => folder);

/**
 * The layers, lowest first. This table is the only place where it is said who may import whom; the doors may import
 * every layer that is for embedding, and nobody imports the doors or the command line.
 */
export const LAYERS: readonly Layer[] = [
  ...MODEL,
  VERIFICATION,
  { folder: "formats", holds: "text ⇄ values, no disk", imports: model },
  {
    folder: "report",
    holds: "values → SVG, HTML and text strings",
    imports: [...model, "verification", "formats"],
  },
  {
    folder: "cli",
    holds: "the only place that touches process, disk, terminal",
    imports: [...model, "verification", "formats", "report"],
  },
  { folder: "doors", holds: "the public entry points", imports: [...model, "formats", "report"] },
];

/** A folder inside a layer with a wall around it. */
export interface Room {
  readonly folder: string;
  /** By layer, the folders and files of it that may be imported; of layers not named here all that the layers allow. */
  readonly imports: Readonly<Record<string, readonly string[]>>;
  /** Whether it holds nothing but types. */
  readonly isOnlyTypes?: boolean;
}

const DRAWN = ["report/words", "report/chart", "report/page", "report/plots"];

/**
 * Rooms. A layer that is named here has no files outside its rooms. The checker may know how a job is read and what the
 * records look like, and nothing of the search and of what makes proofs.
 */
export const ROOMS: readonly Room[] = [
  {
    folder: "certificate/records",
    imports: { certificate: [], correction: ["correction/correction.ts"] },
    isOnlyTypes: true,
  },
  {
    folder: "certificate/prover",
    imports: {
      certificate: ["certificate/records"],
      problem: [
        "problem/after.ts",
        "problem/goal.ts",
        "problem/job.ts",
        "problem/problem.ts",
        "problem/spray/asSprayed.ts",
        "problem/terms.ts",
        "problem/withRisk.ts",
      ],
      search: ["search/solve.ts"],
      correction: ["correction/correction.ts"],
    },
  },
  {
    folder: "certificate/checker",
    imports: {
      numeric: [],
      certificate: ["certificate/records"],
      problem: ["problem/goal.ts", "problem/job.ts", "problem/problem.ts", "problem/spray/asSprayed.ts"],
      search: [],
      correction: [],
    },
  },
  { folder: "numeric/scalar", imports: { numeric: [] } },
  { folder: "numeric/probability", imports: { numeric: ["numeric/scalar"] } },
  { folder: "numeric/linear", imports: { numeric: [] } },
  { folder: "numeric/leastSquares", imports: { numeric: ["numeric/linear"] } },
  { folder: "numeric/programmes", imports: { numeric: ["numeric/linear", "numeric/scalar"] } },
  { folder: "report/words", imports: { report: [] } },
  { folder: "report/chart", imports: { report: [] } },
  { folder: "report/page", imports: { report: ["report/chart", "report/words"] } },
  { folder: "report/plots", imports: { report: ["report/chart", "report/words"] } },
  { folder: "report/verification", imports: { report: ["report/words"] } },
  { folder: "report/characterisation", imports: { report: DRAWN } },
  { folder: "report/correction", imports: { report: DRAWN } },
  { folder: "report/planning", imports: { report: DRAWN } },
  { folder: "report/record", imports: { report: [...DRAWN, "report/correction", "report/planning"] } },
];

/** Each runtime dependency and the one file that may import it. */
export const GATES: Readonly<Record<string, string>> = {
  "ml-matrix": "numeric/linear/denseAlgebra.ts",
  "colorjs.io": "colorimetry/colorjs.ts",
  saxes: "formats/xml.ts",
  "@noble/hashes": "formats/sha256.ts",
};

/** Lines of a file; tables in `data` are apart. */
export const MOST_LINES = 250;

/** Parameters of a function; more belong together in a record. */
export const MOST_PARAMETERS = 5;

/** Files named after what they are about, because no one of their exports stands before the others. */
export const NAMED_AFTER_SUBJECT: readonly string[] = [
  "characterisation/sharedEstimates.ts",
  "search/collinearToners.ts",
  "formats/tonersFile.ts",
  "numeric/linear/denseAlgebra.ts",
  "numeric/linear/householder.ts",
  "numeric/linear/triangularSolve.ts",
  "optics/infiniteFilm.ts",
  "scene/readingWarnings.ts",
  "surface/saunderson.ts",
];
