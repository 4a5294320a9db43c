import { GATES, LAYERS, MOST_LINES, MOST_PARAMETERS, NAMED_AFTER_SUBJECT, ROOMS } from "./layers.js";
import { importedPath, layerOf, type SourceFile } from "./sourceFile.js";

/** Says what breaks the rule, file by file; empty when all is well. */
export type Rule = (files: readonly SourceFile[]) => readonly string[];

const eachFile =
  (check: (file: SourceFile) => readonly string[]): Rule =>
  (files) =>
    files.flatMap((file) => check(file).map((what) => `${file.path}: ${what}`));

/** Where the command line reads its version. */
const PACKAGE_FROM_CLI = "../../package.json";

const isRelative = (from: string): boolean => from.startsWith(".");

export const knownFolder: Rule = eachFile(({ path }) =>
  path.includes("/") && LAYERS.some(({ folder }) => folder === layerOf(path)) ? [] : ["stands in no layer"],
);

export const allowedLayer: Rule = eachFile(({ path, imports }) => {
  const own = layerOf(path);
  const layer = LAYERS.find(({ folder }) => folder === own);
  const allowed = layer?.imports ?? [];
  return imports
    .filter(({ from }) => isRelative(from))
    .filter(({ from }) => {
      if (own === "cli" && from === PACKAGE_FROM_CLI) return false;
      const other = layerOf(importedPath(path, from));
      return other !== own && other !== "core" && !allowed.includes(other);
    })
    .map(({ from }) => `${own} may not import ${from}`);
});

const isIn = (folder: string, path: string): boolean => path === folder || path.startsWith(`${folder}/`);

export const knownRoom: Rule = eachFile(({ path }) => {
  const hasRooms = ROOMS.some(({ folder }) => layerOf(folder) === layerOf(path));
  return hasRooms && !ROOMS.some(({ folder }) => isIn(folder, path)) ? ["stands in no room"] : [];
});

export const wallsOfRooms: Rule = eachFile(({ path, imports }) => {
  const room = ROOMS.find(({ folder }) => isIn(folder, path));
  if (!room) return [];
  return imports
    .filter(({ from }) => isRelative(from))
    .map(({ from }) => importedPath(path, from))
    .filter((other) => !isIn(room.folder, other))
    .filter((other) => room.imports[layerOf(other)]?.every((allowed) => !isIn(allowed, other)))
    .map((other) => `${room.folder} may not import ${other}`);
});

export const onlyTypes: Rule = eachFile(({ path, hasCode }) =>
  hasCode && ROOMS.some(({ folder, isOnlyTypes }) => isOnlyTypes && isIn(folder, path))
    ? ["holds more than types"]
    : [],
);

export const packageAtItsGate: Rule = eachFile(({ path, imports }) =>
  imports
    .filter(({ from }) => !isRelative(from))
    .filter(({ from }) => {
      if (from.startsWith("node:")) return layerOf(path) !== "cli";
      const name = Object.keys(GATES).find((gate) => from === gate || from.startsWith(`${gate}/`));
      return name === undefined || GATES[name] !== path;
    })
    .map(({ from }) => `may not import ${from}`),
);

export const processInCommandLineOnly: Rule = eachFile(({ path, usesProcess }) =>
  usesProcess && layerOf(path) !== "cli" ? ["uses process"] : [],
);

export const importsEndInJs: Rule = eachFile(({ imports }) =>
  imports
    .filter(({ from }) => isRelative(from) && !/\.js(on)?$/.test(from))
    .map(({ from }) => `${from} does not end in .js`),
);

export const withoutCycles: Rule = (files) => {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const done = new Set<string>();
  const cycles: string[] = [];
  const visit = (path: string, above: readonly string[]): void => {
    const start = above.indexOf(path);
    if (start >= 0) cycles.push([...above.slice(start), path].join(" → "));
    const file = byPath.get(path);
    if (start >= 0 || !file || done.has(path)) return;
    for (const { from } of file.imports) {
      if (isRelative(from)) visit(importedPath(path, from), [...above, path]);
    }
    done.add(path);
  };
  for (const { path } of files) visit(path, []);
  return cycles;
};

export const shortEnough: Rule = eachFile(({ path, lines }) =>
  lines > MOST_LINES && !/\/data\//.test(path) ? [`${lines} lines; at most ${MOST_LINES}`] : [],
);

export const fewParameters: Rule = eachFile(({ mostParameters }) =>
  mostParameters > MOST_PARAMETERS ? [`a function has ${mostParameters} parameters`] : [],
);

const plain = (name: string): string => name.replaceAll(/[^A-Za-z0-9]/g, "").toLowerCase();

/** `root.ts` exports `findRoot`, `files.ts` `fromFile`: the name of the file is inside the name of an export. */
const isNamedAfterExport = ({ path, exported }: SourceFile): boolean => {
  const name = plain((path.split("/").at(-1) ?? "").replace(/\.ts$/, "")).replace(/s$/, "");
  return exported.some((other) => plain(other).includes(name));
};

export const namedAfterExport: Rule = eachFile((file) => {
  if (layerOf(file.path) === "doors" || file.path === "cli/main.ts") return [];
  const excepted = NAMED_AFTER_SUBJECT.includes(file.path);
  if (isNamedAfterExport(file)) return excepted ? ["needs no exception from the naming rule"] : [];
  return excepted
    ? []
    : [`is named after none of ${file.exported.join(", ") || "its exports: there are none"}`];
});

export const passesNothingOn: Rule = eachFile(({ path, passedOn }) =>
  layerOf(path) === "doors" ? [] : passedOn.map((from) => `passes on ${from}`),
);

export const quietWhenLoaded: Rule = eachFile(({ path, sideEffects }) =>
  path === "cli/main.ts" ? [] : sideEffects.map((text) => `does something when loaded: ${text.slice(0, 80)}`),
);
