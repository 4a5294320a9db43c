import { anchorToCard } from "../forward/anchor.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { tilted } from "../toners/orientation.js";
import type { Belief } from "./belief.js";
import { fieldsOf, filmResponse } from "./filmResponse.js";

/**
 * The forward model of the likeliest world, which at the last pot returns its card: strengths, curves and surface at
 * their posterior means; what those leave is carried band by band by `anchorToCard`, what the card has of its own by a
 * shift of reflectance. A card without a spectrum is believed to read what it reads in that world.
 */
export function tie({ scope, posterior, cards }: Belief): ForwardModel {
  const { model, strengths, unknowns, films } = scope;
  const { toners, size, k, s } = model.coefficients;
  const bands = size / model.surfaces.length;
  const card = cards[cards.length - 1];
  const film = films[cards.length - 1];
  const { grams } = card;
  const { reflectance } = card.isExpected
    ? filmResponse(model, strengths, { unknowns, u: posterior.u }, film)
    : card;
  const fields = fieldsOf(model, unknowns, posterior.u, film);
  const moved = (of: Float64Array, by: Float64Array, ratio: boolean) =>
    of.map((value, i) => {
      const toner = Math.floor(i / size);
      const b = i % size;
      const own = strengths[toner] * Math.exp(fields.strength[i] + by[i]);
      if (ratio) return value * own * Math.exp(fields.ratio[b]);
      const curve = model.orientation[toner]?.[Math.floor(b / bands)];
      return curve ? value * own * Math.exp(tilted(curve, fields.flakeTilt[b])) : value * own;
    });
  const surfaces = model.surfaces.map((surface, g) => {
    const k2 = surface.k2 + fields.k2[g * bands];
    const gain = (surface.gain * (1 - k2)) / (1 - surface.k2);
    return { offset: surface.offset, gain, k2, rise: (surface.rise ?? 0) + fields.rise[g * bands] };
  });
  const likeliest = {
    ...model,
    surfaces,
    coefficients: { toners, size, k: moved(k, fields.k, true), s: moved(s, fields.s, false) },
  };
  const clean = reflectance.map((value, b) => (value - fields.offset[b]) / (1 + fields.gain[b]));
  const tied = anchorToCard(likeliest, grams, clean);
  const shift = tied.anchor.shift.map((value, b) => value + reflectance[b] - clean[b]);
  return { ...tied, anchor: { ...tied.anchor, shift } };
}
