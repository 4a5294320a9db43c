import type { Alternative, Choice, Correction, Tie, UnusedToner } from "../../correction/correction.js";
import { flakeWords } from "../../problem/spray/flakeWords.js";
import { IN_GRAMS, type MassDisplay, massText } from "../words/massText.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

/** What stands beside the pours of a correction. */
export interface CorrectionNotes {
  /** Other corrections and how they differ in kind, a line each. */
  readonly otherWays: readonly string[];
  /** Why these toners and not others, what a finer scale would bring, how far the search went. */
  readonly why: readonly string[];
}

type NameOf = (id: string) => string;

/** The notes of a correction in words. */
export function correctionNotes(
  correction: Correction,
  names: TonerNames,
  display: MassDisplay = IN_GRAMS,
): CorrectionNotes {
  const nameOf = (id: string) => tonerName(names, id);
  const { alternatives, ties, unused, objective, search, spray } = correction;
  return {
    otherWays: alternatives.map(
      (one) => `${alternativeText(one, nameOf, display)}${tiltText(one, correction, nameOf)}`,
    ),
    why: [
      ...(spray?.verdict === "not-hiding" ? [flakeWords(spray)] : []),
      ...(objective === "minimax"
        ? ["what is made small is the worst difference, each against its allowance"]
        : []),
      ...ties.map((tie) => tieText(tie, nameOf)),
      ...unusedTexts(
        unused.filter(({ toner }) => !ties.some(({ insteadOf }) => insteadOf.includes(toner))),
        nameOf,
      ),
      ...thriftText(correction, nameOf, display),
      ...finerText(correction, display),
      ...gapText(search.gapDeltaE00, search.method),
    ],
  };
}

const KINDS: Record<Alternative["kind"], string> = {
  blend: "pour nothing and blend every panel out",
  "fewer-pours": "with fewer pours",
  closer: "closer",
  "less-paint": "with less paint",
  "other-toners": "without",
};

function alternativeText(one: Alternative, nameOf: NameOf, display: MassDisplay): string {
  const kind = one.without === undefined ? KINDS[one.kind] : `${KINDS[one.kind]} ${nameOf(one.without)}`;
  return one.pours === 0
    ? `${kind}: ${leftText(one)}`
    : `${kind}: ${poursText(one, nameOf, display)}; ${leftText(one)}`;
}

/** Said where an alternative puts white into a pot with flake. */
function tiltText({ additions }: Choice, { warnings }: Correction, nameOf: NameOf): string {
  const tilting = warnings.flatMap(({ code, toners = [] }) => (code === "white-tilts-flake" ? toners : []));
  const white = additions.filter(({ toner }) => tilting.includes(toner)).map(({ toner }) => nameOf(toner));
  return white.length === 0 ? "" : `; ${white.join(", ")} tilts the flake: face and flop are known less well`;
}

function poursText({ additions }: Choice, nameOf: NameOf, display: MassDisplay): string {
  return additions
    .map(({ toner, grams }) => `${nameOf(toner)} ${massText(grams, display, toner)}`)
    .join(", ");
}

function leftText({ weightedDeltaE00, isWithinTolerance }: Choice): string {
  return `ΔE00 ${weightedDeltaE00.toFixed(2)}${isWithinTolerance ? "" : ", not within tolerance"}`;
}

const DECISIONS: Record<Tie["decidedBy"], string> = {
  stock: "leaves more in stock",
  grams: "needs fewer grams",
  recipe: "is in the pot already",
  order: "comes first by its id",
  scale: "suits the scale: a step of the other is too coarse",
};

function tieText({ toner, insteadOf, decidedBy }: Tie, nameOf: NameOf): string {
  return `${nameOf(toner)} rather than ${insteadOf.map(nameOf).join(", ")}, which would do the same: it ${DECISIONS[decidedBy]}`;
}

const REASONS: Record<UnusedToner["reason"], string> = {
  stock: "not in stock",
  room: "no room in the cup",
  "no-effect": "no effect on the colour",
  alike: "does the same as one that is poured",
  "wrong-way": "goes the wrong way",
  "little-gain": "gains less than a pour is worth",
  pours: "would help, but for the number of pours",
  "scale-step": "would help, were it not for whole steps and the least pour",
};

/** One line a reason. */
function unusedTexts(unused: readonly UnusedToner[], nameOf: NameOf): readonly string[] {
  return Object.entries(REASONS).flatMap(([reason, text]) => {
    const those = unused.filter((one) => one.reason === reason);
    return those.length > 0
      ? [`not used, ${text}: ${those.map(({ toner }) => nameOf(toner)).join(", ")}`]
      : [];
  });
}

function thriftText(
  { closest, additions, weightedDeltaE00 }: Correction,
  nameOf: NameOf,
  display: MassDisplay,
): readonly string[] {
  if (!closest) return [];
  const grams = additions.reduce((sum, one) => sum + one.grams, 0);
  return [
    `thrift: ${massText(grams, display)} of paint leave ΔE00 ${weightedDeltaE00.after.toFixed(2)}; the closest match would leave ${closest.weightedDeltaE00.toFixed(2)} and take ${massText(closest.grams, display)}: ${poursText(closest, nameOf, display)}`,
  ];
}

/** A gain below this gets no line. */
const WORTH_SAYING = 0.01;

function finerText({ finerScale, weightedDeltaE00 }: Correction, display: MassDisplay): readonly string[] {
  if (!finerScale || weightedDeltaE00.after - finerScale.weightedDeltaE00 < WORTH_SAYING) return [];
  const { stepGrams, weightedDeltaE00: finer } = finerScale;
  return [
    `a scale that shows ${massText(stepGrams, display)} would bring ΔE00 ${finer.toFixed(2)} instead of ${weightedDeltaE00.after.toFixed(2)}`,
  ];
}

function gapText(gap: number | null, method: Correction["search"]["method"]): readonly string[] {
  if (gap === null && method === "all-subsets-then-stepwise") {
    return ["beyond four pours the toners are found one by one: good, not proved best"];
  }
  return gap !== null && gap >= WORTH_SAYING
    ? [`a mix that the search did not look into would be better by no more than ΔE00 ${gap.toFixed(2)}`]
    : [];
}
