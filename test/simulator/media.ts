import type { Medium } from "./layer.js";
import { henyeyGreenstein, type Streams } from "./streams.js";

/** A medium of one kind of particle, with Henyey & Greenstein's g. */
export function mediumOf(streams: Streams, absorption: number, scattering: number, g = 0): Medium {
  const { kept, on, back } = henyeyGreenstein(streams, g);
  const rest = kept * scattering;
  return {
    absorption,
    scattering: rest,
    on: on.map((value) => rest * value),
    back: back.map((value) => rest * value),
  };
}
