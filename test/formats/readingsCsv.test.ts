import { describe, expect, it } from "vitest";
import type { Declared } from "../../src/formats/declared.js";
import { readReadingsCsv, writeReadingsCsv } from "../../src/formats/readingsCsv.js";
import { plainReadings } from "../fixtures/namedReadings.js";
import { refusal } from "../support/refusal.js";

const declared: Declared = { geometry: "45:0", scale: "percent" };
const grid = { start: 400, step: 10, count: 3 };

describe("readings from CSV", () => {
  it.each([
    ["commas", 'name,400,410,420\n"door, left",5,10.5,20\n'],
    ["quoted decimal commas", 'name,400,410,420\n"door, left",5,"10,5",20\n'],
    ["semicolons and decimal commas", 'name;400,0;410,0;420,0\r\n"door, left";5;10,5;20\r\n'],
    ["tabs", "\uFEFFname\t400 nm\t410 nm\t420 nm\rdoor, left\t5\t10.5\t20"],
    [
      "names around the wavelengths",
      'Sample ID,R_400,SPECTRAL_NM_410,nm420\n\n "door, left" , 5,10.5,20\n,,,\n',
    ],
  ])("with %s", (_, text) => {
    const { readings, leftOut } = readReadingsCsv(text, declared);
    expect(plainReadings(readings)).toEqual([
      { name: "door, left", reading: { geometry: "45:0", grid, reflectance: [0.05, 0.105, 0.2] } },
    ]);
    expect(leftOut).toEqual([]);
  });

  it("take what the file says before what is declared, and name the columns left out", () => {
    const text = [
      "L*,Geometry,Scale,Backing,Aperture mm,Note,400,410,420",
      "50,d/8 SCI,fraction,black,8,wet edge,0.05,0.105,0.2",
      "50,,,,,,5,10.5,20",
    ].join("\n");
    const { readings, leftOut } = readReadingsCsv(text, declared);
    expect(leftOut).toEqual(["L*"]);
    expect(plainReadings(readings)).toEqual([
      {
        name: "reading 1",
        reading: { geometry: "d:8 specular included", grid, reflectance: [0.05, 0.105, 0.2] },
        backing: "black",
        apertureMillimetres: 8,
        note: "wet edge",
      },
      { name: "reading 2", reading: { geometry: "45:0", grid, reflectance: [0.05, 0.105, 0.2] } },
    ]);
  });

  it.each<[string, string, Declared, string, string]>([
    ["no scale", "400,410,420\n1,1,1", { geometry: "45:0" }, "missing", "line 2, column 1"],
    ["no geometry", "400,410,420\n1,1,1", { scale: "percent" }, "unknown-geometry", "line 2, column 1"],
    [
      "a geometry in doubt",
      "geometry,400,410,420\nd/8,1,1,1",
      { scale: "percent" },
      "unknown-geometry",
      "line 2, column 1",
    ],
    ["a scale of its own", "name,scale,400,410,420\na,%,1,1,1", declared, "unknown-word", "line 2, column 3"],
    ["no wavelengths", "name,note\na,b", declared, "missing", "line 1, column 1"],
    ["no rows", "name,400,410,420\n", declared, "wrong-length", "readings"],
    ["a word among numbers", "400,410,420\n1,1,1\n1, o,1", declared, "wrong-type", "line 3, column 3"],
    ["marks between thousands", "400,410,420\n1,1 000,1", declared, "wrong-type", "line 2, column 3"],
    ["NaN", "400,410,420\n1,NaN,1", declared, "not-finite", "line 2, column 3"],
    ["a number beyond all", "400,410,420\n1,1,1e999", declared, "not-finite", "line 2, column 5"],
    ["less than nothing", "400,410,420\n1,1,-0.1", declared, "out-of-range", "line 2, column 5"],
    ["an empty cell", "400,410,420\n1,,1", declared, "missing", "line 2, column 3"],
    ["a short row", "400,410,420\n1,1", declared, "wrong-length", "line 2, column 1"],
    ["an open quote", 'name,400,410,420\n"a,1,1,1', declared, "unreadable-csv", "line 2, column 1"],
    ["a quote inside", 'name,400,410,420\na"b,1,1,1', declared, "unreadable-csv", "line 2, column 1"],
    ["a gap", "400,410,430,440\n1,1,1,1", declared, "gap", "line 1, column 9"],
    ["a wavelength twice", "400,410,410,420\n1,1,1,1", declared, "duplicate", "line 1, column 9"],
    ["falling wavelengths", "420,410,400\n1,1,1", declared, "out-of-range", "line 1, column 5"],
    ["ultraviolet", "340,350,360\n1,1,1", declared, "out-of-range", "line 1, column 1"],
    [
      "an aperture of nothing",
      "aperture mm,400,410,420\n0,1,1,1",
      declared,
      "out-of-range",
      "line 2, column 1",
    ],
    [
      "per cent declared as fractions",
      "400,410,420\n1.5,25,30",
      { geometry: "45:0", scale: "fraction" },
      "percent-not-fraction",
      "line 2, column 5",
    ],
  ])("are refused with %s", (_, text, how, code, path) => {
    expect(refusal(() => readReadingsCsv(text, how))).toEqual({ code, path });
  });

  it("are refused before they fill the memory", () => {
    const code = (text: string) => refusal(() => readReadingsCsv(text, declared)).code;
    expect(code("\n".repeat(1_000_001))).toBe("too-large");
    expect(code("4".repeat(1_000_001))).toBe("too-large");
    expect(code(`${"400,".repeat(200_000)}\n`.repeat(11))).toBe("too-large");
    expect(code(`400,410,420\n${"1,1,1\n".repeat(10_001)}`)).toBe("too-large");
  });

  it("are not written on two grids", () => {
    const reading = { geometry: "45:0", grid, reflectance: [0.1, 0.2, 0.3] } as const;
    const other = { ...reading, grid: { ...grid, step: 20 } };
    expect(
      refusal(() =>
        writeReadingsCsv([
          { name: "a", reading },
          { name: "b", reading: other },
        ]),
      ),
    ).toEqual({ code: "outside-grid", path: "readings[1].reading.grid" });
  });
});
