import type { BenchStep } from "../record/benchStep.js";
import { SCREEN_COLUMNS } from "../report/words/screenText.js";
import type { MassUnit } from "../toners/massUnit.js";
import { GRAMS_PER_OUNCE } from "../toners/typedGrams.js";

/** The last line of an answer, to be pasted once it is done; a long one goes on behind a backslash. */
export function nextCommand(record: string, next: BenchStep, unit: MassUnit): string {
  const noted = notesOf(next, unit).map(shellWord);
  const words = ["masstone", noted.length === 0 ? "next" : "record", shellWord(record), ...noted];
  const lines: string[] = [];
  let line = "";
  for (let i = 0; i < words.length; i++) {
    // An option and its value stay on one line.
    const word = words[i].startsWith("--") && i + 1 < words.length ? `${words[i]} ${words[++i]}` : words[i];
    const longer = line === "" ? word : `${line} ${word}`;
    if (longer.length > SCREEN_COLUMNS - 4 && line !== "") {
      lines.push(`${line} \\`);
      line = `  ${word}`;
    } else line = longer;
  }
  return [...lines, line].join("\n");
}

function notesOf(next: BenchStep, unit: MassUnit): readonly string[] {
  switch (next.kind) {
    case "pour":
      return [
        ...(next.isNewPot ? ["--new-pot", "yes"] : []),
        ...(next.gramsOff ? ["--pour-off", amount(next.gramsOff, unit)] : []),
        ...next.pours.flatMap(({ toner, grams }) => ["--pour", `${toner}=${amount(grams, unit)}`]),
        "--card",
        CARD,
      ];
    case "read-card":
      return ["--card", CARD];
    case "spray":
      return next.panels.flatMap((panel) => [
        "--sprayed",
        `${panel}=${amount(next.grams / next.panels.length, unit)}`,
      ]);
    default:
      return [];
  }
}

/** What the file of the next card may be called. */
const CARD = "card.csv";

/** With its unit, so that it cannot be mistaken. */
function amount(grams: number, unit: MassUnit): string {
  return unit === "oz" ? `${(grams / GRAMS_PER_OUNCE).toFixed(3)}oz` : `${Number(grams.toFixed(3))}g`;
}

const shellWord = (word: string): string =>
  /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
