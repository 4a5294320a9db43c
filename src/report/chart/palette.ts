/**
 * Colours of the figures on light and on dark paper. `ink` and `quiet` are for text: at least 4.5:1 on the paper
 * (WCAG 2.2, 1.4.3); all that draws data at least 3:1 (1.4.11). `series` follow Okabe & Ito (2008), darkened or
 * lightened until they do; `ramp` runs one way in lightness, so its order survives any colour vision and print.
 */
export interface Palette {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly grid: string;
  readonly series: readonly string[];
  readonly ramp: readonly string[];
}

export const LIGHT_PALETTE: Palette = Object.freeze({
  paper: "#ffffff",
  ink: "#1b1d21",
  quiet: "#565b63",
  grid: "#e4e6e9",
  series: ["#0069a8", "#cc5200", "#00805c", "#b0488c", "#8a6a00", "#55585e"],
  ramp: ["#20124d", "#3a1a72", "#5a1d83", "#7d2185", "#9d2a7c", "#b83a6b", "#cb4d55", "#d5633b", "#d67a1f"],
});

export const DARK_PALETTE: Palette = Object.freeze({
  paper: "#16181c",
  ink: "#eceef1",
  quiet: "#b2b8c2",
  grid: "#32363d",
  series: ["#5bb5ee", "#f58b45", "#35c79d", "#e394c5", "#e2c43f", "#c3c7ce"],
  ramp: ["#8f6fe0", "#a873e0", "#c078d8", "#d680c9", "#e68bb5", "#f099a0", "#f6ab8c", "#f9c07e", "#fbd87c"],
});
