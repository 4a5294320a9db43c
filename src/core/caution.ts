/** What comes before any advice to spray. */
export const SPRAYING_CAUTION = `Before you spray: two-pack paints carry isocyanates, which can cause asthma for life. Use supplied-air
breathing apparatus, skin and eye protection and a ventilated booth, keep sources of ignition away, and
follow the safety data sheet of every product. Local codes and licensed practice come before this advice.`;

/** The same on a screen. */
export const SHORT_CAUTION =
  "Spraying: isocyanates. Supplied-air breathing, gloves, booth, no flames; the safety data sheet and local codes come first.";
