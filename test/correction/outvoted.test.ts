import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import type { Reading } from "../../src/surface/reading.js";
import type { Grams } from "../../src/toners/pot.js";
import { createWorld, knownToners } from "../simulator/world.js";

const LEAN = { alternatives: false, wayOut: false } as const;
const { uncertainty: _, ...toners } = knownToners();
const world = createWorld(7002, toners);
const before = world.pour(world.formula("light", 200));
const first = world.card(before);
const panel = world.card(world.pour({ yellow: 20 }, before));

type NamedCard = readonly [name: string, pot: Grams, card: Reading];
const answer = (cards: readonly NamedCard[]) =>
  correct(
    {
      toners,
      viewing: { observer: "1964-10", illuminants: [{ name: "D65" }] },
      pot: cards[cards.length - 1][1],
      cards: cards.map(([name, pot, reading]) => ({ name, pot, readings: [reading] })),
      targets: [{ name: "panel", readings: [panel] }],
    },
    LEAN,
  );
const codes = (cards: readonly NamedCard[]) => answer(cards).warnings.map(({ code }) => code);

describe("two cards of one pot against those before them", () => {
  const more = world.pour({ black: 0.3 }, before);
  const noted: Grams = { ...before.shown, black: before.shown.black + 0.1 };
  const one: NamedCard = ["first", before.shown, first];
  const two: NamedCard = ["again", noted, world.card(more)];
  const three: NamedCard = ["once more", noted, world.card(more)];

  it("one that does not go with them is doubted, and nothing is poured", () => {
    expect(answer([one, two])).toMatchObject({ stopReason: "card-not-from-pot", additions: [] });
  });

  it("two that agree outvote them: the grams are those that follow from the two alone", () => {
    const { status, additions, warnings } = answer([one, two, three]);
    expect(status).toBe("corrected");
    expect(additions).toEqual(answer([two, three]).additions);
    const { message } = warnings.find(({ code }) => code === "cards-outvoted") ?? {};
    expect(message).toMatch(/^again and once more .* first, .* black had been poured/);
    expect(codes([two, three])).not.toContain("cards-outvoted");
  });

  it("what comes after goes by the two, and the answer still says so", () => {
    const later = world.pour({ yellow: 5 }, more);
    const four: NamedCard = ["last", { ...noted, yellow: (noted.yellow ?? 0) + 5 }, world.card(later)];
    expect(codes([one, two, three, four])).toContain("cards-outvoted");
    expect(answer([one, two, three, four]).additions).toEqual(answer([two, three, four]).additions);
  });

  it("not so if the same wrong card was read twice, or if the second is of yet another pot", () => {
    const pot = { ...before.shown, white: (before.shown.white ?? 0) + 60 };
    const old = (name: string): NamedCard => [name, pot, first];
    expect(answer([one, old("again"), old("once more")]).card).toMatchObject({
      verdict: "doubted",
      explanations: expect.arrayContaining([
        expect.objectContaining({ fault: { kind: "swapped-card", card: "first" } }),
      ]),
    });
    const other = { ...noted, black: noted.black + 0.001 };
    expect(codes([one, two, ["once more", other, three[2]]])).not.toContain("cards-outvoted");
  });
});
