/**
 * Answers put into words and tables for people, and colours for a screen.
 * @module report
 */
export { type DisplayColour, srgbHex } from "../colorimetry/colorjs.js";
export { SPRAYING_CAUTION } from "../report/caution.js";
export { colourWords } from "../report/colourWords.js";
export { correctionText } from "../report/correctionText.js";
export { predictionText } from "../report/predictionText.js";
export type { TonerNames } from "../report/tonerName.js";
