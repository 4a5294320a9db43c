import { describe, expect, it } from "vitest";
import { readReadingsCgats } from "../../src/formats/readingsCgats.js";
import { readReadingsCsv } from "../../src/formats/readingsCsv.js";
import { withReadings } from "../../src/formats/withReadings.js";

const CSV =
  "name;L*;a*;b*;illuminant;observer;geometry\ndoor;71,2;-7,9;8,1;D65;10°;45:0\ncard;74;-8;4,6;D65;10;45:0\n";
const door = {
  geometry: "45:0",
  illuminant: "D65",
  observer: "1964-10",
  lab: [71.2, -7.9, 8.1],
  sd: 0.15,
  replicates: 1,
};

describe("a file of L*, a*, b*", () => {
  it("gives colours by name, whatever the separator and the decimal sign", () => {
    const { readings, colours, leftOut } = readReadingsCsv(CSV);
    expect({ readings, leftOut }).toEqual({ readings: [], leftOut: [] });
    expect(colours?.map(({ name }) => name)).toEqual(["door", "card"]);
    expect(colours?.[0].colour).toEqual(door);
  });

  it("takes light, observer and geometry as declared where the file does not say them", () => {
    const text = "name,L*,a*,b*\ndoor,71.2,-7.9,8.1\n";
    const declared = { geometry: "45:0", illuminant: "D65", observer: "1964-10" } as const;
    expect(readReadingsCsv(text, declared).colours?.[0].colour).toEqual(door);
    expect(() => readReadingsCsv(text, { geometry: "45:0" })).toThrow(/light.*\[missing\]/);
    expect(() => readReadingsCsv(text, { ...declared, geometry: undefined } as never)).toThrow(
      /\[unknown-geometry\]/,
    );
  });

  it("is refused with a place where a column lacks or a word is none", () => {
    expect(() => readReadingsCsv("name,L*,a*\ndoor,71,2\n")).toThrow(/no column b\*.*\[missing\]/);
    expect(() => readReadingsCsv(CSV.replace("D65;10°", "D66;10°"))).toThrow(
      /line 2.*\[unknown-illuminant\]/,
    );
    expect(() => readReadingsCsv(CSV.replace("71,2", "much"))).toThrow(/line 2.*\[wrong-type\]/);
  });

  it("may be CGATS", () => {
    const text = [
      "CGATS.17",
      'MEASUREMENT_GEOMETRY "45:0"',
      "NUMBER_OF_FIELDS 4",
      "BEGIN_DATA_FORMAT",
      "SAMPLE_ID LAB_L LAB_A LAB_B",
      "END_DATA_FORMAT",
      "NUMBER_OF_SETS 1",
      "BEGIN_DATA",
      "door 71.2 -7.9 8.1",
      "END_DATA",
      "",
    ].join("\n");
    const { colours } = readReadingsCgats(text, { illuminant: "D65", observer: "1964-10" });
    expect(colours?.[0]).toEqual({ name: "door", colour: door });
  });

  it("is left alone where the table has spectra: those say more", () => {
    const text =
      "name,geometry,scale,L*,a*,b*,400,410,420,430,440,450\nx,45:0,fraction,50,0,0,.2,.2,.2,.2,.2,.2\n";
    const { readings, colours, leftOut } = readReadingsCsv(text);
    expect(readings).toHaveLength(1);
    expect({ colours, leftOut }).toEqual({ colours: undefined, leftOut: ["L*", "a*", "b*"] });
  });

  it("fills the cards and targets of a job by name", () => {
    const job = { files: [{ name: "shop.csv" }], card: {}, targets: [{ name: "door" }] };
    const { card, targets } = withReadings(job, () => CSV);
    expect(card).toMatchObject({ readings: [], colours: [{ lab: [74, -8, 4.6] }] });
    expect(targets).toMatchObject([{ name: "door", readings: [], colours: [{ lab: [71.2, -7.9, 8.1] }] }]);
  });
});
