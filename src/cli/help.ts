import { MASS_UNITS } from "../toners/massUnit.js";
import { EXIT } from "./terminal.js";
import { DETAILS, FLAG_DETAILS, OUTPUTS, type Verb } from "./verb.js";
import { VERBS } from "./verbs.js";

const EXIT_CODES = `Exit codes:
  ${EXIT.answered}  an answer was given (also "out-of-reach" and "undetermined": read its status)
  ${EXIT.defect}  a defect in masstone itself
  ${EXIT.refused}  the input or the command line was refused
  ${EXIT.failed}  verify: a published figure did not come out
  ${EXIT.unsaved}  an answer was given, but a file that was asked for could not be written
`;

/** The page that `masstone --help` shows. */
export function helpText(program: string): string {
  const forms = Object.entries(VERBS).map(([name, verb]) => [usageOf(program, name, verb), verb.summary]);
  return `masstone: from a measured card and a target to the grams of each toner to add

${columns(forms)}

FILE is read from the standard input when it is "-". The files that it names are looked for beside it and must lie
there or below.

${columns([
  ["  VERB --help", "what a verb takes and gives, with an example"],
  ["  --details", "below the answer, what stands behind it"],
  ["  --json", "the whole answer as JSON on the standard output"],
  ["  --lines", "FILE is JSON Lines: each line is one input, each answer one line, in order"],
  ["  --version", "the version of the library"],
])}

${EXIT_CODES}`;
}

/** The page that `masstone VERB --help` shows. */
export function verbHelpText(program: string, name: string, verb: Verb): string {
  const {
    summary,
    file,
    format,
    outputs = {},
    details = {},
    hasUnits = false,
    takesLines = false,
    isBegun = false,
    example,
  } = verb;
  const written = OUTPUTS.flatMap((output) => {
    const what = outputs[output];
    return what === undefined ? [] : [[`  --${output} FILE`, `${what}; "-" for the standard output`]];
  });
  const units = hasUnits
    ? [
        [
          "  --unit UNIT",
          `amounts for people in ${MASS_UNITS.join(", ")}; drops as the limits say what one weighs; JSON has grams`,
        ],
      ]
    : [];
  const own = DETAILS.flatMap((detail) => {
    const said = details[detail];
    if (said === undefined) return [];
    const [value, what] = FLAG_DETAILS.includes(detail) ? ["", said] : said.split(": ");
    return [[`  --${detail} ${value}`.trimEnd(), what]];
  });
  const outside =
    file === undefined || isBegun ? [] : [["  --allow-outside", "files that FILE names may lie anywhere"]];
  const json = ["  --json", `the whole answer as JSON, a ${format}`];
  const lines = takesLines
    ? [["  --lines", "each line of FILE is one input; each answer is one line, or a masstone/refusal"]]
    : [];
  const behind = ["  --details", "below the answer, what stands behind it"];
  const options = [behind, json, ...lines, ...own, ...units, ...written, ...outside];
  const input =
    file === undefined
      ? ""
      : isBegun
        ? `FILE is ${file}.\n\n`
        : `FILE is ${file}; "-" reads it from the standard input. The files that it names are looked for beside it and must lie there or below.\n\n`;
  return `${usageOf(program, name, verb).trim()}: ${summary}

${input}${columns(options)}

Example${example.includes("examples/") ? ", in a clone of the repository" : ""}:
  ${program} ${example}

${EXIT_CODES}`;
}

function usageOf(program: string, name: string, { file, takesMany = false }: Verb): string {
  const files = takesMany ? " FILE …" : " FILE";
  return `  ${program} ${name}${file === undefined ? "" : files}`;
}

function columns(rows: readonly (readonly string[])[]): string {
  const width = Math.max(...rows.map(([first]) => first.length));
  return rows.map(([first, second]) => `${first.padEnd(width)}   ${second}`).join("\n");
}
