/**
 * Answers put into words, tables and figures for people, and colours for a screen.
 * @module report
 */
export { checkedSrgbHex as srgbHex, type DisplayColour } from "../colorimetry/colorjs.js";
export { SPRAYING_CAUTION } from "../core/caution.js";
export { characterisationDetails } from "../report/characterisation/characterisationDetails.js";
export {
  type CharacterisationHtmlOptions,
  characterisationHtml,
} from "../report/characterisation/characterisationHtml.js";
export { characterisationText } from "../report/characterisation/characterisationText.js";
export { type NotebookFigure, notebookFigure } from "../report/chart/notebookFigure.js";
export { correctionDetails } from "../report/correction/correctionDetails.js";
export { type CorrectionHtmlOptions, correctionHtml } from "../report/correction/correctionHtml.js";
export { type CorrectionTextOptions, correctionText } from "../report/correction/correctionText.js";
export { directionsDetails } from "../report/correction/directionsDetails.js";
export { type DirectionsHtmlOptions, directionsHtml } from "../report/correction/directionsHtml.js";
export { directionsText } from "../report/correction/directionsText.js";
export { forecastText } from "../report/correction/forecastText.js";
export { nextStepText } from "../report/correction/nextStepText.js";
export { predictionText } from "../report/correction/predictionText.js";
export type { SheetHead } from "../report/page/sheetHead.js";
export { holdBackDetails } from "../report/planning/holdBackDetails.js";
export { type HoldBackHtmlOptions, holdBackHtml } from "../report/planning/holdBackHtml.js";
export { holdBackText } from "../report/planning/holdBackText.js";
export { learningDetails } from "../report/planning/learningDetails.js";
export { type LearningHtmlOptions, learningHtml } from "../report/planning/learningHtml.js";
export { learningText } from "../report/planning/learningText.js";
export { anglePlot } from "../report/plots/anglePlot.js";
export type { PlaneName } from "../report/plots/labPlane.js";
export { type LabPlotOptions, labPlot } from "../report/plots/labPlot.js";
export { ladderPlot } from "../report/plots/ladderPlot.js";
export { reflectancePlot } from "../report/plots/reflectancePlot.js";
export { type TintLadder, tintLadders } from "../report/plots/tintLadders.js";
export { tonerPlot } from "../report/plots/tonerPlot.js";
export { colourWords } from "../report/words/colourWords.js";
export type { MassDisplay } from "../report/words/massText.js";
export type { StepToTake } from "../report/words/stepToTake.js";
export type { TonerNames } from "../report/words/tonerName.js";
export { MASS_UNITS, type MassUnit } from "../toners/massUnit.js";
