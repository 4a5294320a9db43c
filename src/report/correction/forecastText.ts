import type { Cause } from "../../belief/spread.js";
import { perCent } from "../../core/perCent.js";
import type { FirstPour, Forecast, Interval } from "../../forecast/forecast.js";
import type { RecoveryMargin } from "../../forecast/recoveryMargin.js";
import { allowedText } from "../words/allowedText.js";
import { decimals } from "../words/decimals.js";
import { IN_GRAMS, type MassDisplay, massCell, massHead, massText } from "../words/massText.js";
import { textTable } from "../words/textTable.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

const CAUSES: Readonly<Record<Cause, string>> = {
  can: "the strength of the cans",
  toner: "what the characterisation missed of the toners",
  pot: "what is peculiar to this paint",
  surface: "the surface",
  film: "the spraying of the next card",
  pour: "the pouring",
  panel: "the panel, of which no spectrum was read",
  instrument: "what the instrument is off by",
  observer: "how large differences look to the eye",
  reading: "the instrument",
};

/** Cases of a hundred. */
const inHundred = (share: number): string => `${decimals(100 * share, 0)} of 100`;

/** Whether adding can put too much right, from the probabilities of the pours themselves. */
function wayBackText({ full, first, safety, pours }: Forecast): string {
  const isWhole = pours.every(({ grams, firstGrams }) => grams === firstGrams);
  const isSafe = ({ noReturnProbability }: Forecast["full"]) => noReturnProbability <= 1 - safety;
  const back = ({ noReturnProbability }: Forecast["full"]) => inHundred(1 - noReturnProbability);
  if (isSafe(full)) return `All of it may be poured at once: adding can still put it right in ${back(full)}.`;
  if (isWhole) return `Beware: poured, adding can put it right in no more than ${back(full)}.`;
  if (isSafe(first)) {
    return `Pour only the first grams and spray a card: after all of it adding can put it right in no more than ${back(full)}, after the first in ${back(first)}.`;
  }
  return `Beware: neither pour leaves a sure way back. Adding can put it right in ${back(full)} after all of it, in ${back(first)} after the first grams.`;
}

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

function poursText(forecast: Forecast, names: TonerNames, display: MassDisplay): string {
  const { pours, safety } = forecast;
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
  return `${wayBackText(forecast)} Strength as its standard deviation; each first pour is not too much with ${perCent(safety)}.\n\n${textTable([head, ...rows], { right: [1, 2, 3] })}`;
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
  const named = (Object.entries(causes) as [Cause, number][])
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
