import { InputError } from "../core/InputError.js";
import type { Reading } from "../surface/reading.js";
import { atCells, type Cell, numberIn, placeOf } from "./cell.js";
import { DECLARED, type Declared, geometryOf } from "./declared.js";
import {
  NAMED_READING,
  NAMED_READINGS,
  type NamedReading,
  type ReadingsFile,
  readingsFile,
} from "./namedReading.js";
import { parseXml, type XmlElement, xmlText } from "./xml.js";

const CXF3 = "http://colorexchangeformat.com/CxF3-core";

/** What CxF3 has no certain place for stands in tags of these names. */
const TAGS = Object.freeze({
  geometry: "masstone:geometry",
  backing: "masstone:backing",
  aperture: "masstone:aperture mm",
});

/**
 * Readings from CxF3 (ISO 17972-1) text: every ReflectanceSpectrum of every Object, as fractions unless per cent are
 * declared. Geometry: a SingleAngle of 45 and 0, or words in GeometryChoice that leave no doubt, else as declared.
 * Throws InputError with line and column.
 */
export function readReadingsCxf3(text: string, declared: Declared = {}): ReadingsFile {
  const how = DECLARED.check(declared, "declared");
  const root = parseXml(text);
  if (root.name !== "CxF" || root.namespace !== CXF3) {
    throw new InputError("wrong-format", placeOf(root), `CxF of the namespace ${CXF3} is needed here`);
  }
  const specifications = new Map(
    descend(root, "Resources", "ColorSpecificationCollection", "ColorSpecification").map((element) => [
      element.attributes.Id,
      element,
    ]),
  );
  const objects = descend(root, "Resources", "ObjectCollection", "Object");
  return readingsFile(objects.map((object) => readObject(object, specifications, how)));
}

const READ_IN_OBJECT: readonly string[] = ["CreationDate", "Comment", "ColorValues", "TagCollection"];

function readObject(
  object: XmlElement,
  specifications: ReadonlyMap<string | undefined, XmlElement>,
  declared: Declared,
): ReadingsFile {
  const tag = (name: string) =>
    withText(
      descend(object, "TagCollection", "Tag").find(({ attributes }) => attributes.Name === name),
      "Value",
    );
  const [geometry, backing, aperture] = [tag(TAGS.geometry), tag(TAGS.backing), tag(TAGS.aperture)];
  const note = descend(object, "Comment").map(({ text }) => onOneLine(text))[0];
  const beside = {
    name: object.attributes.Name || object.attributes.Id || "without name",
    ...(backing && { backing: backing.text }),
    ...(aperture && { apertureMillimetres: numberIn(aperture, "aperture") }),
    ...(note && { note }),
  };
  const values = descend(object, "ColorValues").flatMap(({ children }) => children);
  const spectra = values.filter(isNamed("ReflectanceSpectrum"));
  const readings = spectra.map((spectrum) => {
    const specification = specifications.get(spectrum.attributes.ColorSpecification);
    const measured = specification ? descend(specification, "MeasurementSpec") : [];
    const reading = readSpectrum(spectrum, measured, geometry, declared);
    return atCells([], spectrum, () => NAMED_READING.check({ ...beside, reading }, ""));
  });
  const others = [
    ...object.children.filter(({ name }) => !READ_IN_OBJECT.includes(name)),
    ...values.filter((value) => !spectra.includes(value)),
  ];
  return { readings, leftOut: others.map(({ name }) => name) };
}

/** A spectrum; the wavelengths that it does not say itself, and the geometry, are those of its specification. */
function readSpectrum(
  spectrum: XmlElement,
  measured: readonly XmlElement[],
  tagged: Cell | undefined,
  declared: Declared,
): Reading {
  const ranges = measured.flatMap((element) => descend(element, "WavelengthRange"));
  const wavelength = (name: string) => {
    const sayer = [spectrum, ...ranges].find(({ attributes }) => attributes[name] !== undefined);
    return numberIn(withText(sayer, name) ?? { ...spectrum, text: "" }, name);
  };
  const [choice] = measured.flatMap((element) => descend(element, "GeometryChoice"));
  const said = tagged ?? (choice && { ...choice, text: geometryWords(choice) });
  const divisor = declared.scale === "percent" ? 100 : 1;
  const words = spectrum.text.trim().split(/\s+/);
  return {
    geometry: geometryOf(said, declared, spectrum),
    grid: { start: wavelength("StartWL"), step: wavelength("Increment"), count: words.length },
    reflectance: Float64Array.from(
      words,
      (text, i) => numberIn({ ...spectrum, text }, `value ${i + 1}`) / divisor,
    ),
  };
}

