import type { DoubtCause } from "../correction/forecast/doubts.js";
import type { FirstPour, Forecast, Interval } from "../correction/forecast/forecast.js";
import type { RecoveryMargin } from "../correction/forecast/recoveryMargin.js";
import { allowedText } from "./allowedText.js";
import { IN_GRAMS, type MassDisplay, massCell, massHead, massText } from "./massText.js";
import { textTable } from "./textTable.js";
import { type TonerNames, tonerName } from "./tonerName.js";

const CAUSES: Readonly<Record<DoubtCause, string>> = {
  strength: "the strength of the cans",
  pouring: "the pouring",
  reading: "the instrument",
  targetReading: "the reading of the panel",
  spraying: "the spraying",
  gloss: "gloss",
  characterisation: "the characterisation of the toners",
  model: "the model",
  tie: "how the card is explained",
};

const POUR_WORDS: Readonly<Record<Forecast["pour"], string>> = {
  full: "All of it may be poured at once: there is a way back if the cans are stronger than said.",
  first: "To be safe, pour only the first grams and spray a card: pouring all may leave no way back.",
};

/** Causes of less than this share of the doubt go unnamed. */
const LEAST_SHARE = 0.1;

/** What to pour first, what the next card may show, and how much too much can be put right. */
export function forecastText(
  forecast: Forecast,
  names: TonerNames = {},
  display: MassDisplay = IN_GRAMS,
): string {
  const blocks = [
    ...(forecast.pours.length > 0 ? [poursText(forecast, names, display)] : []),
    cardsText(forecast),
    chancesText(forecast),
  ];
  return blocks.join("\n\n");
}

function poursText({ pours, safety, pour }: Forecast, names: TonerNames, display: MassDisplay): string {
  const rows = pours.map((each: FirstPour) => [
    tonerName(names, each.toner),
    massCell(each.firstGrams, display, each.toner),
    massCell(each.grams, display, each.toner),
    `± ${perCent(each.strengthSd)}`,
    marginText(each.margin, (grams) => massText(Number(grams.toFixed(1)), display, each.toner)),
  ]);
  const head = [
    "toner",
    "first",
    `of ${massHead(display)}`,
    "strength",
    "too much that can still be put right",
  ];
  return `${POUR_WORDS[pour]} Strength as its standard deviation; each first pour is not too much with ${perCent(safety)}.\n\n${textTable([head, ...rows], { right: [1, 2, 3] })}`;
}

function marginText({ kind, share, grams }: RecoveryMargin, mass: (grams: number) => string): string {
  const amount = `${perCent(share)} (${mass(grams)})`;
  switch (kind) {
    case "up-to":
      return share === 0 ? "nothing" : `up to ${amount}`;
    case "at-least":
      return `${amount} and more`;
    case "all-there-is-room-for":
      return `all that cup and stock allow, ${mass(grams)}`;
    case "none":
      return "no way was found even without";
  }
}

function cardsText({ level, full, first, pours }: Forecast): string {
  const isSame = pours.every(({ grams, firstGrams }) => grams === firstGrams);
  const rows = full.cards.map(({ target, geometry, illuminant, deltaE00, deltaE00Allowed }, i) => [
    target,
    geometry,
    illuminant,
    intervalText(deltaE00),
    ...(isSame ? [] : [intervalText(first.cards[i].deltaE00)]),
    allowedText(deltaE00Allowed),
  ]);
  const all = pours.length === 0 ? "as it is" : "all poured";
  const head = ["target", "geometry", "light", all, ...(isSame ? [] : ["first pours"]), "allowed"];
  return `What the next card will read (CIEDE2000, with ${perCent(level)}):\n\n${textTable([head, ...rows], { right: [3, 4, 5] })}`;
}

function chancesText({ full, first, causes, pours }: Forecast): string {
  const isSame = pours.every(({ grams, firstGrams }) => grams === firstGrams);
  const both = (of: (pour: Forecast["full"]) => number) =>
    isSame ? perCent(of(full)) : `${perCent(of(full))} with all, ${perCent(of(first))} with the first pours`;
  const named = (Object.entries(causes) as [DoubtCause, number][])
    .filter(([, share]) => share >= LEAST_SHARE)
    .sort(([, a], [, b]) => b - a)
    .map(([cause, share]) => `${CAUSES[cause]} ${perCent(share)}`);
  return [
    `  Within tolerance of every target: ${both(({ withinProbability }) => withinProbability)}.`,
    `  No way back by adding: ${both(({ noReturnProbability }) => noReturnProbability)}.`,
    ...(named.length > 0 ? [`  The doubt comes from ${named.join(", ")}.`] : []),
  ].join("\n");
}

const intervalText = ({ low, high }: Interval): string => `${low.toFixed(2)} to ${high.toFixed(2)}`;
const perCent = (share: number): string => `${(100 * share).toFixed(0)} %`;
