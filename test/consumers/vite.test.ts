import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "vite";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type Consumer, makeConsumer, root } from "../package/consumer.js";

let consumer: Consumer;
let elsewhere: string;

beforeAll(() => {
  consumer = makeConsumer();
  elsewhere = mkdtempSync(join(tmpdir(), "masstone-vite-"));
}, 120_000);

afterAll(() => {
  consumer?.remove();
  if (elsewhere) rmSync(elsewhere, { recursive: true });
});

const example = JSON.stringify(join(root, "examples/horsebox"));
const PAGE = `import { correct } from "masstone";
import { readJob, readToners } from "masstone/formats";
import { correctionText } from "masstone/report";
const { job, toners } = globalThis.given;
console.log(correctionText(correct(readJob(job, () => readToners(toners)))));`;
const HOST = (page: string) => `import { readFileSync } from "node:fs";
const text = (name) => readFileSync(${example} + "/" + name, "utf8");
globalThis.given = { job: text("job.json"), toners: text("toners.json") };
await import(${JSON.stringify(page)});`;

it("Vite bundles the installed package into one file for browsers that answers as the package does", async () => {
  const source = join(consumer.folder, "page.mjs");
  writeFileSync(source, PAGE);
  const out = join(elsewhere, "out");
  mkdirSync(out);
  await build({
    root: consumer.folder,
    configFile: false,
    logLevel: "error",
    build: { lib: { entry: source, formats: ["es"], fileName: "page" }, outDir: out, emptyOutDir: false },
  });
  // In a folder without node_modules: whatever the bundle had left outside would not be found.
  writeFileSync(join(out, "host.mjs"), HOST("./page.mjs"));
  const bundled = spawnSync(process.execPath, [join(out, "host.mjs")], { cwd: elsewhere, encoding: "utf8" });
  const plain = consumer.node({ "host.mjs": HOST("./page.mjs") }, "host.mjs");
  expect(bundled.stderr).toBe("");
  expect(bundled.stdout).toContain("scale shows");
  expect(bundled.stdout).toBe(plain.stdout);
}, 120_000);
