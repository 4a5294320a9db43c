/**
 * What is mutated by itself: a folder of src without the folders below it, or the `files` named, from src on. `share`: of its statements, all where that
 * takes minutes, a sample where it would take a day. `tests`: those that must notice, if not just the files and
 * folders of the same name; where whole corrections take seconds, those that look at one piece at a time.
 */
export const PARTS = {
  optics: { share: 1 },
  surface: { share: 1 },
  colorimetry: { share: 1 },
  numeric: { share: 0.2, files: ["numeric/*/*"] },
  "certificate/prover": {
    share: 0.08,
    tests: [
      "test/certificate/twoHands.test.ts",
      "test/certificate/bindingBands.test.ts",
      "test/certificate/differenceNorm.test.ts",
      "test/certificate/proofs.test.ts",
    ],
  },
  "certificate/checker": {
    share: 0.3,
    tests: ["test/certificate/checker", "test/certificate/twoHands.test.ts"],
  },
  forecast: {
    share: 0.1,
    tests: [
      "test/correction/forecast/spread.test.ts",
      "test/correction/forecast/firstShare.test.ts",
      "test/correction/forecast/linear.test.ts",
      "test/correction/forecast/recovery.test.ts",
      "test/correction/forecast/forecast.test.ts",
      "test/correction/forecast/record.test.ts",
    ],
  },
  // What asks for a search is not among them (searches, ties, alternatives, the way out): a mutant costs whole searches.
  correction: {
    share: 0.1,
    files: [
      "problem/bench",
      "correction/choice",
      "search/collinearToners",
      "search/evenWeights",
      "problem/goal",
      "problem/job",
      "problem/limits",
      "problem/objective",
      "search/pickMix",
      "problem/poured",
      "problem/problem",
      "problem/score",
    ],
    tests: [
      "test/correction/objective.test.ts",
      "test/correction/goal.test.ts",
      "test/correction/bench.test.ts",
      "test/correction/pieces.test.ts",
      "test/correction/search/evenWeights.test.ts",
      "test/correction/search/pickMix.test.ts",
    ],
  },
};
