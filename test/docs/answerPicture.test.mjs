import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { exampleScreen, exampleSheet, markIn, markOf, terminalOf } from "../../docs/answer.mjs";
import { checkBuildIsFresh, root } from "../package/consumer.ts";

checkBuildIsFresh();

it("the picture of an answer in README.md shows the sheet of today; `node docs/answer.mjs` takes it anew", () => {
  expect(markIn(readFileSync(join(root, "docs/answer.png")))).toBe(markOf(exampleSheet()));
});

it("the picture of a screen in the guide shows the screen of today", () => {
  const mark = markOf(terminalOf(exampleScreen()));
  expect(markIn(readFileSync(join(root, "docs/screen.png")))).toBe(mark);
});
