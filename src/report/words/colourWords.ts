import type { Lab } from "../../colorimetry/lab.js";

/** Smaller steps of L*, a*, b* or C* than this go unnamed, and larger ones lose their "a little" (our choice). */
const LEAST = 0.1;
const PLAIN = 0.5;
const MUCH = 4;

/** Below this chroma a colour is grey to the eye, whatever its chroma does (our choice). */
const GREY = 4;

/** Most words, and the least step that gets one, as a share of the largest (our choice). */
const MOST_WORDS = 3;
const LEAST_SHARE = 0.2;

/**
 * A change of colour in the words of the bench, strongest first: lighter/darker (L*), redder/greener (a*),
 * yellower/bluer (b*), more/less chromatic (C*, where there is chroma to speak of). Cleaner and dirtier are not said: comparisons
 * refuse these words, since they mean lightness to some.
 */
export function colourWords(from: Lab, to: Lab, most = MOST_WORDS): string {
  const chroma = ([, a, b]: Lab) => Math.hypot(a, b);
  const steps = [
    { by: to[0] - from[0], words: ["lighter", "darker"] },
    { by: to[1] - from[1], words: ["redder", "greener"] },
    { by: to[2] - from[2], words: ["yellower", "bluer"] },
  ];
  if (Math.max(chroma(from), chroma(to)) >= GREY) {
    steps.push({ by: chroma(to) - chroma(from), words: ["more chromatic", "less chromatic"] });
  }
  const largest = Math.max(...steps.map(({ by }) => Math.abs(by)));
  const said = steps
    .filter(({ by }) => Math.abs(by) >= Math.max(LEAST, LEAST_SHARE * largest))
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by))
    .slice(0, most)
    .map(({ by, words }) => `${strength(Math.abs(by))}${by > 0 ? words[0] : words[1]}`);
  return said.length > 0 ? said.join(", ") : "no change to see";
}

function strength(by: number): string {
  if (by < PLAIN) return "a little ";
  return by < MUCH ? "" : "much ";
}
