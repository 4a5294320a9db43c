import type { SprayDiagnosis } from "./diagnoseSpray.js";

const TOLD_BY = {
  texture: "the textures are unlike",
  size: "no spraying makes so much",
  "second-card": "a card sprayed otherwise does not explain the angles either",
} as const;

const way = (tilt: number): string => (tilt < 0 ? "flatter" : "steeper");

/** How a card is to be sprayed, by how flakes lie on the panels against the last one. */
export const lyingSo = (tilt: number): string => `its flakes lying ${way(tilt)}`;

/** How flakes lie on the panels against those of the last card. */
export function lieWords(tilt: number): string {
  const percent = Math.round(100 * Math.abs(Math.expm1(tilt)));
  return `The flakes lie ${way(tilt)} on the panel by ${percent} %`;
}

/** A diagnosis in words; empty where grams decide. `isTinted`: something is poured before that card. */
export function flakeWords(spray: SprayDiagnosis | undefined, isTinted = false): string {
  const { verdict = "alike", tilt = null, toldBy = "size" } = spray ?? {};
  switch (verdict) {
    case "alike":
      return "";
    case "not-hiding":
      return "The film does not hide: nothing is said of how flakes lie.";
    case "other-flake":
      return `Another grade of flake, or coarseness (${TOLD_BY[toldBy]}): choose another flake, no tinting helps.`;
    case "respray": {
      const lie = lieWords(tilt ?? 0);
      return isTinted
        ? `${lie}, and its paint differs too: pour, then spray the card so.`
        : `${lie}: spray a card so; grams cannot repair that.`;
    }
  }
}
