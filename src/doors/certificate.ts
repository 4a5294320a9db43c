/**
 * What can be proved of a correction, and the check of such a proof, step by step, with none of the code that made it.
 * @module certificate
 */

export { type Verification, verifyCertificate } from "../certificate/checker/verifyCertificate.js";
export { certify } from "../certificate/prover/certify.js";
export type {
  BindingBands,
  Bound,
  Certificate,
  CertificateVerdict,
} from "../certificate/records/certificate.js";
export type { Certified } from "../certificate/records/certified.js";
export type {
  ColourBox,
  Direction,
  Measure,
  Multiplier,
  Proof,
  ProofCase,
  Tightening,
} from "../certificate/records/proof.js";
