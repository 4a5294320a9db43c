// The page's own program: reads a job, solves it here in the browser, shows what to pour. A bundler turns it into
// page.js (see serve.mjs).
import { correct, isInputError } from "masstone";
import { readJob, readToners } from "masstone/formats";
import { SPRAYING_CAUTION, srgbHex } from "masstone/report";

const HEADLINES = {
  corrected: "With these pours every target is predicted within its tolerance.",
  "good-enough": "The card matches already: add nothing.",
  "out-of-reach": "No pours were found that reach these targets from this pot; this is the nearest found.",
  undetermined: "The readings cannot tell what to add.",
};

const form = document.querySelector("form");
form.addEventListener("change", async () => {
  const [job, toners] = [form.job.files[0], form.toners.files[0]];
  if (job && toners) solve(await job.text(), await toners.text());
});
const shipped = (name) => fetch(`horsebox/${name}.json`).then((response) => response.text());
solve(await shipped("job"), await shipped("toners"));

function solve(jobText, tonersText) {
  const place = document.querySelector("#answer");
  try {
    const job = readJob(jobText, () => readToners(tonersText));
    const answer = correct(job);
    place.replaceChildren(...show(job, answer));
    // For whoever wants the numbers: the page's tests compare them with those of Node.
    place.dataset.correction = JSON.stringify(answer);
  } catch (error) {
    if (!isInputError(error)) throw error;
    place.replaceChildren(make("p", { className: "headline" }, error.message));
  }
}

function show({ toners }, { status, additions, predictions, warnings }) {
  const nameOf = (id) => toners.toners.find((toner) => toner.id === id)?.name ?? id;
  let onScale = 0;
  const pours = additions.map(({ toner, grams }) => {
    onScale += grams;
    return [nameOf(toner), gramsText(grams), gramsText(onScale)];
  });
  const differences = predictions.map((one) => [
    `${one.target}, ${one.illuminant}`,
    ...[one.deltaE00Before, one.deltaE00After, one.deltaE00Allowed].map((value) => value.toFixed(2)),
  ]);
  return [
    make("p", { className: "headline" }, HEADLINES[status]),
    ...(warnings.length > 0 ? [list(warnings.map(({ message }) => message))] : []),
    ...(pours.length > 0
      ? [
          heading("Zero the scale with the cup on it, then pour in this order"),
          table(["toner", "grams", "scale shows"], pours),
        ]
      : []),
    heading("Colours"),
    swatches(predictions[0]),
    make("p", { className: "quiet" }, "A screen shows which colour is meant, not whether it matches."),
    heading("Difference from the targets (CIEDE2000, predicted)"),
    table(["target, light", "card", "after", "allowed"], differences),
    ...(pours.length > 0 ? [make("p", { className: "caution" }, SPRAYING_CAUTION)] : []),
  ];
}

function swatches({ target, labBefore, labAfter, labTarget }) {
  const colours = { "the card now": labBefore, "after the pours": labAfter, [target]: labTarget };
  const figures = Object.entries(colours).map(([name, lab]) => {
    const patch = make("span", {});
    patch.style.background = srgbHex(lab).hex;
    return make("figure", {}, patch, make("figcaption", { className: "quiet" }, name));
  });
  return make("div", { className: "swatches" }, ...figures);
}

function table(head, rows) {
  const cells = (tag, texts) =>
    texts.map((text, i) =>
      make(tag, { className: i > 0 ? "number" : "", ...(tag === "th" && { scope: "col" }) }, text),
    );
  const body = rows.map((row) => make("tr", {}, ...cells("td", row)));
  return make(
    "table",
    {},
    make("thead", {}, make("tr", {}, ...cells("th", head))),
    make("tbody", {}, ...body),
  );
}

function gramsText(grams) {
  return grams.toLocaleString("en-GB", { minimumFractionDigits: 1, maximumFractionDigits: 3 });
}

function list(texts) {
  return make("ul", { className: "warnings" }, ...texts.map((text) => make("li", {}, text)));
}

function heading(text) {
  return make("h2", {}, text);
}

function make(tag, properties, ...children) {
  const node = Object.assign(document.createElement(tag), properties);
  node.append(...children);
  return node;
}
