import { parseArgs } from "node:util";
import { version } from "../../package.json";
import { InputError } from "../core/InputError.js";
import { toFile } from "./files.js";
import { helpText } from "./help.js";
import { EXIT, type Terminal } from "./terminal.js";
import { OUTPUTS, VERBS } from "./verbs.js";

/** Runs one command line (without the program's own name) and returns the exit code. */
export function run(args: readonly string[], terminal: Terminal): number {
  try {
    terminal.write(output(args, terminal));
    return EXIT.answered;
  } catch (error) {
    if (error instanceof InputError) {
      terminal.writeError(`masstone: ${error.message}\n`);
      return EXIT.refused;
    }
    const trace = error instanceof Error ? error.stack : String(error);
    terminal.writeError(
      `masstone: this is a defect in masstone, not in your input; please report it\n${trace}\n`,
    );
    return EXIT.defect;
  }
}

function output(args: readonly string[], terminal: Terminal): string {
  const { values, positionals } = parse(args);
  if (values.help) return helpText();
  if (values.version) return `${version}\n`;
  const [name, file, ...more] = positionals;
  if (name === undefined) throw refuse("which verb?");
  if (!Object.hasOwn(VERBS, name)) throw refuse(`there is no verb "${name}"`);
  if (file === undefined) throw refuse(`${name} needs a FILE`);
  if (more.length > 0) throw refuse(`${name} takes one FILE, not ${more.length + 1}`);
  const { record, text, files = {} } = VERBS[name].answer(terminal, file);
  for (const output of OUTPUTS) {
    const path = values[output];
    if (path === undefined) continue;
    const write = files[output];
    if (write === undefined) throw refuse(`${name} has nothing for --${output}.`);
    toFile(terminal, path, write());
  }
  return values.json ? `${JSON.stringify(record, null, 2)}\n` : text;
}

function parse(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        json: { type: "boolean" },
        out: { type: "string" },
        report: { type: "string" },
        help: { type: "boolean", short: "h" },
        version: { type: "boolean" },
      },
    });
  } catch (error) {
    throw refuse(error instanceof Error ? error.message : String(error));
  }
}

function refuse(reason: string): InputError {
  const verbs = Object.keys(VERBS).join("|");
  return new InputError("usage", "", `${reason} Try: masstone ${verbs} FILE, or masstone --help`);
}
