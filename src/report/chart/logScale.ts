import { clamp, type Interval, type Scale, type Tick } from "./scale.js";

/** Range of the values drawn on a log axis. */
const SMALLEST = 1e-9;
const LARGEST = 1e9;

/** Beyond this many decades only powers of ten get a tick, beyond that number of them only some. */
const DECADES_WITH_2_AND_5 = 2;
const MOST_POWERS = 7;

const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/**
 * Equal steps for equal ratios. The domain is widened to the next 1, 2 or 5 × 10ⁿ on both sides; values ≤ 0 have no
 * place on it and stand at its low end.
 */
export function logScale([low, high]: Interval, [from, to]: Interval): Scale {
  const least = Math.floor(stepOf(clamp(low, [SMALLEST, LARGEST])) + 1e-9);
  const most = Math.max(least + 1, Math.ceil(stepOf(clamp(high, [SMALLEST, LARGEST])) - 1e-9));
  const domain: Interval = [roundValue(least), roundValue(most)];
  const span = Math.log(domain[1] / domain[0]);
  return {
    domain,
    ticks: ticks(least, most),
    at: (value) => from + (Math.log(clamp(value, domain) / domain[0]) / span) * (to - from),
  };
}

/** 1, 2, 5, 10, 20, … numbered 0, 1, 2, 3, 4, …; between them by the logarithm. */
function roundValue(step: number): number {
  const power = Math.floor(step / 3);
  return Number(`${[1, 2, 5][step - 3 * power]}e${power}`);
}

function stepOf(value: number): number {
  const power = Math.floor(Math.log10(value));
  const rest = Math.log10(value) - power;
  const [two, five] = [Math.log10(2), Math.log10(5)];
  if (rest < two) return 3 * power + rest / two;
  return 3 * power + (rest < five ? 1 + (rest - two) / (five - two) : 2 + (rest - five) / (1 - five));
}

function ticks(least: number, most: number): readonly Tick[] {
  const steps = Array.from({ length: most - least + 1 }, (_, i) => least + i);
  const powers = steps.filter((step) => step % 3 === 0);
  const few = powers.length < 2 || (most - least) / 3 <= DECADES_WITH_2_AND_5;
  const every = Math.ceil(powers.length / MOST_POWERS);
  const shown = few ? steps : powers.filter((step) => (step / 3) % every === 0);
  return shown.map((step) => ({ value: roundValue(step), label: label(step) }));
}

/** Plain from 0.001 to 1000, and 10⁻⁴, 2·10⁻⁴ beyond. */
function label(step: number): string {
  const power = Math.floor(step / 3);
  if (power >= -3 && power <= 3) return `${roundValue(step)}`;
  const digits = [...`${Math.abs(power)}`].map((digit) => SUPERSCRIPTS[Number(digit)]).join("");
  const front = step === 3 * power ? "" : `${[1, 2, 5][step - 3 * power]}·`;
  return `${front}10${power < 0 ? "⁻" : ""}${digits}`;
}
