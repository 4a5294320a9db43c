import type { AnyShape } from "../../src/core/shape/shape.js";
import type { FORMAT_VERSIONS } from "../../src/formats/header.js";
import { JOB_FILE } from "../../src/formats/jobFile.js";
import { RECORD_END, RECORD_LINE } from "../../src/formats/jobRecord.js";
import { READINGS_JSON } from "../../src/formats/readingsJson.js";
import { PLAN_FILE } from "../../src/formats/readPlan.js";
import { SAMPLES_FILE } from "../../src/formats/samplesFile.js";
import { STEP_PRICES_SHAPE } from "../../src/problem/stepPrices.js";
import { GRID } from "../../src/spectra/grid.js";
import { READING } from "../../src/surface/reading.js";
import { TONER_SET } from "../../src/toners/tonerSet.js";

/** A format and where it is described: what is read by a shape and an interface, what is written by a type alone. */
export interface Format {
  readonly file: string;
  readonly type: string;
  readonly shape?: AnyShape;
}

/** Every format that this package reads or writes, and what `masstone verify` prints. */
export const FORMATS: Readonly<Record<keyof typeof FORMAT_VERSIONS | "masstone/verification", Format>> = {
  "masstone/toners": { file: "toners/tonerSet.ts", type: "TonerSet", shape: TONER_SET },
  "masstone/job": { file: "formats/jobFile.ts", type: "JobFile", shape: JOB_FILE },
  "masstone/plan": { file: "formats/readPlan.ts", type: "PlanFile", shape: PLAN_FILE },
  "masstone/samples": { file: "formats/samplesFile.ts", type: "SamplesJson", shape: SAMPLES_FILE },
  "masstone/readings": { file: "formats/readingsJson.ts", type: "ReadingsJson", shape: READINGS_JSON },
  "masstone/record": { file: "formats/jobRecord.ts", type: "RecordLine", shape: RECORD_LINE },
  "masstone/record-end": { file: "formats/jobRecord.ts", type: "RecordEnd", shape: RECORD_END },
  "masstone/correction": { file: "planning/nextStep/nextStep.ts", type: "AdvisedCorrection" },
  "masstone/certificate": { file: "certificate/records/certificate.ts", type: "Certificate" },
  "masstone/prediction": { file: "prediction/predict.ts", type: "Prediction" },
  "masstone/directions": { file: "prediction/tonerDirections.ts", type: "TonerDirections" },
  "masstone/characterisation": { file: "characterisation/characterisation.ts", type: "Characterisation" },
  "masstone/hold-back": { file: "planning/holdBack/holdBackPlan.ts", type: "HoldBackPlan" },
  "masstone/learning": { file: "planning/learning/learning.ts", type: "Learning" },
  "masstone/job-state": { file: "record/jobState.ts", type: "JobStateRecord" },
  "masstone/next": { file: "record/whatNext.ts", type: "WhatNext" },
  "masstone/refusal": { file: "cli/refusal.ts", type: "Refusal" },
  "masstone/verification": { file: "verification/verify.ts", type: "Verification" },
};

/** Records with a shape that answers hand on. */
export const SHAPES: Readonly<Record<string, AnyShape>> = {
  TonerSet: TONER_SET,
  Reading: READING,
  Grid: GRID,
  StepPrices: STEP_PRICES_SHAPE,
};
