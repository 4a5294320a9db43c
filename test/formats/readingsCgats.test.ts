import { describe, expect, it } from "vitest";
import { readReadingsCgats } from "../../src/formats/readingsCgats.js";
import { plainReadings } from "../fixtures/namedReadings.js";
import { refusal } from "../support/refusal.js";

const grid = { start: 400, step: 50, count: 7 };
const geometry = "45:0";

describe("CGATS texts of other writers", () => {
  it("Argyll 2.3.1 (Debian), spec2cie, a .sp file as it wrote it here", () => {
    const text = `SPECT  

DESCRIPTOR "x"
ORIGINATOR "x"
MEAS_TYPE "REFLECTIVE"
SPECTRAL_BANDS "7"
SPECTRAL_START_NM "400.000000"
SPECTRAL_END_NM "700.000000"
SPECTRAL_NORM "100.000000"
CREATED "November 25, 2026"

NUMBER_OF_FIELDS 13
BEGIN_DATA_FORMAT
SPEC_400 SPEC_450 SPEC_500 SPEC_550 SPEC_600 SPEC_650 SPEC_700 XYZ_X XYZ_Y XYZ_Z LAB_L LAB_A LAB_B 
END_DATA_FORMAT

NUMBER_OF_SETS 2
BEGIN_DATA
5.12 12.5 20.25 33.125 40 41.5 43.75 33.6308 33.0973 11.3331 64.2396 6.0991 35.1446 
6.1 7 8 9 10 11 12.5 9.1829 9.20654 5.90555 36.379 2.56437 7.26316 
END_DATA
`;
    const { readings, leftOut } = readReadingsCgats(text, { geometry });
    expect(leftOut).toEqual(["XYZ_X", "XYZ_Y", "XYZ_Z", "LAB_L", "LAB_A", "LAB_B"]);
    expect(plainReadings(readings)).toEqual([
      {
        name: "reading 1",
        reading: { geometry, grid, reflectance: [0.0512, 0.125, 0.2025, 0.33125, 0.4, 0.415, 0.4375] },
      },
      {
        name: "reading 2",
        reading: { geometry, grid, reflectance: [0.061, 0.07, 0.08, 0.09, 0.1, 0.11, 0.125] },
      },
    ]);
  });

  it("Argyll 2.3.1 (Debian), cxf2ti3, made here from CxF3 of this package: its scale must be declared", () => {
    const text = `CGATS.17

ORIGINATOR "masstone"
SPECTRAL_BANDS "7"
SPECTRAL_START_NM "400.000000"
SPECTRAL_END_NM "700.000000"
DESCRIPTOR "Input CIE reference file"
CREATED "Wed Nov 25 10:25:25 2026"

NUMBER_OF_FIELDS 9
BEGIN_DATA_FORMAT
SAMPLE_ID SAMPLE_LOC SPEC_400 SPEC_450 SPEC_500 SPEC_550 SPEC_600 SPEC_650 SPEC_700 
END_DATA_FORMAT

NUMBER_OF_SETS 2
BEGIN_DATA
1 "grey <1>" 10 20 30 40 50 60 12.345 
2 "two" 10 20 30 40 50 60 70 
END_DATA
`;
    expect(refusal(() => readReadingsCgats(text, { geometry })).code).toBe("missing");
    const { readings, leftOut } = readReadingsCgats(text, { geometry, scale: "percent" });
    expect(leftOut).toEqual(["SAMPLE_LOC"]);
    expect(plainReadings(readings)[0]).toEqual({
      name: "1",
      reading: { geometry, grid, reflectance: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.12345] },
    });
  });

  it("colord-data 1.4.6 (Debian), ref/CIE-TCS.sp, cut to two samples and 400–420 nm, counts changed to fit", () => {
    const text = `SPECT  
DISPLAY\t"Ra CRI Test Color Samples"
DESCRIPTOR\t"Ra CRI Test Color Samples"
SPECTRAL_START_NM\t400
SPECTRAL_END_NM\t420
SPECTRAL_BANDS\t5
NUMBER_OF_FIELDS\t6
NUMBER_OF_SETS\t2

BEGIN_DATA_FORMAT
SAMPLE_ID\tSPEC_400\tSPEC_405\tSPEC_410\tSPEC_415\tSPEC_420
END_DATA_FORMAT

BEGIN_DATA
TCS01\t0.26\t0.25\t0.25\t0.25\t0.25
TCS09\t0.052\t0.052\t0.051\t0.050\t0.050
END_DATA
`;
    const { readings } = readReadingsCgats(text, { geometry, scale: "fraction" });
    const five = { start: 400, step: 5, count: 5 };
    expect(plainReadings(readings)).toEqual([
      { name: "TCS01", reading: { geometry, grid: five, reflectance: [0.26, 0.25, 0.25, 0.25, 0.25] } },
      { name: "TCS09", reading: { geometry, grid: five, reflectance: [0.052, 0.052, 0.051, 0.05, 0.05] } },
    ]);
  });

  it("Little CMS 2.14 (Debian), cmsIT8SaveToFile, as it wrote it here: nothing need be declared", () => {
    const text = `CGATS.17
ORIGINATOR\t"lcms"
MEASUREMENT_GEOMETRY\t"Reflection, 45/0"
SAMPLE_BACKING\t"black"
NUMBER_OF_FIELDS\t9
NUMBER_OF_SETS\t2
BEGIN_DATA_FORMAT
 SAMPLE_ID\tSPECTRAL_PCT400\tSPECTRAL_PCT450\tSPECTRAL_PCT500\tSPECTRAL_PCT550\tSPECTRAL_PCT600\tSPECTRAL_PCT650\tSPECTRAL_PCT700\tLAB_L
END_DATA_FORMAT
BEGIN_DATA
 "red oxide"\t5.5\t6.25\t7.125\t9\t21.5\t28.75\t30.0625\t33.3
 B2\t80\t81.5\t82\t83\t84\t85\t86\t33.3
END_DATA
`;
    const { readings, leftOut } = readReadingsCgats(text);
    expect(leftOut).toEqual(["LAB_L"]);
    expect(plainReadings(readings)).toEqual([
      {
        name: "red oxide",
        reading: { geometry, grid, reflectance: [0.055, 0.0625, 0.07125, 0.09, 0.215, 0.2875, 0.300625] },
        backing: "black",
      },
      {
        name: "B2",
        reading: { geometry, grid, reflectance: [0.8, 0.815, 0.82, 0.83, 0.84, 0.85, 0.86] },
        backing: "black",
      },
    ]);
  });
});

