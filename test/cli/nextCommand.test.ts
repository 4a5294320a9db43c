import { describe, expect, it } from "vitest";
import { readCommandLine } from "../../src/cli/commandLine.js";
import { nextCommand } from "../../src/cli/nextCommand.js";

describe("the line that is pasted", () => {
  it("notes another pot, what is poured off and every pour, each with its own value", () => {
    const pours = [
      { toner: "white", grams: 120 },
      { toner: "deep yellow", grams: 3.5 },
    ];
    const line = nextCommand(
      { kind: "pour", pours, gramsOff: 20, isNewPot: true },
      { record: "van.record", unit: "g", program: "masstone" },
    );
    const words = [...line.replaceAll("\\\n", " ").matchAll(/'([^']*)'|(\S+)/g)].map(
      ([, quoted, plain]) => quoted ?? plain,
    );
    expect(words[0]).toBe("masstone");
    const command = readCommandLine(words.slice(1));
    expect(command).toMatchObject({ kind: "verb", name: "record", file: "van.record" });
    expect(command.kind === "verb" && command.asked.details).toEqual([
      ["new-pot", ""],
      ["pour-off", "20g"],
      ["pour", "white=120g"],
      ["pour", "deep yellow=3.5g"],
      ["card", "card.csv"],
    ]);
  });
});
