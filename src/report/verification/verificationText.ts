import type { Known } from "../../verification/check.js";
import type { CheckGroupResult, CheckResult, Count, Verification } from "../../verification/verify.js";
import { textTable } from "../words/textTable.js";

/** Word before a source, and its meaning. */
const KNOWN = {
  seen: { label: "Seen", means: "seen in an open file or paper" },
  computed: { label: "Computed", means: "computed by us in another way" },
  memory: { label: "From memory", means: "from memory, not looked up" },
} as const satisfies Record<Known, { readonly label: string; readonly means: string }>;

/**
 * A verification for whoever checks the maths: per source a table of what is expected, what came out, how far it is off
 * and how far it may be; of a check with several figures the one furthest off. Totals, and what failed, at the end.
 */
export function verificationText(verification: Verification): string {
  const { groups } = verification;
  const failed = groups.flatMap(({ title, checks }) =>
    checks.filter(({ passed }) => !passed).map((check) => `- ${title}: ${check.name}`),
  );
  const blocks = [
    "Published figures, worked out anew. Where a check has several, the one furthest off is shown.",
    ...groups.map(groupText),
    totalsText(verification),
    ...(failed.length > 0 ? [`These are off by more than is allowed:\n\n${failed.join("\n")}`] : []),
  ];
  return `${blocks.join("\n\n")}\n`;
}

function groupText({ title, source, known, remark, checks }: CheckGroupResult): string {
  const isRelative = checks.some(({ measure }) => measure === "relative");
  const head = ["", "expected", "got", "off by", "allowed", ""];
  const facts = [
    title,
    `  ${KNOWN[known].label}: ${source}.`,
    ...(remark === undefined ? [] : [`  ${remark}`]),
    ...(isRelative ? ["  Off by and allowed are shares of what is expected."] : []),
  ];
  return `${facts.join("\n")}\n\n${textTable([head, ...checks.map(checkRow)], { right: [1, 2, 3, 4] })}`;
}

function checkRow(check: CheckResult): readonly string[] {
  const { name, worst, figures, expected, got, deviation, allowed, passed, thrown } = check;
  return [
    figures > 1 ? `${name}; worst of ${figures}: ${worst}` : name,
    expected === null ? "–" : `${roundedTo(expected, 15)}`,
    got === null || expected === null ? "–" : gotText(got, expected, check),
    deviation === null ? "–" : deviationText(deviation),
    exponential(roundedTo(allowed, 2).toExponential()),
    passed ? "ok" : thrown === undefined ? "FAILED" : `FAILED: ${thrown}`,
  ];
}

/** With one digit more than the allowed deviation reaches. */
function gotText(got: number, expected: number, { measure, allowed }: CheckResult): string {
  const unit = measure === "relative" ? allowed * Math.abs(expected) : allowed;
  const digits = Math.ceil(Math.log10(Math.max(Math.abs(got), unit) / unit)) + 1;
  return `${roundedTo(got, Math.min(17, Math.max(1, digits)))}`;
}

function roundedTo(value: number, digits: number): number {
  return Number(value.toPrecision(digits));
}

/** 0 for deviations below the rounding of doubles near 1. */
function deviationText(deviation: number): string {
  return deviation < Number.EPSILON / 2 ? "0" : exponential(deviation.toExponential(1));
}

const exponential = (text: string): string => text.replace("e+", "e");

function totalsText({ passed, failedChecks, total, byKnown }: Verification): string {
  const headline = passed
    ? `All ${total.checks} checks of ${total.figures} figures hold.`
    : `${failedChecks} of ${total.checks} checks FAILED.`;
  const kinds = Object.keys(KNOWN) as Known[];
  const rows = kinds.map((known) => [KNOWN[known].means, ...countCells(byKnown[known])]);
  const table = textTable([["figures", "checks", "figures"], ...rows], { right: [1, 2] });
  return `${headline}\n\n${table}`;
}

function countCells({ checks, figures }: Count): readonly string[] {
  return [`${checks}`, `${figures}`];
}
