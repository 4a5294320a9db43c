// What is left on the shelf, from the shop's own file, as limits of the job: an answer never asks for more.
// Run: node examples/stock-file/correct.mjs
import { readFileSync } from "node:fs";
import { correct } from "masstone";
import { readJob, readToners } from "masstone/formats";
import { correctionText } from "masstone/report";

const file = (path) => readFileSync(new URL(path, import.meta.url), "utf8");

const job = readJob(file("../horsebox/job.json"), (name) => readToners(file(`../horsebox/${name}`)));
const limits = { ...job.limits, stockGrams: stockGrams(file("stock.csv")) };
const correction = correct({ ...job, limits });
const names = Object.fromEntries(job.toners.toners.map(({ id, name }) => [id, name ?? id]));
console.log(correctionText(correction, names));

/**
 * Grams by toner. A toner that is not in the file has no limit, so a line that cannot be read stops everything: taken
 * for "not in the file" it would ask for paint that is not there. Unknown toners are refused by `correct` itself.
 */
function stockGrams(csv) {
  const [head, ...lines] = csv.trim().split(/\r?\n/);
  if (head !== "toner,grams") throw new Error(`stock.csv: line 1 should be "toner,grams"`);
  const entries = lines.map((line, i) => {
    const [, toner, grams] = /^([^,]+),(\d+(?:\.\d+)?)$/.exec(line) ?? [];
    if (toner === undefined) throw new Error(`stock.csv: line ${i + 2} is no toner and grams: ${line}`);
    return [toner, Number(grams)];
  });
  const twice = entries.find(([toner], i) => entries.findIndex(([other]) => other === toner) < i);
  if (twice) throw new Error(`stock.csv: ${twice[0]} stands there twice`);
  return Object.fromEntries(entries);
}
