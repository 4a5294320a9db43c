// Makes docs/answer.png, the picture of an answer in README.md: the upper half of the sheet of the shipped example.
// It needs the package built and a Chromium. Run from the root: node docs/answer.mjs
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { findChromium, launch } from "../test/browser/chromium.mjs";

const executable = findChromium();
if (!executable) throw new Error("there is no Chromium; name one in MASSTONE_CHROMIUM");
const folder = mkdtempSync(join(tmpdir(), "masstone-answer-"));
const sheet = join(folder, "sheet.html");
execFileSync("node", ["dist/cli.js", "correct", "examples/horsebox/job.json", "--report", sheet], {
  stdio: ["ignore", "ignore", "inherit"],
});
const browser = await launch(executable);
const page = await browser.newPage({ viewport: { width: 820, height: 700 }, colorScheme: "light" });
await page.goto(pathToFileURL(sheet).href);
await page.screenshot({ path: "docs/answer.png" });
await browser.close();
rmSync(folder, { recursive: true });
