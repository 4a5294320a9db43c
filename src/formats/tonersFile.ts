import type { SpectraByGeometry } from "../toners/toner.js";
import { checkTonerSet, type TonerSet } from "../toners/tonerSet.js";
import { checkHeader, FORMAT_VERSIONS } from "./header.js";
import { parseJson } from "./json.js";

/** A toner set from the text of a `masstone/toners` file. Throws InputError with the place in the file. */
export function readToners(text: string): TonerSet {
  return checkTonerSet(checkHeader(parseJson(text), "masstone/toners"), "");
}

/** The text of a `masstone/toners` file; `readToners` of it gives the same set back. */
export function writeToners({ grid, surfaces, toners, uncertainty, misfit, learnt }: TonerSet): string {
  const plain = (spectra: SpectraByGeometry) =>
    Object.fromEntries(Object.entries(spectra).map(([geometry, values]) => [geometry, Array.from(values)]));
  const file = {
    format: "masstone/toners",
    version: FORMAT_VERSIONS["masstone/toners"],
    grid,
    surfaces,
    toners: toners.map((toner) => ({ ...toner, k: plain(toner.k), s: plain(toner.s) })),
    ...(uncertainty && {
      uncertainty: uncertainty.map((mode) =>
        Object.fromEntries(Object.entries(mode).map(([id, { k, s }]) => [id, { k: plain(k), s: plain(s) }])),
      ),
    }),
    ...(misfit !== undefined && { misfit }),
    ...(learnt && { learnt }),
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}
