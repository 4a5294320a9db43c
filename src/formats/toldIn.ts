import { InputError, isInputError } from "../core/InputError.js";

/** Runs `act` on a part of a file; an InputError gets the name of the part before its path. */
export function toldIn<T>(part: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    if (!isInputError(error)) throw error;
    throw new InputError(error.code, error.path === "" ? part : `${part}: ${error.path}`, error.reason);
  }
}
