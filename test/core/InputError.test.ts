import { describe, expect, it } from "vitest";
import { InputError, isInputError } from "../../src/core/InputError.js";

describe("InputError", () => {
  it("carries code, path and reason, and says all three", () => {
    const error = new InputError("out-of-range", "pot.white", "-3 is too small");
    expect(error).toMatchObject({ code: "out-of-range", path: "pot.white", reason: "-3 is too small" });
    expect(error.message).toBe("pot.white: -3 is too small [out-of-range]");
    expect(String(error)).toBe("InputError: pot.white: -3 is too small [out-of-range]");
  });

  it("leaves the place out when the whole input is meant", () => {
    expect(new InputError("missing", "", "nothing here").message).toBe("nothing here [missing]");
  });

  it("is an Error that can be told from others", () => {
    const error: unknown = new InputError("missing", "", "");
    expect(error).toBeInstanceOf(Error);
    expect(error).toBeInstanceOf(InputError);
    expect(isInputError(error)).toBe(true);
    for (const other of [new Error("missing"), { code: "missing" }, null, undefined, "InputError", 3]) {
      expect(isInputError(other)).toBe(false);
    }
  });
});
