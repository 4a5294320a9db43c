/** Shown wherever grams lead to spraying. */
export const SPRAYING_CAUTION = `Before you spray: two-pack paints carry isocyanates, which can cause asthma for life. Use supplied-air
breathing apparatus, skin and eye protection and a ventilated booth, keep sources of ignition away, and
follow the safety data sheet of every product. Local codes and licensed practice come before this advice.`;
