import { describe, expect, it } from "vitest";
import { faceAndFlop } from "../../src/surface/faceAndFlop.js";

describe("face and flop", () => {
  it("are the angles nearest the mirror's and furthest from it, in any order", () => {
    expect(faceAndFlop(["45as110", "45as-15", "45as45", "45as15"])).toEqual({
      face: "45as15",
      flop: "45as110",
    });
    expect(faceAndFlop(["45as75", "45as25"])).toEqual({ face: "45as25", flop: "45as75" });
  });

  it("are not told of one angle, nor of geometries without one", () => {
    expect(faceAndFlop(["45as45", "45as45", "45:0"])).toBeUndefined();
    expect(faceAndFlop(["d:8 specular included", "45:0"])).toBeUndefined();
  });
});
