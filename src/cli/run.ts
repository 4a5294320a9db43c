import { version } from "../../package.json";
import { type InputError, isInputError } from "../core/InputError.js";
import { answerLines } from "./answerLines.js";
import { type Command, readCommandLine } from "./commandLine.js";
import { FileError, toFile } from "./files.js";
import { helpText, verbHelpText } from "./help.js";
import { type Screen, screenOf } from "./screen.js";
import { askSystem } from "./systemRefusal.js";
import { EXIT, type Terminal } from "./terminal.js";
import { VERBS } from "./verbs.js";

type AskedOfVerb = Extract<Command, { kind: "verb" }>;

/** Runs one command line (without the program's own name) and returns the exit code. */
export async function run(args: readonly string[], terminal: Terminal): Promise<number> {
  const screen = screenOf(terminal);
  try {
    return await obey(readCommandLine(args), screen);
  } catch (error) {
    if (isInputError(error)) {
      tell(error, screen);
      return EXIT.refused;
    }
    const trace = error instanceof Error ? error.stack : String(error);
    screen.writeError(
      `masstone: this is a defect in masstone, not in your input; please report it\n${trace}\n`,
    );
    return EXIT.defect;
  }
}

function tell(error: InputError, screen: Screen): void {
  const help = error instanceof FileError && error.help !== "" ? `${error.help}\n` : "";
  screen.writeError(`masstone: ${error.message}\n${help}`);
}

async function obey(command: Command, screen: Screen): Promise<number> {
  switch (command.kind) {
    case "version":
      screen.write(`${version}\n`);
      return EXIT.answered;
    case "help":
      screen.write(helpOf(command, screen));
      return EXIT.answered;
    case "verb":
      return answer(command, command.allowsOutside ? withoutWalls(screen) : screen);
  }
}

function helpOf({ name }: Extract<Command, { kind: "help" }>, { program }: Screen): string {
  return name === undefined ? helpText(program) : verbHelpText(program, name, VERBS[name]);
}

/** Files that another file names may lie anywhere; they must be regular ones all the same. */
function withoutWalls(screen: Screen): Screen {
  const open = ({ readFile }: Pick<Screen, "readFile">): Pick<Screen, "readFile"> => ({
    readFile: (path, named) => readFile(path, named && {}),
  });
  return {
    ...screen,
    ...open(screen),
    *readLines(path) {
      for (const line of screen.readLines(path)) yield open(line);
    },
  };
}

async function answer(command: AskedOfVerb, screen: Screen): Promise<number> {
  const { name, file, isJson, isDetailed, hasLines, asked, outputs } = command;
  const answerVerb = await VERBS[name].load();
  if (hasLines) return answerLines(screen, answerVerb, file, asked);
  const written = outputs.filter(([, path]) => path !== "-");
  for (const [, path] of written) askSystem("unwritable-file", path, () => screen.willWrite(path));
  const { record, text, more, files = {}, save, hasFailed = false } = answerVerb(screen, file, asked);
  const contentOf = (output: (typeof outputs)[number][0]) => files[output]?.() ?? "";
  const printed = outputs.find(([, path]) => path === "-");
  // A text that cannot be made is a defect: nothing is saved then.
  const said = printed || isJson ? "" : [text(), ...(isDetailed && more ? [more()] : [])].join("\n");
  const saves = written.map(
    ([output, path]) =>
      () =>
        toFile(screen, path, contentOf(output)),
  );
  const faults = [...(save ? [save] : []), ...saves].flatMap(faultOf);
  if (printed) screen.write(contentOf(printed[0]));
  else if (isJson) screen.write(`${JSON.stringify(record, null, 2)}\n`);
  else screen.writeAnswer(said);
  for (const fault of faults) tell(fault, screen);
  if (faults.length > 0) return EXIT.unsaved;
  return hasFailed ? EXIT.failed : EXIT.answered;
}

/** Why something could not be saved; nothing where it was. */
function faultOf(save: () => void): readonly InputError[] {
  try {
    save();
    return [];
  } catch (error) {
    if (isInputError(error)) return [error];
    throw error;
  }
}
