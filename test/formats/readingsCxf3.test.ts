import { describe, expect, it } from "vitest";
import type { Declared } from "../../src/formats/declared.js";
import { readReadingsCxf3, writeReadingsCxf3 } from "../../src/formats/readingsCxf3.js";
import { plainReadings } from "../fixtures/namedReadings.js";
import { refusal } from "../support/refusal.js";

const CXF3 = "http://colorexchangeformat.com/CxF3-core";
const grid = { start: 400, step: 10, count: 3 };

const SINGLE = `<SingleAngle><SingleAngleConfiguration>Annular</SingleAngleConfiguration>
  <IlluminationAngle>45.0</IlluminationAngle><MeasurementAngle>0</MeasurementAngle></SingleAngle>`;
const SPECTRUM =
  '<ReflectanceSpectrum ColorSpecification="s" StartWL="400">0.1 0.2\n 0.3</ReflectanceSpectrum>';

/** A CxF3 text as the standard has it, from memory, on six lines before the spectrum. */
const cxf = ({
  spectrum = SPECTRUM,
  geometry = SINGLE,
  range = 'Increment="10"',
  head = "",
  object = "",
} = {}) =>
  `<?xml version="1.0"?>${head}
<CxF xmlns="${CXF3}" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<Resources><ObjectCollection>
<Object ObjectType="Standard" Name="Zinc &amp; white" Id="c1"><CreationDate>2020-01-01T00:00:00</CreationDate>${object}
<ColorValues>
  ${spectrum}
</ColorValues></Object></ObjectCollection>
<ColorSpecificationCollection><ColorSpecification Id="s"><MeasurementSpec>
<MeasurementType>Spectrum_Reflectance</MeasurementType>
<GeometryChoice>${geometry}</GeometryChoice><WavelengthRange StartWL="400" ${range}/>
</MeasurementSpec></ColorSpecification></ColorSpecificationCollection></Resources></CxF>`;

const expected = { name: "Zinc & white", reading: { geometry: "45:0", grid, reflectance: [0.1, 0.2, 0.3] } };

