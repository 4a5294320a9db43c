import { describe, expect, it } from "vitest";
import { DARK_PALETTE, LIGHT_PALETTE } from "../../../src/report/chart/palette.js";

/** Relative luminance and contrast ratio as WCAG 2.2 defines them (formulas from memory). */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [darker, lighter] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (lighter + 0.05) / (darker + 0.05);
}

it("the measure itself: black on white has 21:1, a colour on itself 1:1", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
  expect(contrast("#123456", "#123456")).toBe(1);
});

describe.each([
  ["light", LIGHT_PALETTE],
  ["dark", DARK_PALETTE],
])("the %s palette", (_, { paper, ink, quiet, series, ramp }) => {
  it("gives text at least 4.5:1", () => {
    for (const text of [ink, quiet]) expect(contrast(text, paper), text).toBeGreaterThanOrEqual(4.5);
  });

  it("gives data at least 3:1", () => {
    for (const mark of [...series, ...ramp]) expect(contrast(mark, paper), mark).toBeGreaterThanOrEqual(3);
  });

  it("has a ramp that only gets lighter", () => {
    const light = ramp.map(luminance);
    for (let i = 1; i < light.length; i++) expect(light[i], ramp[i]).toBeGreaterThan(light[i - 1]);
  });
});

it("both palettes have the same classes", () => {
  expect(DARK_PALETTE.series).toHaveLength(LIGHT_PALETTE.series.length);
  expect(DARK_PALETTE.ramp).toHaveLength(LIGHT_PALETTE.ramp.length);
});
