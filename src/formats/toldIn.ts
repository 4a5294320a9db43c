import { InputError, isInputError } from "../core/InputError.js";

/** Does something to a part of a file; whatever is refused there is told with the name of the part before its place. */
export function toldIn<T>(part: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    if (!isInputError(error)) throw error;
    throw new InputError(error.code, error.path === "" ? part : `${part}: ${error.path}`, error.reason);
  }
}
