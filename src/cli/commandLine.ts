import { parseArgs } from "node:util";
import { didYouMean } from "../core/didYouMean.js";
import { InputError } from "../core/InputError.js";
import { MASS_UNITS, type MassUnit } from "../toners/massUnit.js";
import { type Asked, DETAILS, type Detail, FLAG_DETAILS, OUTPUTS, type Output, type Verb } from "./verb.js";
import { VERBS } from "./verbs.js";

/** What a command line asks for. */
export type Command =
  | { readonly kind: "help"; readonly name?: string }
  | { readonly kind: "version" }
  | {
      readonly kind: "verb";
      readonly name: string;
      readonly file: string;
      readonly isJson: boolean;
      /** Each line of FILE is one input, and each answer one line. */
      readonly hasLines: boolean;
      /** With what stands behind the answer. */
      readonly isDetailed: boolean;
      /** Files that FILE names may lie anywhere. */
      readonly allowsOutside: boolean;
      readonly asked: Asked;
      readonly outputs: readonly (readonly [output: Output, path: string])[];
    };

const ALLOW_OUTSIDE = "allow-outside";
const LINES = "lines";
const WITH_DETAILS = "details";
const FLAGS = ["json", LINES, WITH_DETAILS, "help", "version", ALLOW_OUTSIDE] as const;
const UNIT = "unit";

/** Reads the arguments (without the program's own name). Throws `usage`, saying what would do. */
export function readCommandLine(args: readonly string[]): Command {
  const { values, positionals, details } = parse(args);
  if (values.version === true) return { kind: "version" };
  const isHelp = values.help === true || positionals[0] === "help";
  const [name, ...files] = positionals[0] === "help" ? positionals.slice(1) : positionals;
  if (name === undefined) {
    if (isHelp) return { kind: "help" };
    throw usage("which verb?");
  }
  if (!Object.hasOwn(VERBS, name)) {
    throw usage(`there is no verb "${name}".${didYouMean(name, Object.keys(VERBS))}`);
  }
  if (isHelp) return { kind: "help", name };
  const verb = VERBS[name];
  const outputs = OUTPUTS.flatMap((output) => {
    const path = values[output];
    return typeof path === "string" ? [[output, path] as const] : [];
  });
  const stray = details.find(([detail]) => verb.details?.[detail] === undefined);
  if (stray !== undefined) throw usage(`${name} has nothing for --${stray[0]}.`, name);
  if (values[ALLOW_OUTSIDE] === true && verb.file === undefined) {
    throw usage(`${name} has nothing for --${ALLOW_OUTSIDE}.`, name);
  }
  checkOutputs(name, verb, { outputs, isJson: values.json === true });
  const hasLines = values[LINES] === true;
  if (hasLines && !verb.takesLines) throw usage(`${name} has nothing for --${LINES}.`, name);
  const [other] = [...outputs, ...details];
  if (hasLines && other) throw usage(`--${LINES} and --${other[0]} do not go together.`, name);
  return {
    kind: "verb",
    name,
    file: firstFile(name, verb, files),
    isJson: values.json === true,
    hasLines,
    isDetailed: values[WITH_DETAILS] === true,
    allowsOutside: values[ALLOW_OUTSIDE] === true,
    asked: { unit: unitOf(name, verb, values[UNIT]), files, details },
    outputs,
  };
}

function firstFile(name: string, { file, takesMany = false }: Verb, files: readonly string[]): string {
  const wanted = file === undefined ? 0 : 1;
  if (files.length < wanted) throw usage(`${name} needs a FILE: ${file}.`, name);
  if (files.length > wanted && !takesMany) {
    throw usage(`${name} takes ${wanted === 0 ? "no" : "one"} FILE, not ${files.length}.`, name);
  }
  return files[0] ?? "";
}

function unitOf(name: string, { hasUnits = false }: Verb, value: unknown): MassUnit | undefined {
  if (value === undefined) return undefined;
  if (!hasUnits) throw usage(`${name} has nothing for --${UNIT}.`, name);
  const unit = MASS_UNITS.find((one) => one === value);
  if (unit === undefined) throw usage(`--${UNIT} is one of ${MASS_UNITS.join(", ")}, not "${value}".`, name);
  return unit;
}

function checkOutputs(
  name: string,
  verb: Verb,
  { outputs, isJson }: Pick<Extract<Command, { kind: "verb" }>, "outputs" | "isJson">,
): void {
  const unknown = outputs.find(([output]) => verb.outputs?.[output] === undefined);
  if (unknown !== undefined) throw usage(`${name} has nothing for --${unknown[0]}.`, name);
  const printed = outputs.filter(([, path]) => path === "-").map(([output]) => `--${output} -`);
  const all = [...printed, ...(isJson ? ["--json"] : [])];
  if (printed.length > 0 && all.length > 1) {
    throw usage(`only one of ${all.join(" and ")} can go to the standard output.`, name);
  }
}

function parse(args: readonly string[]) {
  const { values, positionals, tokens } = parseArgs({
    args: [...args],
    allowPositionals: true,
    strict: false,
    tokens: true,
    options: {
      json: { type: "boolean" },
      [LINES]: { type: "boolean" },
      help: { type: "boolean", short: "h" },
      version: { type: "boolean" },
      [WITH_DETAILS]: { type: "boolean" },
      [ALLOW_OUTSIDE]: { type: "boolean" },
      [UNIT]: { type: "string" },
      ...Object.fromEntries(DETAILS.map((detail) => [detail, { type: typeOf(detail) }])),
      ...Object.fromEntries(OUTPUTS.map((output) => [output, { type: "string" as const }])),
    },
  });
  const details: (readonly [Asked["details"][number][0], string])[] = [];
  for (const token of tokens) {
    if (token.kind !== "option") continue;
    const { name, rawName, value } = token;
    const isFlag = [...FLAGS, ...FLAG_DETAILS].some((flag) => flag === name);
    const known = [...FLAGS, ...OUTPUTS, ...DETAILS, UNIT];
    if (!known.some((one) => one === name)) {
      throw usage(`there is no option ${rawName}.${didYouMean(name, known).replace('"', '"--')}`);
    }
    if (isFlag && value !== undefined) throw usage(`${rawName} takes no value.`);
    if (name === UNIT) continue;
    const detail = DETAILS.find((one) => one === name);
    if (detail !== undefined) {
      if (!isFlag && (value === undefined || value === "")) throw usage(`${rawName} needs a value.`);
      details.push([detail, value ?? ""]);
      continue;
    }
    if (!isFlag && (value === undefined || value === "" || (value.startsWith("-") && value !== "-"))) {
      throw usage(`${rawName} needs the name of a file.`);
    }
  }
  return { values, positionals, details };
}

const typeOf = (detail: Detail) =>
  FLAG_DETAILS.includes(detail) ? ("boolean" as const) : ("string" as const);

function usage(reason: string, name?: string): InputError {
  const verbs = Object.keys(VERBS).join("|");
  const next = name === undefined ? `masstone ${verbs} FILE, or masstone --help` : `masstone ${name} --help`;
  return new InputError("usage", "", `${reason} Try: ${next}`);
}
