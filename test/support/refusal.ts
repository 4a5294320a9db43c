import { InputError, type InputErrorCode } from "../../src/core/InputError.js";

/** The code and path with which `act` refuses its input; anything else that happens is a failure. */
export function refusal(act: () => unknown): { code: InputErrorCode; path: string } {
  try {
    act();
  } catch (error) {
    if (error instanceof InputError) return { code: error.code, path: error.path };
    throw error;
  }
  throw new Error("nothing was refused");
}
