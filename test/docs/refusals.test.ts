import { describe, expect, it } from "vitest";
import { answerTo, MISTAKES } from "../fixtures/mistakes.js";
import { root } from "../package/consumer.js";

describe("mistakes in a job file", () => {
  it.each(MISTAKES)("$what is refused with a code", (mistake) => {
    expect(answerTo(mistake)).toMatch(/ \[[a-z-]+\]$/);
  });

  it("is told how to mend each", async () => {
    const said = MISTAKES.map((mistake) => `${mistake.what}\n  ${answerTo(mistake).replaceAll("\0", "")}\n`);
    await expect(said.join("")).toMatchFileSnapshot(`${root}/test/fixtures/refusals.txt`);
  });
});
