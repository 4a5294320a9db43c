import { version } from "../../package.json";
import { InputError } from "../core/InputError.js";
import { type Command, readCommandLine } from "./commandLine.js";
import { FileError, toFile } from "./files.js";
import { headlineInBold } from "./headlineInBold.js";
import { helpText, verbHelpText } from "./help.js";
import { EXIT, type Terminal } from "./terminal.js";
import { VERBS } from "./verbs.js";

/** Runs one command line (without the program's own name) and returns the exit code. */
export function run(args: readonly string[], terminal: Terminal): number {
  try {
    return obey(readCommandLine(args), terminal);
  } catch (error) {
    if (error instanceof InputError) {
      const help = error instanceof FileError && error.help !== "" ? `${error.help}\n` : "";
      terminal.writeError(`masstone: ${error.message}\n${help}`);
      return EXIT.refused;
    }
    const trace = error instanceof Error ? error.stack : String(error);
    terminal.writeError(
      `masstone: this is a defect in masstone, not in your input; please report it\n${trace}\n`,
    );
    return EXIT.defect;
  }
}

function obey(command: Command, terminal: Terminal): number {
  switch (command.kind) {
    case "version":
      terminal.write(`${version}\n`);
      return EXIT.answered;
    case "help":
      terminal.write(
        command.name === undefined ? helpText() : verbHelpText(command.name, VERBS[command.name]),
      );
      return EXIT.answered;
    case "verb":
      return answer(command, terminal);
  }
}

function answer(
  { name, file, isJson, asked, outputs }: Extract<Command, { kind: "verb" }>,
  terminal: Terminal,
): number {
  const { record, text, files = {}, hasFailed = false } = VERBS[name].answer(terminal, file, asked);
  let printed = isJson ? `${JSON.stringify(record, null, 2)}\n` : headlineInBold(text, terminal);
  for (const [output, path] of outputs) {
    const content = files[output]?.() ?? "";
    if (path === "-") printed = content;
    else toFile(terminal, path, content);
  }
  terminal.write(printed);
  return hasFailed ? EXIT.failed : EXIT.answered;
}
