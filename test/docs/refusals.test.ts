import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { answerTo, MISTAKES } from "../fixtures/mistakes.js";
import saidBefore from "../fixtures/saidBefore.json";
import { root } from "../package/consumer.js";

const page = `${root}/docs/refusals.md`;
const before: Readonly<Record<string, string>> = saidBefore;
const cell = (text: string): string =>
  text.replaceAll("|", "\\|").replaceAll("\uFFFD", "?").replaceAll("\0", "");

describe("mistakes in a job file", () => {
  it.each(MISTAKES)("$what is refused with a code", (mistake) => {
    expect(answerTo(mistake)).toMatch(/ \[[a-z-]+\]$/);
  });

  it("stand on a page with what is said to them", async () => {
    const rows = MISTAKES.map(
      (mistake) => `| ${mistake.what} | ${cell(before[mistake.what])} | ${cell(answerTo(mistake))} |`,
    );
    const table = ["| mistake | said by 0.1.0 | said now |", "|---|---|---|", ...rows].join("\n");
    const written = readFileSync(page, "utf8").replace(
      /(<!-- mistakes -->\n)[\s\S]*?(<!-- end -->)/,
      (_, start, end) => `${start}\n${table}\n\n${end}`,
    );
    await expect(written).toMatchFileSnapshot(page);
  });
});
