import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { exampleSheet, markIn, markOf } from "../../docs/answer.mjs";
import { checkBuildIsFresh, root } from "../package/consumer.ts";

checkBuildIsFresh();

it("the picture of an answer in README.md shows the sheet of today; `node docs/answer.mjs` takes it anew", () => {
  expect(markIn(readFileSync(join(root, "docs/answer.png")))).toBe(markOf(exampleSheet()));
});
