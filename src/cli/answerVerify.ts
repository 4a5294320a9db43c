import { verificationText } from "../report/verification/verificationText.js";
import { verify } from "../verification/verify.js";
import type { Answer } from "./verb.js";

/** Works published figures out anew. */
export function answerVerify(): Answer {
  const verification = verify();
  return {
    record: verification,
    text: () => verificationText(verification),
    hasFailed: !verification.passed,
  };
}
