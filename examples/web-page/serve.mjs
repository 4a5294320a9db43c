// Serves two pages on this machine alone: / is bundled, /plain.html loads the built modules as they are.
// Run: node examples/web-page/serve.mjs [port]
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const HTML = "text/html; charset=utf-8";
const SCRIPT = "text/javascript; charset=utf-8";

/** What a plain page loads of the checkout: the build, and of its dependencies what that imports. */
const LOADED = /^\/(dist|node_modules\/ml-matrix|node_modules\/colorjs\.io)\/([\w-]+\/)*[\w.-]+\.js$/;

/** Answers with the pages, the bundle, the built modules and the shipped example. */
export async function servePage(port = 0) {
  const { outputFiles } = await build({
    entryPoints: [here("page.mjs")],
    bundle: true,
    minify: true,
    format: "esm",
    platform: "browser",
    write: false,
    logLevel: "error",
  });
  const answers = {
    "/": async () => [HTML, await readFile(here("index.html"))],
    "/plain.html": async () => [HTML, await readFile(here("plain.html"))],
    "/ml-matrix.mjs": async () => [SCRIPT, await readFile(here("ml-matrix.mjs"))],
    "/page.js": () => [SCRIPT, outputFiles[0].contents],
    "/horsebox/job.json": async () => ["application/json", await readFile(here("../horsebox/job.json"))],
    "/horsebox/toners.json": async () => [
      "application/json",
      await readFile(here("../horsebox/toners.json")),
    ],
  };
  const answerTo = async (url) => {
    if (Object.hasOwn(answers, url)) return answers[url]();
    return LOADED.test(url) ? [SCRIPT, await readFile(here(`../..${url}`))] : undefined;
  };
  const server = createServer(async ({ url }, response) => {
    const answer = await answerTo(url).catch(() => undefined);
    response.writeHead(answer ? 200 : 404, answer && { "content-type": answer[0] }).end(answer?.[1]);
  });
  await new Promise((listening) => server.listen(port, "127.0.0.1", listening));
  return server;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const server = await servePage(Number(process.argv[2] ?? 8080));
  console.log(`http://127.0.0.1:${server.address().port}`);
}
