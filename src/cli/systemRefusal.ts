import { InputError, type InputErrorCode, isInputError } from "../core/InputError.js";

/** The system's usual reasons in words, any other as it tells it. */
const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  EISDIR: "this is a folder, not a file",
  ENOTDIR: "a part of this path is a file, not a folder",
  EACCES: "the file may not be opened: ask for the right to, or copy it",
  EPERM: "the file may not be opened: ask for the right to, or copy it",
  EROFS: "nothing can be written there",
  ENOSPC: "there is no room left on the disk",
  EDQUOT: "there is no room left on the disk for you",
  EFBIG: "the file would become too large",
  ENAMETOOLONG: "this name is too long for the disk",
  ELOOP: "this link leads back to itself",
  EIO: "the disk does not answer as it should",
  EPIPE: "nobody reads any more",
};

/** Does something to the disk; what the system refuses is told as an InputError with the name of the file. */
export function askSystem<T>(code: InputErrorCode, path: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    throw systemRefusal(code, path, error);
  }
}

/** The InputError that says what the system would not do; whatever else was thrown is a defect and comes back as it is. */
export function systemRefusal(code: InputErrorCode, path: string, error: unknown): unknown {
  if (isInputError(error) || !(error instanceof Error) || !("code" in error)) return error;
  const reason = String(error.code);
  return new InputError(code, path, Object.hasOwn(REASONS, reason) ? REASONS[reason] : error.message);
}
