import { basename, isAbsolute } from "node:path";
import type { NextLook } from "../correction/nextLook.js";
import type { BenchStep } from "../record/benchStep.js";
import { SCREEN_COLUMNS } from "../report/words/screenText.js";
import type { MassUnit } from "../toners/massUnit.js";
import { GRAMS_PER_OUNCE } from "../toners/typedGrams.js";
import type { Terminal } from "./terminal.js";

/** The record that a line is for, and how it is written there. */
export interface Called {
  readonly record: string;
  readonly unit: MassUnit;
  /** How the command is called here. */
  readonly program: string;
  /** What begins the record, where it is not there yet. */
  readonly begin?: readonly string[];
}

/**
 * A name for the record of a job or plan in a file: one that is still free, where the person stands or, for a file that
 * lies elsewhere, beside it.
 */
export function recordNamedAfter({ readRecord }: Pick<Terminal, "readRecord">, file: string): string {
  const stem = (isAbsolute(file) || file.startsWith("..") ? file : basename(file)).replace(/\.json$/, "");
  const isTaken = (path: string): boolean => {
    try {
      return Object.keys(readRecord(path)).length > 0;
    } catch {
      // What cannot be read is there.
      return true;
    }
  };
  const names = Array.from({ length: MOST_TRIED }, (_, i) => `${stem}${i === 0 ? "" : `-${i + 1}`}.record`);
  return names.find((path) => !isTaken(path)) ?? names[0];
}

/** Names that are tried: beyond it the line is refused when it is pasted. */
const MOST_TRIED = 20;

/** The last line of an answer, to be pasted once it is done. */
export function nextCommand(next: BenchStep, called: Called): string {
  const { record, unit, begin = [] } = called;
  if (next.kind === "compare") return pastedCommand(["compare", record, ...lookOf(next.look)], called);
  const noted = notesOf(next, unit);
  return pastedCommand([noted.length === 0 ? "next" : "record", record, ...begin, ...noted], called);
}

/** Words as a shell reads them; a line that is too long goes on behind a backslash. */
export function pastedCommand(args: readonly string[], { program }: Pick<Called, "program">): string {
  const words = [program, ...args.map(shellWord)];
  const lines: string[] = [];
  let line = "";
  for (let i = 0; i < words.length; i++) {
    // An option and its value stay on one line.
    const hasValue = words[i].startsWith("--") && i + 1 < words.length && !words[i + 1].startsWith("--");
    const word = hasValue ? `${words[i]} ${words[++i]}` : words[i];
    const longer = line === "" ? word : `${line} ${word}`;
    if (longer.length > SCREEN_COLUMNS - 4 && line !== "") {
      lines.push(`${line} \\`);
      line = `  ${word}`;
    } else line = longer;
  }
  return [...lines, line].join("\n");
}

/** Who looked puts in grades: a line that is pasted as it is, is refused. */
const lookOf = ({ target, card, illuminant }: NextLook): readonly string[] => [
  ...["--target", target, "--beside", card, "--light", illuminant],
  ...["--lighter", "GRADE", "--redder", "GRADE", "--yellower", "GRADE"],
];

function notesOf(next: BenchStep, unit: MassUnit): readonly string[] {
  switch (next.kind) {
    case "pour":
      return [
        ...(next.isNewPot ? ["--new-pot"] : []),
        ...(next.gramsOff ? ["--pour-off", typedAmount(next.gramsOff, unit)] : []),
        ...next.pours.flatMap(({ toner, grams }) => ["--pour", `${toner}=${typedAmount(grams, unit)}`]),
        "--card",
        CARD,
      ];
    case "read-card":
    case "respray":
      return ["--card", CARD];
    case "spray":
      return next.panels.flatMap((panel) => [
        "--sprayed",
        `${panel}=${typedAmount(next.grams / next.panels.length, unit)}`,
      ]);
    default:
      return [];
  }
}

/** What the file of the next card may be called. */
const CARD = "card.csv";

/** With its unit, so that it cannot be mistaken. */
export function typedAmount(grams: number, unit: MassUnit): string {
  return unit === "oz" ? `${(grams / GRAMS_PER_OUNCE).toFixed(3)}oz` : `${Number(grams.toFixed(3))}g`;
}

const shellWord = (word: string): string =>
  /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
