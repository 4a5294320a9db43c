import type { Random } from "../../src/numeric/probability/random.js";
import type { Grams } from "../../src/toners/pot.js";

/** The groups by which results are broken down. */
export const GROUPS = ["light", "mid", "dark"] as const;
export type Group = (typeof GROUPS)[number];

const STRONG = ["blue", "green", "red", "red-oxide", "violet", "yellow", "yellow-oxide"];
const LET_DOWN = 0.1;
const HAS_LET_DOWN = ["black", "blue", "red", "violet", "yellow"];

/** A formula weighs out less than this of no toner: it takes the let-down instead. */
const LEAST_GRAMS = 1.5;

/**
 * A solid colour as a factory would formulate it, `grams` in all: white with a little of two to four others (light),
 * two or three chromatic toners with white (mid), or with black and hardly any white (dark).
 */
export function drawFormula(group: Group, random: Random, grams: number): Grams {
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const betweenLogs = (low: number, high: number) => Math.exp(between(Math.log(low), Math.log(high)));
  const some = (count: number, from: readonly string[]) => {
    const rest = [...from];
    return Array.from({ length: count }, () => rest.splice(random.integer(rest.length), 1)[0]);
  };
  const parts: Record<string, number> = {};
  if (group === "light") {
    parts.white = 100;
    for (const id of some(1 + random.integer(3), STRONG)) parts[id] = betweenLogs(0.15, 5);
    parts.black = betweenLogs(0.05, 1);
  } else if (group === "mid") {
    parts.white = between(15, 60);
    for (const id of some(2 + random.integer(2), STRONG)) parts[id] = between(5, 45);
    if (random.uniform() < 0.5) parts.black = betweenLogs(0.3, 4);
  } else {
    for (const id of some(2 + random.integer(2), STRONG)) parts[id] = between(10, 60);
    parts.black = between(3, 30);
    if (random.uniform() < 0.6) parts.white = between(1, 8);
  }
  return weighable(parts, grams);
}

/** Parts as grams; what is too little to weigh well comes as a let-down, where there is one. */
function weighable(parts: Readonly<Record<string, number>>, grams: number): Grams {
  const total = Object.values(parts).reduce((sum, part) => sum + part, 0);
  const chosen = Object.entries(parts).map(([id, part]): readonly [string, number] => {
    const isSmall = (part * grams) / total < LEAST_GRAMS && HAS_LET_DOWN.includes(id);
    return isSmall ? [`${id}-let-down`, part / LET_DOWN] : [id, part];
  });
  const sum = chosen.reduce((all, [, part]) => all + part, 0);
  return Object.fromEntries(chosen.map(([id, part]) => [id, Math.round((10 * part * grams) / sum) / 10]));
}
