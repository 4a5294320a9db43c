export interface Tick {
  readonly value: number;
  readonly label: string;
}

export type Interval = readonly [low: number, high: number];

/** Values to pixels along one axis, with ticks a person can read. */
export interface Scale {
  readonly domain: Interval;
  readonly ticks: readonly Tick[];
  /** Pixel of a value; beyond the domain its nearer end, NaN for NaN. */
  at(value: number): number;
}

/** Nothing drawn is larger; with this bound no span overflows. */
const LARGEST = 1e9;

/** Lowest and highest of the finite values; [0, 1] where there are none. */
export function extent(values: Iterable<number>): Interval {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    const bounded = clamp(value, [-LARGEST, LARGEST]);
    low = Math.min(low, bounded);
    high = Math.max(high, bounded);
  }
  return low <= high ? [low, high] : [0, 1];
}

/** Spans below this, absolute and relative, are rounding, not data. */
const LEAST_SPAN = 1e-6;

/** A domain widened to whole steps of about `count` ticks; one of no width gets some. */
export function niceDomain([low, high]: Interval, count: number): Interval {
  const large = Math.max(Math.abs(low), Math.abs(high));
  const half = high - low < LEAST_SPAN * Math.max(1, large) ? Math.max(large * 0.1, 0.5) : 0;
  const step = niceStep(high - low + 2 * half, count);
  return [Math.floor((low - half) / step) * step, Math.ceil((high + half) / step) * step];
}

/** Equal steps of 1, 2 or 5 × 10ⁿ, about `count` of them, on a domain with low < high, from pixel to pixel. */
export function linearScale(domain: Interval, [from, to]: Interval, count: number): Scale {
  const [low, high] = domain;
  const step = niceStep(high - low, count);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return {
    domain,
    ticks: Array.from({ length: last - first + 1 }, (_, i) => {
      const value = (first + i) * step;
      return { value, label: signed(value.toFixed(decimals)) };
    }),
    at: (value) => from + ((clamp(value, domain) - low) / (high - low)) * (to - from),
  };
}

/** The 1, 2 or 5 × 10ⁿ nearest to span ÷ count by ratio. */
function niceStep(span: number, count: number): number {
  const power = 10 ** Math.floor(Math.log10(span / count));
  const rest = span / count / power;
  if (rest < Math.sqrt(2)) return power;
  if (rest < Math.sqrt(10)) return 2 * power;
  return rest < Math.sqrt(50) ? 5 * power : 10 * power;
}

/** With a minus sign as wide as a plus, and no minus before a zero. */
function signed(text: string): string {
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", "−");
}

export function clamp(value: number, [low, high]: Interval): number {
  return Math.min(high, Math.max(low, value));
}
