import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { correct } from "masstone";
import { readJob, readToners } from "masstone/formats";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { checkBuildIsFresh, root } from "../package/consumer.ts";
import { findChromium, launch } from "./chromium.mjs";

const executable = findChromium();
if (!executable) console.warn("SKIPPED: no Chromium here; .ci/run installs Debian's");

checkBuildIsFresh();
const file = join(root, "dist/playground.html");
const example = (name) => readFileSync(join(root, "examples/horsebox", name), "utf8");
const gramsOf = ({ additions }) => additions.map(({ toner, grams }) => [toner, grams]);

/** Contrast of each element's text to what lies behind it (WCAG 2.2, relative luminance); runs in the page. */
const contrastsOf = (elements) => {
  const rgb = (text) => text.match(/[\d.]+/g).map(Number);
  const linear = (c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  const luminance = (text) => {
    const [r, g, b] = rgb(text).map((c) => linear(c / 255));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  return elements.map((element) => {
    let behind = element;
    while (rgb(getComputedStyle(behind).backgroundColor)[3] === 0) behind = behind.parentElement;
    const texts = [getComputedStyle(element).color, getComputedStyle(behind).backgroundColor];
    const [dark, light] = texts.map(luminance).sort((one, other) => one - other);
    return (light + 0.05) / (dark + 0.05);
  });
};

it("weighs at most 300 kB, zipped", () => {
  const weight = gzipSync(readFileSync(file)).length;
  expect(weight).toBeLessThan(300_000);
});

describe.skipIf(!executable).each([
  ["desktop, from a host", { width: 1280, height: 900 }, "light"],
  ["phone, from its disk", { width: 390, height: 844 }, "dark"],
])("the playground on a %s", (place, viewport, colorScheme) => {
  let browser;
  let server;
  let page;
  let address;
  const complaints = [];
  const answered = () => page.waitForSelector("#said[data-correction]");

  beforeAll(async () => {
    server = createServer(({ url }, response) => {
      if (url !== "/") return response.writeHead(404).end();
      response.writeHead(200, { "content-type": "text/html; charset=utf-8" }).end(readFileSync(file));
    });
    await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
    const host = `http://127.0.0.1:${server.address().port}/`;
    address = place.endsWith("disk") ? pathToFileURL(file).href : host;
    browser = await launch(executable ?? "");
    page = await browser.newPage({ viewport, colorScheme });
    page.on("console", (message) => complaints.push(message.text()));
    page.on("pageerror", (error) => complaints.push(String(error)));
    page.on("request", (request) => {
      if (!/^(data:|about:)/.test(request.url()) && !request.url().startsWith(address))
        complaints.push(request.url());
    });
    await page.goto(address);
    await answered();
  }, 60_000);

  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  it("solves the example to the grams of Node and shows the sheet with its plots", async () => {
    const answer = JSON.parse(await page.getAttribute("#said", "data-correction"));
    const job = readJob(example("job.json"), () => readToners(example("toners.json")));
    expect(gramsOf(answer)).toEqual(gramsOf(correct(job, { forecast: true })));
    await page.frameLocator("#sheet").locator("svg").first().waitFor();
  });

  it("answers an instrument's CSV that is chosen, to the grams of Node, and says which file is missing", async () => {
    const script = (name) => readFileSync(join(root, "examples/script", name), "utf8");
    await page.fill("#job", script("job.json"));
    await page.waitForSelector("#said.refused");
    expect(await page.textContent("#said")).toMatch(/"readings\.csv".*\[unreadable-file\]/);
    await page.setInputFiles("#files", join(root, "examples/script/readings.csv"));
    await answered();
    const answer = JSON.parse(await page.getAttribute("#said", "data-correction"));
    const job = readJob(script("job.json"), () => readToners(example("toners.json")), script);
    expect(gramsOf(answer)).toEqual(gramsOf(correct(job, { forecast: true })));
    await page.getByRole("button", { name: "Put it in the address" }).click();
    await page.waitForFunction(() => location.hash.length > 1);
    const other = await browser.newPage();
    await other.goto(page.url());
    await other.waitForSelector("#said[data-correction]");
    await other.close();
    await page.getByRole("button", { name: "Example anew" }).click();
    await answered();
  });

  it("has one h1, a name for every control, enough contrast, and no way to scroll sideways", async () => {
    expect(await page.locator("h1").count()).toBe(1);
    for (const name of [/The pot, its card/, /^Toners/])
      expect(await page.getByRole("textbox", { name }).count()).toBe(1);
    expect(await page.getByLabel(/^Files of readings/).count()).toBe(1);
    for (const name of ["Correct", "Put it in the address", "Example anew"]) {
      expect(await page.getByRole("button", { name, exact: true }).count()).toBe(1);
    }
    const contrasts = await page
      .locator("h1, h2, p, a, label, textarea, input, button")
      .evaluateAll(contrastsOf);
    expect(Math.min(...contrasts)).toBeGreaterThanOrEqual(4.5);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    );
  });

  it("goes from control to control in the order of reading, by keyboard alone", async () => {
    await page.locator("h1").evaluate((heading) => {
      heading.tabIndex = -1;
      heading.focus();
    });
    const visited = [];
    for (let i = 0; i < 6; i++) {
      await page.keyboard.press("Tab");
      visited.push(
        await page.evaluate(() => document.activeElement.id || document.activeElement.textContent),
      );
    }
    expect(visited).toEqual(["job", "toners", "files", "Correct", "share", "reset"]);
  });

  it("says what is wrong with a job, and leaves no answer of another standing", async () => {
    await page.fill("#job", "{");
    await page.getByRole("button", { name: "Correct", exact: true }).click();
    expect(await page.textContent("#said")).toContain("[unreadable-json]");
    expect(await page.locator("#sheet").isHidden()).toBe(true);
    await page.getByRole("button", { name: "Example anew" }).click();
    await answered();
  });

  it("shares a changed job by the fragment of its address", async () => {
    const changed = JSON.stringify({ ...JSON.parse(example("job.json")), notes: { by: "Zoë" } });
    await page.fill("#job", changed);
    await page.getByRole("button", { name: "Put it in the address" }).click();
    await page.waitForFunction(() => location.hash.length > 1);
    const other = await browser.newPage();
    await other.goto(page.url());
    await other.waitForSelector("#said[data-correction]");
    expect(await other.inputValue("#job")).toBe(changed);
    await other.close();
  });

  it("logs nothing to the console and makes no other request", () => {
    expect(complaints).toEqual([]);
  });
});
