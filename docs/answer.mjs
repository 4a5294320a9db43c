// Makes docs/answer.png, the picture of an answer in README.md: the upper half of the sheet of the shipped example; and
// docs/screen.png, the screen with which a planned job begins. It needs the package built and a Chromium. Run from the
// root: node docs/answer.mjs
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { crc32 } from "node:zlib";
import { findChromium, launch } from "../test/browser/chromium.mjs";

/** Keyword of the text in the picture that says which sheet it shows. */
const KEYWORD = "Source";
const IHDR_END = 33;

/** The sheet of the shipped example, as the built command writes it. */
export function exampleSheet() {
  const folder = mkdtempSync(join(tmpdir(), "masstone-answer-"));
  try {
    const sheet = join(folder, "sheet.html");
    execFileSync("node", ["dist/cli.js", "correct", "examples/horsebox/job.json", "--report", sheet], {
      stdio: ["ignore", "ignore", "inherit"],
    });
    return readFileSync(sheet, "utf8");
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The screen with which the planned job of the example begins, as the built command writes it when npx runs it. */
export function exampleScreen() {
  const folder = mkdtempSync(join(tmpdir(), "masstone-screen-"));
  try {
    for (const name of ["plan.json", "toners.json"])
      copyFileSync(join("examples/horsebox", name), join(folder, name));
    return execFileSync("node", [resolve("dist/cli.js"), "next", "car.record", "--plan", "plan.json"], {
      cwd: folder,
      encoding: "utf8",
      env: { ...process.env, npm_command: "exec", npm_lifecycle_script: "masstone" },
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A terminal of 80 columns with a text in it. */
export const terminalOf = (text) =>
  `<!doctype html><meta charset="utf-8"><body style="margin:0;background:#16181c"><pre style="margin:0;padding:14px;background:#16181c;color:#eceef1;font:13px/1.35 'DejaVu Sans Mono',monospace">${text.replaceAll("&", "&amp;").replaceAll("<", "&lt;")}</pre>`;

/** What a page says and how it looks, as a hash, but for its date and its curves, whose last digits an engine may change. */
export function markOf(sheet) {
  const lasting = sheet.replaceAll(/<svg[\s\S]*?<\/svg>/g, "").replaceAll(/\d{4}-\d{2}-\d{2}/g, "");
  return createHash("sha256").update(lasting).digest("hex");
}

/** The mark that a picture carries; empty where it has none. */
export function markIn(picture) {
  const [, mark = ""] = new RegExp(`tEXt${KEYWORD}\0([0-9a-f]{64})`).exec(picture.toString("latin1")) ?? [];
  return mark;
}

/** A PNG with a mark as its first text (PNG, 11.3.4.3). */
function withMark(picture, mark) {
  const data = Buffer.from(`tEXt${KEYWORD}\0${mark}`, "latin1");
  const [length, check] = [data.length - 4, crc32(data)].map((value) => {
    const bytes = Buffer.alloc(4);
    bytes.writeUInt32BE(value);
    return bytes;
  });
  return Buffer.concat([picture.subarray(0, IHDR_END), length, data, check, picture.subarray(IHDR_END)]);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const executable = findChromium();
  if (!executable) throw new Error("there is no Chromium; name one in MASSTONE_CHROMIUM");
  const folder = mkdtempSync(join(tmpdir(), "masstone-answer-"));
  const browser = await launch(executable);
  const [sheet, screen] = [exampleSheet(), terminalOf(exampleScreen())];
  for (const { name, content, width, height } of [
    { name: "answer", content: sheet, width: 820, height: 655 },
    { name: "screen", content: screen, width: 680, height: 476 },
  ]) {
    const path = join(folder, `${name}.html`);
    writeFileSync(path, content);
    const page = await browser.newPage({ viewport: { width, height }, colorScheme: "light" });
    await page.goto(pathToFileURL(path).href);
    writeFileSync(`docs/${name}.png`, withMark(await page.screenshot(), markOf(content)));
  }
  await browser.close();
  rmSync(folder, { recursive: true });
}
