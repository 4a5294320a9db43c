// Solves the job in the editor and shows the sheet. The build puts it into index.html: dist/playground.html.
import { correct, InputError, isInputError } from "masstone";
import { readJob, readToners } from "masstone/formats";
import { correctionHtml } from "masstone/report";
import exampleJob from "../../examples/horsebox/job.json";
import exampleToners from "../../examples/horsebox/toners.json";

const at = (id) => document.getElementById(id);
const [jobField, tonersField, filesField, chosen, said, shared, sheet] = [
  "job",
  "toners",
  "files",
  "chosen",
  "said",
  "shared",
  "sheet",
].map(at);

/** Texts of the files of readings that were chosen, by name. */
let files = new Map();

/** How long nobody must type before the job is solved, in ms. */
const REST = 400;
let waiting;

document.querySelector("form").addEventListener("submit", (event) => {
  event.preventDefault();
  solve();
});
for (const field of [jobField, tonersField]) {
  field.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(solve, REST);
  });
}
filesField.addEventListener("change", async () => {
  const some = await Promise.all(
    Array.from(filesField.files, async (file) => [file.name, await file.text()]),
  );
  useFiles(some);
  solve();
});
at("share").addEventListener("click", share);
at("reset").addEventListener("click", () => begin({}));
sheet.addEventListener("load", () => {
  const { documentElement } = sheet.contentDocument;
  sheet.style.height = `${documentElement.scrollHeight + 20}px`;
});
window.addEventListener("hashchange", open);
open();

function begin({ job = exampleJob, toners = exampleToners, readings = [] }) {
  jobField.value = job;
  tonersField.value = toners;
  filesField.value = "";
  useFiles(readings);
  solve();
}

function useFiles(some) {
  files = new Map(some);
  const names = Array.from(files.keys(), (name) => `{ "name": "${name}" }`).join(", ");
  chosen.textContent = files.size === 0 ? "" : `The job names them by "files": [${names}].`;
}

function textOf(name) {
  const text = files.get(name);
  if (text === undefined)
    throw new InputError("unreadable-file", "files", `choose the file "${name}" on this page`);
  return text;
}

function solve() {
  clearTimeout(waiting);
  try {
    const job = readJob(jobField.value, () => readToners(tonersField.value), textOf);
    const correction = correct(job, { forecast: true });
    tell(`${correction.status}: ${pours(job, correction)}`);
    said.dataset.correction = JSON.stringify(correction);
    sheet.srcdoc = correctionHtml(job, correction);
    sheet.hidden = false;
  } catch (error) {
    if (!isInputError(error)) throw error;
    tell(error.message, true);
  }
}

/** Says what came of it; an answer to what is no longer in the editor is not left standing. */
function tell(text, isRefused = false) {
  said.textContent = text;
  said.classList.toggle("refused", isRefused);
  jobField.setAttribute("aria-invalid", String(isRefused));
  if (!isRefused) return;
  delete said.dataset.correction;
  sheet.hidden = true;
}

function pours({ toners }, { additions }) {
  if (additions.length === 0) return "nothing to pour";
  const nameOf = (id) => toners.toners.find((toner) => toner.id === id)?.name ?? id;
  return additions.map(({ toner, grams }) => `${nameOf(toner)} ${grams} g`).join(", ");
}

/** The fragment of the address never goes to a server. Toners of the example are left out. */
async function share() {
  const toners = tonersField.value === exampleToners ? undefined : tonersField.value;
  location.hash = await packed(JSON.stringify({ job: jobField.value, toners, readings: [...files] }));
  shared.textContent = "The address of this page now holds the job. Copy it from there.";
}

async function open() {
  if (location.hash === "") return begin({});
  try {
    begin(JSON.parse(await unpacked(location.hash.slice(1))));
  } catch {
    begin({});
    shared.textContent = "The address holds no job that can be read: this is the example.";
  }
}

async function packed(text) {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  const binary = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

function unpacked(text) {
  const binary = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
  const bytes = Uint8Array.from(binary, (one) => one.charCodeAt(0));
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"))).text();
}
