import { GEOMETRIES, type Geometry } from "../surface/geometry.js";

const FORTY_FIVE = /(?<![\d.])(?:45[acx]?[:/]0|0[:/]45[acx]?)(?![\d.])/;
const SPHERE = /(?:\bd[ie]?[:/]8|(?<![\d.])8[:/]d[ie]?)(?![a-z\d.])/;
const INCLUDED = /includ|\bsci\b|\bspin\b|\bdi[:/]8|8[:/]di\b/;
const EXCLUDED = /exclud|\bsce\b|\bspex\b|\bde[:/]8|8[:/]de\b/;

/**
 * The geometry that a free text such as `Reflection, 45/0` or `d/8 (SCI)` names beyond doubt, else nothing. Light and
 * view may change places (reciprocity), so 0:45 is 45:0 and 8:d is d:8. A sphere counts only where the text says 8°
 * and either that the specular part is in or that it is out.
 */
export function geometryFromText(text: string): Geometry | undefined {
  const names = Object.keys(GEOMETRIES) as Geometry[];
  const exact = names.find((name) => name === text.trim());
  if (exact !== undefined) return exact;
  const plain = text
    .toLowerCase()
    .replaceAll("°", "")
    .replaceAll(/\s*([:/])\s*/g, "$1");
  if (plain.includes("transmi")) return undefined;
  const fortyFive = FORTY_FIVE.test(plain);
  const sphere = SPHERE.test(plain);
  const [included, excluded] = [INCLUDED.test(plain), EXCLUDED.test(plain)];
  if (fortyFive) return sphere || included || excluded ? undefined : "45:0";
  if (!sphere || included === excluded) return undefined;
  return included ? "d:8 specular included" : "d:8 specular excluded";
}
