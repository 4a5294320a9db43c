import { EXIT } from "./terminal.js";
import { VERBS } from "./verbs.js";

/** The page that `masstone --help` shows. */
export function helpText(): string {
  const width = Math.max(...Object.keys(VERBS).map(({ length }) => length));
  const verbs = Object.entries(VERBS).map(
    ([name, { summary }]) => `  masstone ${name.padEnd(width)} FILE   ${summary}`,
  );
  return `masstone: from a measured card and a target to the grams of each toner to add

${verbs.join("\n")}

FILE is a masstone/job in JSON, for characterise a masstone/samples; "-" reads it from the standard input. The
files that it names are looked for beside it.

  --json          the whole answer as JSON on the standard output
  --out FILE      characterise: the toners, as a masstone/toners file
  --report FILE   characterise: a report for the browser, in one HTML file
  --help          this page
  --version       the version of the library

Exit codes: ${EXIT.answered} an answer was given (also "out-of-reach" and "undetermined": read its status),
${EXIT.refused} the input or the command line was refused, ${EXIT.defect} a defect in masstone itself.
`;
}