/** An attribute as a cell at the place of its element. */
const withText = (element: XmlElement | undefined, attribute: string): Cell | undefined =>
  element && { ...element, text: element.attributes[attribute] ?? "" };

const onOneLine = (text: string): string =>
  /[\t\n\r]/.test(text) ? text.replaceAll(/\s+/g, " ").trim() : text;

const isNamed =
  (name: string) =>
  (element: XmlElement): boolean =>
    element.name === name && element.namespace === CXF3;

/** The elements reached by a path of names. */
function descend(from: XmlElement, ...path: readonly string[]): readonly XmlElement[] {
  return path.reduce<readonly XmlElement[]>(
    (elements, name) => elements.flatMap(({ children }) => children.filter(isNamed(name))),
    [from],
  );
}

/** A single angle as `45/0`; of another choice, the words that stand in it. */
function geometryWords(choice: XmlElement): string {
  const angle = (name: string) => descend(choice, "SingleAngle", name).map(({ text }) => Number(text));
  const [light, view] = [angle("IlluminationAngle"), angle("MeasurementAngle")];
  if (light.length === 1 && view.length === 1) return `${light[0]}/${view[0]}`;
  const words = ({ text, children }: XmlElement): string => [text, ...children.map(words)].join(" ");
  return words(choice).replaceAll(/\s+/g, " ").trim();
}

const DATE_WITH_TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?(?:Z|[+-]\d\d:\d\d)?$/;

/**
 * CxF3 text of readings, as fractions. A GeometryChoice is written for 45:0 alone; every geometry, backing and aperture
 * stands in a tag beside the spectrum, which `readReadingsCxf3` reads. `created` is an ISO 8601 date with time.
 */
export function writeReadingsCxf3(readings: readonly NamedReading[], created?: string): string {
  const list = NAMED_READINGS.check(readings, "readings");
  if (created !== undefined && !DATE_WITH_TIME.test(created)) {
    throw new InputError("wrong-type", "created", `"${created}" is not like 2026-01-31T12:00:00Z`);
  }
  const date = created === undefined ? [] : [xmlText("cc:CreationDate", {}, created)];
  const specifications = [...new Set(list.map(({ reading }) => specificationText(reading)))];
  const objects = list.map((named, i) => {
    const specification = specifications.indexOf(specificationText(named.reading)) + 1;
    return objectText(named, { object: i + 1, specification }, date);
  });
  const root = xmlText("cc:CxF", { "xmlns:cc": CXF3 }, [
    xmlText("cc:FileInformation", {}, [xmlText("cc:Creator", {}, "masstone"), ...date]),
    xmlText("cc:Resources", {}, [
      xmlText("cc:ObjectCollection", {}, objects),
      xmlText(
        "cc:ColorSpecificationCollection",
        {},
        specifications.map((text, i) =>
          xmlText("cc:ColorSpecification", { Id: `specification-${i + 1}` }, [text]),
        ),
      ),
    ]),
  ]);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${root}\n`;
}

function specificationText({ geometry, grid }: Reading): string {
  const angles = [xmlText("cc:IlluminationAngle", {}, "45"), xmlText("cc:MeasurementAngle", {}, "0")];
  const choice = xmlText("cc:GeometryChoice", {}, [xmlText("cc:SingleAngle", {}, angles)]);
  return xmlText("cc:MeasurementSpec", {}, [
    xmlText("cc:MeasurementType", {}, "Spectrum_Reflectance"),
    ...(geometry === "45:0" ? [choice] : []),
    xmlText("cc:WavelengthRange", { StartWL: grid.start, Increment: grid.step }, []),
  ]);
}

function objectText(
  { name, reading, backing, apertureMillimetres, note }: NamedReading,
  number: { readonly object: number; readonly specification: number },
  date: readonly string[],
): string {
  const tags = [
    [TAGS.geometry, reading.geometry],
    [TAGS.backing, backing],
    [TAGS.aperture, apertureMillimetres],
  ] as const;
  const spectrum = xmlText(
    "cc:ReflectanceSpectrum",
    { ColorSpecification: `specification-${number.specification}`, StartWL: reading.grid.start },
    Array.from(reading.reflectance).join(" "),
  );
  return xmlText("cc:Object", { ObjectType: "Standard", Name: name, Id: `object-${number.object}` }, [
    ...date,
    ...(note === undefined ? [] : [xmlText("cc:Comment", {}, note)]),
    xmlText("cc:ColorValues", {}, [spectrum]),
    xmlText(
      "cc:TagCollection",
      {},
      tags
        .filter(([, value]) => value !== undefined)
        .map(([tag, value]) => xmlText("cc:Tag", { Name: tag, Value: value }, [])),
    ),
  ]);
}
