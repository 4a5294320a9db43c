import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { root } from "../package/consumer.ts";
import { findChromium, launch } from "./chromium.mjs";

const executable = findChromium();
if (!executable) {
  console.warn("SKIPPED: no Chromium here; .ci/run installs Debian's, or name one in MASSTONE_CHROMIUM");
}

const A4 = { width: 595, height: 842 };

/** The example's report of each verb that has one, and on how many sheets it has to fit. */
const REPORTS = [
  { verb: "correct", file: "examples/horsebox/job.json", sheets: 1 },
  { verb: "hold-back", file: "examples/horsebox/plan.json", sheets: 1 },
  { verb: "directions", file: "examples/horsebox/job.json", sheets: 1 },
  { verb: "learn", file: "examples/horsebox/job.record", sheets: 1, leastPictures: 1 },
  { verb: "characterise", file: "examples/ladder/samples.json" },
];

/** In the page: the least contrast of its texts on what lies behind them, by WCAG 2.2 (formula from memory). */
function leastContrast() {
  const parts = (colour) => (colour.match(/[\d.]+/g) ?? []).map(Number);
  const luminance = (colour) => {
    const [r, g, b] = parts(colour)
      .slice(0, 3)
      .map((byte) => byte / 255)
      .map((share) => (share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const paper = luminance(getComputedStyle(document.body).backgroundColor);
  const texts = [...document.querySelectorAll("h1, h2, h3, p, li, th, td, caption, figcaption, svg text")];
  const contrasts = texts
    .filter((node) => node.textContent.trim() !== "")
    .map((node) => {
      const style = getComputedStyle(node);
      const ink = luminance(node.closest("svg") ? style.fill : style.color);
      const [low, high] = [ink, paper].sort((a, b) => a - b);
      return { text: node.textContent.slice(0, 40), contrast: (high + 0.05) / (low + 0.05) };
    })
    .sort((a, b) => a.contrast - b.contrast);
  return { ...contrasts[0], texts: contrasts.length, paper };
}

describe.skipIf(!executable)("reports in a browser", () => {
  let browser;
  let folder = "";

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "masstone-reports-"));
    browser = await launch(executable ?? "");
    for (const { verb, file } of REPORTS) {
      const report = join(folder, `${verb}.html`);
      const { status, stderr } = spawnSync(
        process.execPath,
        [join(root, "dist/cli.js"), verb, join(root, file), "--report", report],
        { encoding: "utf8" },
      );
      expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    }
  }, 120_000);

  afterAll(async () => {
    await browser?.close();
    if (folder !== "") rmSync(folder, { recursive: true });
  });

  async function open(verb, options = {}) {
    const page = await browser.newPage({ viewport: { width: 900, height: 1200 }, ...options });
    const complaints = [];
    page.on("console", (message) => complaints.push(message.text()));
    page.on("pageerror", (error) => complaints.push(String(error)));
    page.on("request", (request) => complaints.push(`asks for ${request.url()}`));
    await page.goto(pathToFileURL(join(folder, `${verb}.html`)).href);
    return { page, complaints: complaints.filter((text) => !text.endsWith(`${verb}.html`)) };
  }

  describe.each(REPORTS)("$verb", ({ verb, sheets, leastPictures = 2 }) => {
    it("makes no request and logs nothing, with scripts forbidden", async () => {
      const { page, complaints } = await open(verb, { javaScriptEnabled: false });
      expect(complaints).toEqual([]);
      await page.close();
    });

    it.each(["light", "dark"])("has contrast AA of every text on %s paper", async (colorScheme) => {
      const { page } = await open(verb, { colorScheme });
      const { contrast, text, texts, paper } = await page.evaluate(leastContrast);
      expect(texts).toBeGreaterThan(50);
      expect(paper > 0.5).toBe(colorScheme === "light");
      expect(contrast, text).toBeGreaterThanOrEqual(4.5);
      await page.close();
    });

    it.each([360, 390, 900])("keeps inside a window of %i pixels", async (width) => {
      const { page } = await open(verb, { viewport: { width, height: 800 } });
      const overhang = await page.evaluate(() => {
        const right = (node) => node.getBoundingClientRect().right;
        return (
          Math.max(...[...document.querySelectorAll("figure, p, li, h1, h2")].map(right)) - window.innerWidth
        );
      });
      expect(overhang).toBeLessThanOrEqual(0);
      // A figure too wide for the window scrolls rather than being too small to read.
      const smallest = await page.evaluate(() =>
        Math.min(
          ...[...document.querySelectorAll("svg text")].map(
            (node) =>
              Number.parseFloat(getComputedStyle(node).fontSize) *
              (node.ownerSVGElement.getBoundingClientRect().width /
                node.ownerSVGElement.viewBox.baseVal.width),
          ),
        ),
      );
      expect(smallest).toBeGreaterThan(9);
      // What is weighed fits without scrolling; other tables may scroll, the page does not.
      const [whole, pours] = await page.evaluate(() => [
        document.documentElement.scrollWidth - window.innerWidth,
        Math.max(
          0,
          ...[...document.querySelectorAll(".pours")].map(
            ({ parentElement: { scrollWidth, clientWidth } }) => scrollWidth - clientWidth,
          ),
        ),
      ]);
      expect({ whole, pours }).toEqual({ whole: 0, pours: 0 });
      await page.close();
    });

    it("prints on A4, dark screens too on white paper", async () => {
      const { page } = await open(verb, { colorScheme: "dark" });
      const file = join(folder, `${verb}.pdf`);
      await page.pdf({ path: file, preferCSSPageSize: true, printBackground: true });
      const pdf = readFileSync(file, "latin1");
      const pages = pdf.match(/\/Type\s*\/Page\b(?!s)/g) ?? [];
      if (sheets !== undefined) expect(pages).toHaveLength(sheets);
      const [, width, height] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) ?? [];
      expect(Math.abs(Number(width) - A4.width)).toBeLessThan(1);
      expect(Math.abs(Number(height) - A4.height)).toBeLessThan(1);
      await page.emulateMedia({ media: "print", colorScheme: "dark" });
      expect((await page.evaluate(leastContrast)).paper).toBeGreaterThan(0.9);
      await page.close();
    });

    it("is readable by a screen reader: one h1, pictures with names, tables with captions", async () => {
      const { page } = await open(verb);
      const tree = await page.locator("main").ariaSnapshot();
      expect(tree.match(/- heading .* \[level=1\]/g)).toHaveLength(1);
      const pictures = tree.match(/- '?img .*/g) ?? [];
      expect(pictures.length).toBeGreaterThanOrEqual(leastPictures);
      for (const picture of pictures) expect(picture).toMatch(/- '?img "[^"]{10,}/);
      for (const table of tree.match(/- '?table .*/g) ?? []) expect(table).toMatch(/- '?table "[^"]{4,}/);
      expect(tree).toMatch(/- columnheader "/);
      expect(tree).toMatch(/- rowheader "/);
      await page.close();
    });
  });
});
