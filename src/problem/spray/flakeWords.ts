import type { SprayDiagnosis } from "./diagnoseSpray.js";

const TOLD_BY = {
  texture: "the textures are unlike",
  size: "no spraying makes so much",
  "second-card": "a card sprayed otherwise does not explain the angles either",
} as const;

/** A diagnosis in words; empty where grams decide. */
export function flakeWords(spray: SprayDiagnosis | undefined): string {
  const { verdict = "alike", tilt = null, toldBy = "size" } = spray ?? {};
  switch (verdict) {
    case "alike":
      return "";
    case "not-hiding":
      return "The film does not hide: nothing is said of how flakes lie.";
    case "other-flake":
      return `Another grade of flake, or coarseness (${TOLD_BY[toldBy]}): choose another flake, no tinting helps.`;
    case "respray": {
      const way = (tilt ?? 0) < 0 ? "flatter" : "steeper";
      const percent = Math.round(100 * Math.abs(Math.expm1(tilt ?? 0)));
      return `The flakes lie ${way} on the panel by ${percent} %: spray a card so; grams cannot repair that.`;
    }
  }
}
