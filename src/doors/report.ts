/**
 * Answers put into words, tables and figures for people, and colours for a screen.
 * @module report
 */
export { checkedSrgbHex as srgbHex, type DisplayColour } from "../colorimetry/colorjs.js";
export { SPRAYING_CAUTION } from "../core/caution.js";
export { characterisationDetails } from "../report/characterisationDetails.js";
export { type CharacterisationHtmlOptions, characterisationHtml } from "../report/characterisationHtml.js";
export { characterisationText } from "../report/characterisationText.js";
export { type NotebookFigure, notebookFigure } from "../report/chart/notebookFigure.js";
export { colourWords } from "../report/colourWords.js";
export { correctionDetails } from "../report/correctionDetails.js";
export { type CorrectionHtmlOptions, correctionHtml } from "../report/correctionHtml.js";
export { type CorrectionTextOptions, correctionText } from "../report/correctionText.js";
export { directionsText } from "../report/directionsText.js";
export { forecastText } from "../report/forecastText.js";
export { holdBackDetails } from "../report/holdBackDetails.js";
export { type HoldBackHtmlOptions, holdBackHtml } from "../report/holdBackHtml.js";
export { holdBackText } from "../report/holdBackText.js";
export { type LabPlotOptions, labPlot } from "../report/labPlot.js";
export { ladderPlot } from "../report/ladderPlot.js";
export { learningDetails } from "../report/learningDetails.js";
export { type LearningHtmlOptions, learningHtml } from "../report/learningHtml.js";
export { learningText } from "../report/learningText.js";
export type { MassDisplay } from "../report/massText.js";
export { nextStepText } from "../report/nextStepText.js";
export { predictionText } from "../report/predictionText.js";
export { reflectancePlot } from "../report/reflectancePlot.js";
export type { StepToTake } from "../report/stepToTake.js";
export { type TintLadder, tintLadders } from "../report/tintLadders.js";
export type { TonerNames } from "../report/tonerName.js";
export { tonerPlot } from "../report/tonerPlot.js";
export { MASS_UNITS, type MassUnit } from "../toners/massUnit.js";
