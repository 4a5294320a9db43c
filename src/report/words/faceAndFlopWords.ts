import type { Lab } from "../../colorimetry/lab.js";
import { colourWords } from "./colourWords.js";

/** A colour at the face and at the flop. */
export interface LabOfFaceAndFlop {
  readonly face: Lab;
  readonly flop: Lab;
}

/** A change of colour seen from both sides: "face lighter; flop bluer", at most `most` words a side. */
export function faceAndFlopWords(from: LabOfFaceAndFlop, to: LabOfFaceAndFlop, most = 2): string {
  const [face, flop] = (["face", "flop"] as const).map((side) => colourWords(from[side], to[side], most));
  return face === flop ? `face and flop ${face}` : `face ${face}; flop ${flop}`;
}
