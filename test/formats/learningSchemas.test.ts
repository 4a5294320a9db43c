import Ajv from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import learningSchema from "../../docs/schemas/learning.json";
import recordSchema from "../../docs/schemas/record.json";
import tonersSchema from "../../docs/schemas/toners.json";
import { NO_ENTRIES, readRecord, recordLine } from "../../src/formats/jobRecord.js";
import { readToners, writeToners } from "../../src/formats/tonersFile.js";
import { learnStrengths } from "../../src/planning/learning/learnStrengths.js";
import { learningText } from "../../src/report/planning/learningText.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const ajv = new Ajv({ strict: true, allowUnionTypes: true });
const { toners, pot, card } = horseboxJob();
const learn = (change: (value: number) => number) =>
  learnStrengths({
    toners,
    pots: [
      {
        name: "horsebox",
        date: "2026-03-31",
        cans: { green: "17" },
        cards: [
          { name: "card 1", pot, readings: card.readings },
          {
            name: "card 2",
            pot,
            readings: card.readings.map((one) => ({
              ...one,
              reflectance: Array.from(one.reflectance, change),
            })),
          },
        ],
      },
    ],
  });

describe("what learning gives", () => {
  const learning = learn((value) => value + 0.03);

  it("fits its schema, doubts and all", () => {
    const fits = ajv.compile(learningSchema);
    expect(learning.cards.map(({ verdict }) => verdict)).toEqual(["believed", "doubted"]);
    expect(fits(JSON.parse(JSON.stringify(learning))), JSON.stringify(fits.errors)).toBe(true);
  });

  it("goes through a toner file and comes back", () => {
    const text = writeToners(learning.toners);
    const fits = ajv.compile(tonersSchema);
    expect(fits(JSON.parse(text)), JSON.stringify(fits.errors)).toBe(true);
    expect(readToners(text).learnt).toEqual(learning.toners.learnt);
  });

  it("is told with what to do about a card that is not believed", () => {
    const text = learningText(learning).replace(/\s+/g, " ");
    expect(text).toMatch(/^Learnt from 1 of 2 cards; 1 not believed\./);
    expect(text).toMatch(/card 2 is not believed .*re-measure it, stir, or check the last pour/);
    expect(text).toMatch(/too high or too low at all wavelengths/);
    expect(learningText(learn((value) => value))).toMatch(/^Learnt from 2 cards\./);
  });
});

describe("a line of a record", () => {
  it("fits its schema", () => {
    const fits = ajv.compile(recordSchema);
    for (const entry of [
      { kind: "job", job: { toners: "toners.json" } },
      { kind: "pour", toner: "white", grams: 12.5, can: "17" },
      { kind: "pour-off", grams: 5 },
      { kind: "card", name: "card 1", readings: card.readings },
      { kind: "withdraw", entry: 1 },
      { kind: "note", text: "stirred" },
    ] as const) {
      const { line } = recordLine({ end: NO_ENTRIES }, entry, "2026-03-31T14:05:00.000Z");
      expect(fits(JSON.parse(line)), JSON.stringify(fits.errors)).toBe(true);
      expect(readRecord(line).entries[0].entry).toEqual(entry);
    }
  });
});
