import type { Correction, Obstacle } from "../../correction/correction.js";
import type { Grams } from "../../toners/pot.js";
import { allowedText } from "../words/allowedText.js";
import { colourWords } from "../words/colourWords.js";
import { faceAndFlopWords, type LabOfFaceAndFlop } from "../words/faceAndFlopWords.js";
import { dropsText, IN_GRAMS, type MassDisplay, massCell, massHead, massText } from "../words/massText.js";
import { type Standing, standings } from "../words/standings.js";
import type { Table } from "../words/table.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { predictedOf } from "./flopText.js";

/** The tables of a correction, the same in text and in HTML. */
export interface CorrectionTables {
  /** Pours in order, what the scale shows when it was zeroed before the first, and what each does to the colour. */
  readonly pours: Table;
  /** Colour differences per target, geometry and light. */
  readonly differences: Table;
  /** Flop indices, and what a target is against the card from both sides; no rows where none was seen at several angles. */
  readonly flop: Table;
  /** What is in the way, a line each. */
  readonly obstacles: readonly string[];
}

/** The tables of a correction; an id stands for itself where there is no name. */
export function correctionTables(
  correction: Correction,
  names: TonerNames,
  display: MassDisplay = IN_GRAMS,
): CorrectionTables {
  const nameOf = (id: string) => tonerName(names, id);
  return {
    pours: poursTable(
      correction,
      Object.fromEntries(correction.additions.map(({ toner, grams }) => [toner, grams])),
      nameOf,
      display,
    ),
    differences: differencesTable(correction),
    flop: flopTable(correction),
    obstacles: obstacleTexts(correction, nameOf, display),
  };
}

/** Rows for some grams of each addition, in their order, with what each does to the colour. */
export function poursTable(
  { additions, predictions }: Correction,
  now: Grams,
  nameOf: (id: string) => string,
  display: MassDisplay,
): Table {
  let onScale = 0;
  let colour = predictions[0].labBefore;
  let sides: LabOfFaceAndFlop | undefined = standings({ predictions })[0]?.card;
  const poured = additions.filter(({ toner }) => Object.hasOwn(now, toner) && now[toner] > 0);
  return {
    head: ["", "pour", massHead(display), "scale shows", "which makes it"],
    rows: poured.map(({ toner, grams: all, drops, labAfter, faceAndFlop }, i) => {
      const grams = now[toner];
      onScale += grams;
      const does =
        sides && faceAndFlop ? faceAndFlopWords(sides, faceAndFlop) : colourWords(colour, labAfter);
      colour = labAfter;
      sides = faceAndFlop;
      const amount = massCell(grams, display, toner);
      const counted =
        drops === null || grams !== all || display.unit === "drops"
          ? amount
          : `${dropsText(drops)}, ${amount}`;
      return [`${i + 1}`, nameOf(toner), counted, massCell(onScale, display), does];
    }),
    right: [2, 3],
  };
}

function differencesTable(correction: Correction): Table {
  const { predictions } = correction;
  const after = predictedOf(correction);
  const head = ["target", "geometry", "light", "card", after === "sprayed so" ? after : "after", "allowed"];
  const rows = predictions.map((prediction) => [
    prediction.target,
    prediction.geometry,
    prediction.illuminant,
    prediction.deltaE00Before.toFixed(2),
    prediction.deltaE00After.toFixed(2),
    allowedText(prediction.deltaE00Allowed),
    colourWords(prediction.labTarget, prediction.labAfter),
  ]);
  if (after === null) {
    const withoutAfter = (cells: readonly string[]) => cells.toSpliced(4, 1);
    return {
      head: withoutAfter([...head, "against the target it is"]),
      rows: rows.map(withoutAfter),
      right: [3, 4],
    };
  }
  return { head: [...head, "against the target it will be"], rows, right: [3, 4, 5] };
}

function flopTable(correction: Correction): Table {
  const index = (value: number | null) => (value === null ? "–" : value.toFixed(1));
  const after = predictedOf(correction);
  const indices = (one: Standing) => [
    one.flop.card,
    ...(after === null ? [] : [one.flop.after]),
    one.flop.aim,
  ];
  const heads = ["card", ...(after === null ? [] : [after]), "target"];
  return {
    head: ["target", ...heads, "against the card it is"],
    rows: standings(correction).map((one) => [
      one.target,
      ...indices(one).map(index),
      faceAndFlopWords(one.card, one.aim),
    ]),
    right: heads.map((_, i) => i + 1),
  };
}

/** What holds a correction back, a line each. */
export function obstacleTexts(
  { obstacles, wayOut }: Correction,
  nameOf: (id: string) => string,
  display: MassDisplay,
): readonly string[] {
  // Where a new pot of the same toners is within tolerance, the toners are no obstacle.
  return obstacles
    .filter(({ kind }) => kind !== "toners" || wayOut?.newPot?.isWithinTolerance !== true)
    .map((obstacle) => obstacleText(obstacle, nameOf, display));
}

/** Figures of an amount that is an estimate. */
const ESTIMATED = 3;

function obstacleText(obstacle: Obstacle, nameOf: (id: string) => string, display: MassDisplay): string {
  switch (obstacle.kind) {
    case "too-much-in-pot":
      return `the pot holds about ${massText(Number(obstacle.grams.toPrecision(ESTIMATED)), display, obstacle.toner)} too much ${nameOf(obstacle.toner)}, which cannot be taken out`;
    case "stock":
      return `all the ${nameOf(obstacle.toner)} in stock is used`;
    case "room":
      return "the cup is full";
    case "pours":
      return "it would take more pours than are allowed";
    case "scale-step":
      return "the scale's step or the least pour is too coarse: in finer amounts it would match";
    case "toners":
      return "no mix of these toners was found that makes that colour";
  }
}
