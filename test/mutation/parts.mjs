/**
 * What is mutated by itself: a folder of src without the folders below it, or some `files` of it. `share`: of its statements, all where that
 * takes minutes, a sample where it would take a day. `tests`: those that must notice, if not just the files and
 * folders of the same name; where whole corrections take seconds, those that look at one piece at a time.
 */
export const PARTS = {
  optics: { share: 1 },
  surface: { share: 1 },
  colorimetry: { share: 1 },
  numeric: { share: 0.2 },
  "correction/certificate": {
    share: 0.08,
    tests: [
      "test/correction/certificate/twoHands.test.ts",
      "test/correction/certificate/bindingBands.test.ts",
      "test/correction/certificate/differenceNorm.test.ts",
      "test/correction/certificate/proofs.test.ts",
    ],
  },
  "correction/checker": {
    share: 0.3,
    tests: ["test/correction/checker", "test/correction/certificate/twoHands.test.ts"],
  },
  "correction/forecast": {
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
  // The search itself, polishing and the way out are not among them: every mutant there costs whole searches.
  correction: {
    share: 0.1,
    files: [
      "alternatives",
      "bench",
      "choice",
      "collinearToners",
      "correct",
      "evenWeights",
      "findObstacles",
      "goal",
      "job",
      "limits",
      "objective",
      "pickMix",
      "poured",
      "problem",
      "score",
      "settleTies",
      "subsetModel",
      "whyUnused",
    ],
    tests: [
      "test/correction/objective.test.ts",
      "test/correction/goal.test.ts",
      "test/correction/bench.test.ts",
      "test/correction/contract/fewToners.test.ts",
      "test/correction/settleTies.test.ts",
      "test/correction/whyUnused.test.ts",
    ],
  },
};
