import { type FlopLightness, flopIndex } from "../../colorimetry/flopIndex.js";
import type { Correction, TargetPrediction } from "../../correction/correction.js";
import { faceAndFlop } from "../../surface/faceAndFlop.js";
import type { LabOfFaceAndFlop } from "./faceAndFlopWords.js";

/** Card, mix and target of one panel under the first light: at face and flop, and their flop indices where they were read. */
export interface Standing {
  readonly target: string;
  readonly card: LabOfFaceAndFlop;
  readonly after: LabOfFaceAndFlop;
  readonly aim: LabOfFaceAndFlop;
  readonly flop: { readonly [K in "card" | "after" | "aim"]: number | null };
}

const LABS = { card: "labBefore", after: "labAfter", aim: "labTarget" } as const;
const INDEX_ANGLES = { at15: "45as15", at45: "45as45", at110: "45as110" } as const;

/** Every target that was seen at several angles. */
export function standings({ predictions }: Pick<Correction, "predictions">): readonly Standing[] {
  const [{ illuminant }] = predictions;
  const names = [...new Set(predictions.map(({ target }) => target))];
  return names.flatMap((name): readonly Standing[] => {
    const own = predictions.filter((one) => one.target === name && one.illuminant === illuminant);
    const sides = faceAndFlop(own.map(({ geometry }) => geometry));
    const at = (geometry: string): TargetPrediction | undefined =>
      own.find((one) => one.geometry === geometry);
    const [face, flop] = sides ? [at(sides.face), at(sides.flop)] : [];
    if (!face || !flop) return [];
    const of = (who: keyof typeof LABS): LabOfFaceAndFlop => ({
      face: face[LABS[who]],
      flop: flop[LABS[who]],
    });
    const indexOf = (who: keyof typeof LABS): number | null => {
      const lightness = Object.entries(INDEX_ANGLES).map(([key, angle]) => [key, at(angle)?.[LABS[who]][0]]);
      return lightness.some(([, value]) => value === undefined)
        ? null
        : flopIndex(Object.fromEntries(lightness) as FlopLightness);
    };
    const flops = { card: indexOf("card"), after: indexOf("after"), aim: indexOf("aim") };
    return [{ target: name, card: of("card"), after: of("after"), aim: of("aim"), flop: flops }];
  });
}
