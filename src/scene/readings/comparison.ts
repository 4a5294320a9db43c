import { DIFFERENCE_PARTS } from "../../colorimetry/differenceParts.js";
import { ILLUMINANT, type IlluminantName } from "../../colorimetry/illuminant.js";
import { pathTo } from "../../core/check.js";
import { InputError } from "../../core/InputError.js";
import { list } from "../../core/shape/list.js";
import { number } from "../../core/shape/number.js";
import { oneOf } from "../../core/shape/oneOf.js";
import { optional } from "../../core/shape/optional.js";
import { type Noted, record } from "../../core/shape/record.js";
import { rule } from "../../core/shape/rule.js";
import type { Shape } from "../../core/shape/shape.js";
import { text } from "../../core/shape/text.js";
import { EYE_SCALES, type EyeScale, rangeOfGrade, stepsOf } from "./greyScale.js";

/**
 * How a panel differs from a card, in signed grades: below 0 the other way (darker, greener, bluer, less chromatic). A
 * component that is left out was not looked at; one without a difference has the grade of none (0; on the grey scale 5).
 */
export interface Grades extends Noted {
  readonly lighter?: number;
  readonly redder?: number;
  readonly yellower?: number;
  /** In the place of `redder` and `yellower`. */
  readonly moreChromatic?: number;
}

/** What an eye saw when a panel was held beside a card. */
export interface Comparison extends Noted {
  /** Name of a card of the job. */
  readonly card: string;
  /** The light of the booth, or daylight. */
  readonly illuminant: IlluminantName;
  readonly scale: EyeScale;
  /** How the panel, not the card, differs: grades, or `matches` where no difference is seen. */
  readonly targetIs: Grades | "matches";
  /** Who looked: eyes differ in how large a difference looks to them. */
  readonly observer?: string;
}

/** What to say in the place of words that mean different things to different people, or the other way round. */
const INSTEAD: Readonly<Record<string, string>> = Object.freeze({
  darker: "write `lighter` with a grade below 0",
  greener: "write `redder` with a grade below 0",
  bluer: "write `yellower` with a grade below 0",
  lessChromatic: "write `moreChromatic` with a grade below 0",
  cleaner: "say `moreChromatic`, and `lighter` where it is that too",
  brighter: "say `lighter` or `moreChromatic`: it may mean either",
  dirtier: "say `moreChromatic` with a grade below 0, and `lighter` where that differs too",
  duller: "say `moreChromatic` with a grade below 0",
  greyer: "say `moreChromatic` with a grade below 0",
  deeper: "say `lighter` with a grade below 0, or `moreChromatic`: it may mean either",
  stronger: "say `moreChromatic`, or `lighter` with a grade below 0: it may mean either",
  weaker: "say `moreChromatic` with a grade below 0, or `lighter`: it may mean either",
  warmer: "say `redder` or `yellower`: it may mean either",
  cooler: "say `redder` or `yellower` with a grade below 0: it may mean either",
});

const GRADE = number({ min: -5, max: 5 });

const NUMBER = { type: "number", minimum: -5, maximum: 5 } as const;

const GRADES = record<Grades>({
  lighter: optional(GRADE),
  redder: optional(GRADE),
  yellower: optional(GRADE),
  moreChromatic: optional(GRADE),
});

const TARGET_IS: Shape<Grades | "matches"> = Object.freeze<Shape<Grades | "matches">>({
  check: (value, path) => {
    if (value === "matches") return value;
    const word =
      typeof value === "string" ? value : Object.keys(value ?? {}).find((key) => Object.hasOwn(INSTEAD, key));
    if (word !== undefined) {
      const place = typeof value === "string" ? path : pathTo(path, word);
      const instead = Object.hasOwn(INSTEAD, word) ? INSTEAD[word] : "grades, or the word `matches`";
      throw new InputError("unknown-word", place, `"${word}" cannot be computed with: ${instead}`);
    }
    const grades = GRADES.check(value, path);
    const { lighter, redder, yellower, moreChromatic } = grades;
    if (moreChromatic !== undefined && (redder ?? yellower) !== undefined) {
      const reason = "says again what `redder` and `yellower` say; give one or the other";
      throw new InputError("duplicate", pathTo(path, "moreChromatic"), reason);
    }
    if ([lighter, redder, yellower, moreChromatic].every((grade) => grade === undefined)) {
      const reason = "one grade at least is needed: `lighter`, `redder`, `yellower` or `moreChromatic`";
      throw new InputError("missing", path, reason);
    }
    return grades;
  },
  form: {
    kind: "other",
    schema: {
      anyOf: [
        { const: "matches" },
        {
          type: "object",
          properties: { lighter: NUMBER, redder: NUMBER, yellower: NUMBER, moreChromatic: NUMBER },
        },
      ],
    },
  },
});

/** A comparison. Throws `unknown-word` for words that say too little, `out-of-range` for a grade the scale has not. */
export const COMPARISON = rule(
  record<Comparison>({
    card: text(),
    illuminant: ILLUMINANT,
    scale: oneOf(EYE_SCALES),
    targetIs: TARGET_IS,
    observer: optional(text()),
  }),
  ({ scale, targetIs }, path) => {
    if (targetIs === "matches") return;
    for (const [component, grade] of Object.entries(targetIs)) {
      if (typeof grade !== "number" || rangeOfGrade(scale, grade)) continue;
      const known = stepsOf(scale).map((step) => step.grade);
      const reason = `${scale} has no grade ${grade}; it has ${known.join(", ")}, with a minus for the other way`;
      throw new InputError("out-of-range", `${path}.targetIs.${component}`, reason);
    }
  },
);

/** What the grades of a comparison stand for; `matches`: no difference in lightness, redness and yellowness. */
export function rangesOfGrades({ scale, targetIs }: Comparison) {
  const none = scale === "iso-105-a02" ? 5 : 0;
  const grades = targetIs === "matches" ? { lighter: none, redder: none, yellower: none } : targetIs;
  return DIFFERENCE_PARTS.flatMap((component) => {
    const grade = (grades as Grades)[component];
    const range = grade === undefined ? undefined : rangeOfGrade(scale, grade);
    return range ? [{ component, ...range }] : [];
  });
}

/** Comparisons of one panel, each with a card and a light. */
export const COMPARISONS = list(COMPARISON, { max: 100 });
