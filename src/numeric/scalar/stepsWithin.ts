/** Share of a step that counts as none, so that 0.3 is three steps of 0.1. */
const SLACK = 1e-9;

/** Whole steps that an amount holds. */
export const stepsWithin = (amount: number, step: number): number => Math.floor(amount / step + SLACK);

/** The least number of whole steps that makes up an amount. */
export const stepsToReach = (amount: number, step: number): number => Math.ceil(amount / step - SLACK);
