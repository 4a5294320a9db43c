/** Which share of a layer's statements is mutated: all where that takes minutes, a sample where it would take a day. */
export const SHARES = { optics: 1, surface: 1, colorimetry: 1, numeric: 0.2, correction: 0.1 };
