import { describe, expect, it } from "vitest";
import { nextCommand } from "../../src/cli/nextCommand.js";
import type { Texture } from "../../src/problem/job.js";
import { jobState } from "../../src/record/jobState.js";
import type { DatedEntry, RecordEntry } from "../../src/record/recordEntry.js";
import { whatNext } from "../../src/record/whatNext.js";
import { jobStateText } from "../../src/report/record/jobStateText.js";
import { whatNextText } from "../../src/report/record/whatNextText.js";
import { IN_GRAMS } from "../../src/report/words/massText.js";
import { readingsLying, withOrientation } from "../fixtures/threeAngles.js";

const toners = withOrientation();
const pot = { silver: 80, black: 10, blue: 10 };
const dated = (entries: readonly RecordEntry[]): readonly DatedEntry[] =>
  entries.map((entry, number) => ({ number, at: "2026-03-31T14:05:00.000Z", entry }));
const card = (name: string, x: number): RecordEntry => ({
  kind: "card",
  name,
  readings: readingsLying(pot, x),
});
const begun = (x: number, texture: Texture = "same"): readonly RecordEntry[] => [
  {
    kind: "job",
    job: {
      viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
      targets: [{ name: "door", readings: readingsLying(pot, x), texture }],
    },
  },
  ...Object.entries(pot).map(([toner, grams]): RecordEntry => ({ kind: "pour", toner, grams })),
  card("card 1", 0),
];
const ask = (entries: readonly RecordEntry[]) => {
  const { answer, note } = whatNext(dated(entries), toners, { library: "0.1.0" });
  return { answer, after: note ? [...entries, note] : entries };
};
const said = (entries: readonly RecordEntry[]) => {
  const { answer } = ask(entries);
  const command = nextCommand(answer.next, { unit: "g", program: "masstone", record: "door.record" });
  return whatNextText(answer, pot, { names: {}, display: IN_GRAMS, command, mend: "" });
};

describe("a record of flake that lies otherwise", () => {
  it("asks for a card sprayed so, and is done where that card matches", () => {
    const first = ask(begun(0.15));
    expect(first.answer.next).toMatchObject({ kind: "respray" });
    expect(first.answer.why).toMatch(/lie steeper on the panel by \d+ %/);
    expect(said(begun(0.15))).toMatch(/spray a card so.*\nmasstone record door\.record --card/s);
    // Asked again it says the same, from the note alone.
    const again = ask(first.after);
    expect([again.answer.next, again.answer.correction]).toEqual([first.answer.next, null]);
    expect(again.answer.why).toBe(first.answer.why);
    expect(said(first.after)).toContain("with its flakes lying steeper");
    const state = jobState(dated(first.after));
    expect(jobStateText(state, { names: {}, remarks: [], added: [] })).toContain("flakes lying steeper");
    const second = ask([...first.after, card("card 2", 0.15)]);
    expect(second.answer.next).toEqual({ kind: "done", status: "good-enough" });
  });

  it("asks for pours before that card where the paint differs too", () => {
    const [job, ...poured] = begun(0.15);
    const other = readingsLying({ ...pot, blue: 18 }, 0.15);
    const targets = [{ name: "door", readings: other }];
    const entries: readonly RecordEntry[] = [
      job.kind === "job" ? { ...job, job: { ...job.job, targets } } : job,
      ...poured,
    ];
    const first = ask(entries);
    const { tilt } = first.answer.correction?.spray ?? {};
    const pours = first.answer.correction?.additions.map(({ toner, grams }) => ({ toner, grams }));
    expect(pours).toHaveLength(1);
    expect(first.answer.next).toEqual({ kind: "pour", pours, tilt });
    expect(said(entries)).toMatch(/its paint differs too.*blue.*spray a card so.*--pour blue=.*--card/s);
    expect(said(first.after)).toMatch(/blue.*spray a card with its flakes lying steeper/s);
    const text = (after: readonly RecordEntry[]) =>
      jobStateText(jobState(dated(after)), { names: {}, remarks: [], added: [] });
    expect(text(first.after)).toMatch(/pour .*blue; then spray a card with its flakes lying\s+steeper/s);
    // The pour is noted, the card is not yet: it is still asked for so.
    const pour: RecordEntry = { kind: "pour", toner: "blue", grams: pours?.[0].grams ?? 0 };
    const then = ask([...first.after, pour]);
    expect(then.answer.next).toEqual({ kind: "respray", tilt });
    expect(said([...first.after, pour])).toMatch(/Stir, spray a card with its flakes lying steeper/);
    expect(said([...first.after, pour])).not.toMatch(/pour nothing|grams cannot/i);
    expect(text([...first.after, pour])).toContain("flakes lying steeper");
    const last: RecordEntry = { kind: "card", name: "card 2", readings: other };
    expect(ask([...first.after, pour, last]).answer.next).toEqual({ kind: "done", status: "good-enough" });
  });

  it("ends where another flake is needed, and asks for no card of this pot", () => {
    const { answer, after } = ask(begun(0.15, "coarser"));
    expect(answer.next).toEqual({ kind: "done", status: "other-flake" });
    for (const text of [said(begun(0.15, "coarser")), said(after)]) {
      expect(text).toMatch(/look for a formula with another flake/i);
      expect(text).not.toContain("spray a card");
    }
    const state = jobState(dated(after));
    expect(jobStateText(state, { names: {}, remarks: [], added: [] })).toMatch(/begin\s+another pot/);
  });
});
