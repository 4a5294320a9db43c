import { expect, it } from "vitest";
import { geometryFromText } from "../../src/formats/geometryFromText.js";
import { GEOMETRIES } from "../../src/surface/geometry.js";

it.each(Object.keys(GEOMETRIES))("knows %s by its own name", (name) => {
  expect(geometryFromText(name)).toBe(name);
});

it.each([
  ["45/0", "45:0"],
  ["Reflection, 0/45, aperture 4 mm round", "45:0"],
  ["45°a:0°", "45:0"],
  ["d/8 (SCI)", "d:8 specular included"],
  ["sphere 8 / d, specular component excluded", "d:8 specular excluded"],
  ["di:8°", "d:8 specular included"],
  ["d8 SPEX de/8", "d:8 specular excluded"],
])("understands %s", (text, geometry) => {
  expect(geometryFromText(text)).toBe(geometry);
});

it.each([
  "",
  "sphere",
  "d/8",
  "d/0, specular included",
  "d/8 specular included, d/8 specular excluded",
  "45/0 or d/8",
  "45/0, specular excluded",
  "Transmission, d/8, specular included",
  "145/0",
  "45/05",
  "8/0",
  "45:15",
])("sees no one geometry in %j", (text) => {
  expect(geometryFromText(text)).toBeUndefined();
});