describe("readings from CxF3 (layout of the standard from memory)", () => {
  it("with a single angle, the namespace as default or under any prefix", () => {
    const prefixed = cxf()
      .replaceAll(/<(\/?)(?=[A-Z])/g, "<$1any:")
      .replace("xmlns=", "xmlns:any=");
    expect(prefixed).toContain("<any:ReflectanceSpectrum");
    for (const text of [cxf(), prefixed, `\uFEFF${cxf()}`]) {
      expect(plainReadings(readReadingsCxf3(text).readings)).toEqual([expected]);
    }
  });

  it("as per cent where that is declared", () => {
    const spectrum = SPECTRUM.replace("0.1 0.2\n 0.3", "10 20 30");
    const { readings } = readReadingsCxf3(cxf({ spectrum }), { scale: "percent" });
    expect(plainReadings(readings)).toEqual([expected]);
  });

  it("one for each spectrum of an object; other values and parts are named as left out", () => {
    const spectrum = `${SPECTRUM}<ColorCIELab><L>50</L><A>0</A><B>0</B></ColorCIELab>
      <ReflectanceSpectrum StartWL="400" Increment="20">0.4 0.5 0.6</ReflectanceSpectrum>`;
    const object = "<Comment>\n of two\n lines </Comment><PhysicalAttributes/>";
    const { readings, leftOut } = readReadingsCxf3(cxf({ spectrum, object }), { geometry: "45as15" });
    expect(leftOut).toEqual(["PhysicalAttributes", "ColorCIELab"]);
    const note = "of two lines";
    expect(plainReadings(readings)).toEqual([
      { ...expected, note },
      {
        name: "Zinc & white",
        reading: { geometry: "45as15", grid: { ...grid, step: 20 }, reflectance: [0.4, 0.5, 0.6] },
        note,
      },
    ]);
  });

  it.each([
    [
      "a sphere that says all",
      "<Sphere><A>d/8</A><B>Specular included</B></Sphere>",
      "d:8 specular included",
    ],
    ["a sphere that does not", "<Sphere><A>d/8</A></Sphere>", undefined],
    ["an angle of its own", SINGLE.replace("45.0", "30"), undefined],
    ["several angles", `<MultiAngle>${SINGLE}${SINGLE}</MultiAngle>`, undefined],
  ])("with %s: geometry read, or to be declared", (_, geometry, known) => {
    const text = cxf({ geometry });
    if (known === undefined) expect(refusal(() => readReadingsCxf3(text)).code).toBe("unknown-geometry");
    const { readings } = readReadingsCxf3(text, { geometry: "45as110" });
    expect(readings[0].reading.geometry).toBe(known ?? "45as110");
  });

  const spectrum = "line 6, column 3";
  it.each<[string, string, Declared, string, string]>([
    ["another root", "<\nhtml/>", {}, "unreadable-xml", "line 2, column 1"],
    ["another namespace", '\n <CxF xmlns="urn:x"/>', {}, "wrong-format", "line 2, column 2"],
    ["no spectrum", cxf({ spectrum: "" }), {}, "wrong-length", "readings"],
    [
      "a spectrum of another namespace",
      cxf({ spectrum: SPECTRUM.replace("St", 'xmlns="urn:x" St') }),
      {},
      "wrong-length",
      "readings",
    ],
    ["a tag left open", cxf({ spectrum: "<a>" }), {}, "unreadable-xml", "line 7, column 14"],
    ["a prefix without a namespace", cxf({ spectrum: "<q:a/>" }), {}, "unreadable-xml", "line 6, column 8"],
    ["an entity", cxf({ spectrum: "&lol;" }), {}, "unreadable-xml", "line 6, column 7"],
    ["no step", cxf({ range: "" }), {}, "missing", spectrum],
    ["a step that is none", cxf({ range: 'Increment="ten"' }), {}, "wrong-type", "line 12, column 115"],
    ["a step of nothing", cxf({ range: 'Increment="0"' }), {}, "out-of-range", spectrum],
    ["a word", cxf({ spectrum: SPECTRUM.replace("0.2", "x") }), {}, "wrong-type", spectrum],
    ["INF", cxf({ spectrum: SPECTRUM.replace("0.2", "INF") }), {}, "not-finite", spectrum],
    ["no values", cxf({ spectrum: SPECTRUM.replace(/>[^<]*/, ">") }), {}, "missing", spectrum],
    [
      "per cent not declared",
      cxf({ spectrum: SPECTRUM.replace("0.2", "20") }),
      {},
      "percent-not-fraction",
      spectrum,
    ],
  ])("are refused with %s", (_, text, declared, code, path) => {
    expect(refusal(() => readReadingsCxf3(text, declared))).toEqual({ code, path });
  });

  it("are refused with a DOCTYPE, so that entities never grow", () => {
    const entities = Array.from({ length: 9 }, (_, i) => `<!ENTITY a${i + 1} "&a${i};&a${i};&a${i};">`).join(
      "",
    );
    const head = `<!DOCTYPE CxF [<!ENTITY a0 "a">${entities}]>`;
    expect(refusal(() => readReadingsCxf3(cxf({ head, object: "<Comment>&a9;</Comment>" })))).toMatchObject({
      code: "unreadable-xml",
      path: expect.stringMatching(/^line 1, /),
    });
  });

  it("are refused with more elements than readings fill, or nested without end", () => {
    const many = `<a>${"<b/>".repeat(1_000_000)}</a>`;
    expect(refusal(() => readReadingsCxf3(many))).toEqual({
      code: "too-large",
      path: "line 1, column 4000000",
    });
    expect(refusal(() => readReadingsCxf3("<a>".repeat(101)))).toEqual({
      code: "too-large",
      path: "line 1, column 301",
    });
  });
});

it("CxF3 carries the date it is given, and was read by Argyll 2.3.1's cxf2ti3 (see the CGATS tests)", () => {
  const readings = [
    { name: "a", reading: { geometry: "45:0", grid, reflectance: [0.1, 0.2, 0.3] } },
  ] as const;
  const text = writeReadingsCxf3(readings, "2026-01-02T03:04:05Z");
  expect(text.match(/<cc:CreationDate>2026-01-02T03:04:05Z</g)).toHaveLength(2);
  expect(plainReadings(readReadingsCxf3(text).readings)).toEqual(plainReadings(readings));
  expect(refusal(() => writeReadingsCxf3(readings, "2 January"))).toEqual({
    code: "wrong-type",
    path: "created",
  });
});
