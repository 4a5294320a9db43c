import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { runInNewContext } from "node:vm";
import { root } from "../package/consumer.js";

interface Output {
  readonly output_type: string;
  readonly text?: readonly string[];
  readonly data?: { readonly "image/svg+xml": string | readonly string[] };
}

interface Cell {
  readonly cell_type: string;
  readonly source: readonly string[];
  readonly outputs?: readonly Output[];
}

/** What a notebook showed, in order. */
export interface Shown {
  readonly text: string;
  readonly figures: readonly string[];
}

const pathOf = (notebook: string) => join(root, "examples/notebook", notebook);

function codeOf(notebook: string): readonly Cell[] {
  const { cells } = JSON.parse(readFileSync(pathOf(notebook), "utf8")) as { readonly cells: readonly Cell[] };
  return cells.filter(({ cell_type }) => cell_type === "code");
}

/** What the file shows whoever opens it. Throws where a cell ended in an error. */
export function storedOutputs(notebook: string): Shown {
  const outputs = codeOf(notebook).flatMap((cell) => cell.outputs ?? []);
  const wrong = outputs.find(({ output_type }) => output_type === "error");
  if (wrong) throw new Error(`a cell of the notebook failed: ${JSON.stringify(wrong)}`);
  return {
    text: outputs.flatMap(({ text = [] }) => text).join(""),
    figures: outputs.flatMap(({ data }) => (data ? [[data["image/svg+xml"]].flat().join("")] : [])),
  };
}

/** The cells one after the other in this Node, without Jupyter: the kernel's `display` is the one stand-in. */
export function runNotebook(notebook: string): Shown {
  const path = pathOf(notebook);
  const lines: string[] = [];
  const figures: string[] = [];
  const load = createRequire(path);
  const beside = {
    ...load("node:fs"),
    readFileSync: (name: string, ...how: unknown[]) =>
      load("node:fs").readFileSync(join(dirname(path), name), ...how),
  };
  const kernel = { display: { svg: (svg: string) => figures.push(svg) } };
  const stand: Readonly<Record<string, unknown>> = { tslab: kernel, "node:fs": beside };
  runInNewContext(
    codeOf(notebook)
      .map(({ source }) => source.join(""))
      .join("\n"),
    {
      require: (name: string) => stand[name] ?? load(name),
      console: { log: (line: string) => lines.push(`${line}\n`) },
    },
  );
  return { text: lines.join(""), figures };
}
