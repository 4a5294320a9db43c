/**
 * What the certificate of a correction proves, checked step by step with none of the code that made it.
 * @module certificate
 */
export type {
  ColourBox,
  Direction,
  Measure,
  Multiplier,
  Proof,
  ProofCase,
  Tightening,
} from "../correction/certificate/proof.js";
export {
  type Certified,
  type Verification,
  verifyCertificate,
} from "../correction/checker/verifyCertificate.js";