const table = (fields: string, sets: string, keywords = "") =>
  `CGATS.17\n${keywords}\nBEGIN_DATA_FORMAT\n${fields}\nEND_DATA_FORMAT\nBEGIN_DATA\n${sets}\nEND_DATA\n`;
const bands = "SPECTRAL_DEC400 SPECTRAL_DEC410 SPECTRAL_DEC420";

describe("CGATS texts", () => {
  const three = { start: 400, step: 10, count: 3 };

  it("may give wavelength and value in turn, break lines anywhere and hold comments", () => {
    const fields =
      "SAMPLE_ID SPECTRAL_NM SPECTRAL_PCT SPECTRAL_NM # in turn\nSPECTRAL_PCT SPECTRAL_NM SPECTRAL_PCT";
    const text = table(fields, '"#1" 400 10 410 20 # half\n420 30\n"END_DATA" 400 40 410 50 420 60');
    expect(plainReadings(readReadingsCgats(text, { geometry }).readings)).toEqual([
      { name: "#1", reading: { geometry, grid: three, reflectance: [0.1, 0.2, 0.3] } },
      { name: "END_DATA", reading: { geometry, grid: three, reflectance: [0.4, 0.5, 0.6] } },
    ]);
  });

  it("may hold several tables, each with its own keywords; those without spectra are left out", () => {
    const text = [
      table(bands, "0.1 0.2 0.3", 'MEASUREMENT_GEOMETRY "di:8"\nSAMPLE_BACKING "na"'),
      table("RGB_R RGB_G", "1 2"),
      table(bands, "0.4 0.5 0.6", 'SAMPLE_BACKING "white"\nAPERTURE_MM 4'),
    ].join("");
    const { readings, leftOut } = readReadingsCgats(text, { geometry });
    expect(leftOut).toEqual(["RGB_R", "RGB_G"]);
    expect(plainReadings(readings)).toEqual([
      {
        name: "reading 1",
        reading: { geometry: "d:8 specular included", grid: three, reflectance: [0.1, 0.2, 0.3] },
      },
      {
        name: "reading 1",
        reading: { geometry, grid: three, reflectance: [0.4, 0.5, 0.6] },
        backing: "white",
        apertureMillimetres: 4,
      },
    ]);
  });

  it.each([
    ["no table", "CGATS.17\n", "wrong-format", ""],
    ["no spectra", table("RGB_R", "1"), "wrong-length", "readings"],
    ["no sets", table(bands, ""), "wrong-length", "readings"],
    ["no data format", "BEGIN_DATA\n1\nEND_DATA", "unreadable-cgats", "line 3, column 1"],
    ["no end", "\n BEGIN_DATA_FORMAT\nSPEC_400", "unreadable-cgats", "line 2, column 2"],
    ["an end too many", "END_DATA", "unreadable-cgats", "line 1, column 1"],
    ["data inside the format", "BEGIN_DATA_FORMAT\nBEGIN_DATA", "unreadable-cgats", "line 2, column 1"],
    ["an open quote", table(bands, '0.1 "0.2 0.3'), "unreadable-cgats", "line 7, column 4"],
    ["a value lost", table(bands, "0.1 0.2 0.3\n0.1 0.2\n0.1 0.2 0.3"), "wrong-length", "line 8, column 1"],
    [
      "fields miscounted",
      table(bands, "0.1 0.2 0.3", "NUMBER_OF_FIELDS 4"),
      "wrong-length",
      "line 2, column 18",
    ],
    ["sets miscounted", table(bands, "0.1 0.2 0.3", "NUMBER_OF_SETS 2"), "wrong-length", "line 2, column 16"],
    ["a word", table(bands, "0.1 x 0.3"), "wrong-type", "line 7, column 5"],
    ["per cent as DEC", table(bands, "0.1 0.2 30"), "percent-not-fraction", "line 7, column 9"],
    ["a gap", table(`${bands} SPECTRAL_DEC440`, "0.1 0.2 0.3 0.4"), "gap", "line 4, column 49"],
    [
      "another norm",
      table("SPEC_400 SPEC_410 SPEC_420", "1 1 1", "SPECTRAL_NORM 255"),
      "unknown-word",
      "line 2, column 15",
    ],
  ])("are refused with %s", (_, text, code, path) => {
    expect(refusal(() => readReadingsCgats(text, { geometry }))).toEqual({ code, path });
  });

  it("are refused before they fill the memory", () => {
    const line = "1 ".repeat(250_000);
    expect(refusal(() => readReadingsCgats(table(bands, `${line}\n`.repeat(9)), { geometry })).code).toBe(
      "too-large",
    );
  });
});
