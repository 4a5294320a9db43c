import type { SprayDiagnosis } from "./diagnoseSpray.js";

const TOLD_BY = {
  texture: "the textures are unlike",
  size: "no spraying makes so much",
  "second-card": "a card sprayed otherwise does not explain the angles either",
} as const;

/** How a card is to be sprayed, by how flakes lie on the panels against the last one. */
export const lyingSo = (tilt: number): string => `its flakes lying ${tilt < 0 ? "flatter" : "steeper"}`;

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
      const way = (tilt ?? 0) < 0 ? "flatter" : "steeper";
      const percent = Math.round(100 * Math.abs(Math.expm1(tilt ?? 0)));
      const lie = `The flakes lie ${way} on the panel by ${percent} %`;
      return isTinted
        ? `${lie}, and its paint differs too: pour, then spray the card so.`
        : `${lie}: spray a card so; grams cannot repair that.`;
    }
  }
}
