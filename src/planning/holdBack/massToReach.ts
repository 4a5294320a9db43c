import { sum } from "../../core/sum.js";

/** Least mass at which pot b becomes recipe t by adding alone: Σt·max(bⱼ/tⱼ); 0 for an empty pot. */
export function massToReach(pot: Float64Array, recipe: Float64Array): number {
  let total = 0;
  let scale = 0;
  for (let j = 0; j < pot.length; j++) {
    total += recipe[j];
    if (pot[j] > 0) scale = Math.max(scale, pot[j] / recipe[j]);
  }
  return total * scale;
}

/** A recipe scaled to a mass. */
export function ofMass(recipe: Float64Array, mass: number): Float64Array {
  const total = sum(recipe);
  return recipe.map((grams) => (grams * mass) / total);
}
