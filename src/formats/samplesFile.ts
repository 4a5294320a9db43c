import {
  CHARACTERISATION_JOB,
  type CharacterisationJob,
  type CheckedJob,
  checkCharacterisationJob,
} from "../characterisation/job.js";
import { SAMPLE, SAMPLE_READINGS, type Sample, type SampleReading } from "../characterisation/sample.js";
import { pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { extended } from "../core/shape/extended.js";
import { list } from "../core/shape/list.js";
import { map } from "../core/shape/map.js";
import { optional } from "../core/shape/optional.js";
import { text } from "../core/shape/text.js";
import type { Grid } from "../spectra/grid.js";
import { resampleSprague } from "../spectra/resample.js";
import { checkHeader } from "./header.js";
import { parseJson } from "./json.js";
import type { NamedReading } from "./namedReading.js";
import { FILES_OF_READINGS, type FileOfReadings, type FindText, readFiles } from "./readFiles.js";

/** What `characterise` reads. */
export interface SamplesJson extends Omit<CharacterisationJob, "samples"> {
  readonly samples: readonly SampleInFile[];
  /** Files of readings beside this one: of the samples that have no `readings` of their own. */
  readonly files?: readonly FileOfReadings[];
  /** By the word for a backing in `files`: the name of the reading of the bare chart. */
  readonly backings?: Readonly<Record<string, string>>;
}

/** A sample whose readings may stand in one of the files. */
export interface SampleInFile extends Omit<Sample, "readings"> {
  /** In `files` by the sample's name when absent. */
  readonly readings?: readonly SampleReading[];
}

/** The file of samples. */
export const SAMPLES_FILE = extended<
  Omit<SamplesJson, "viewing" | "options" | "candidates"> &
    Pick<CheckedJob, "viewing" | "options" | "candidates">,
  SamplesJson,
  CheckedJob
>(CHARACTERISATION_JOB, {
  samples: list(
    extended<SampleInFile, SampleInFile, Sample>(SAMPLE, { readings: optional(SAMPLE_READINGS) }),
    {
      min: 1,
      max: 2000,
      unique: "name",
    },
  ),
  files: optional(FILES_OF_READINGS),
  backings: optional(map(text())),
});

/** What came out of a samples file and the files that it names. */
export interface SamplesFile {
  readonly job: CharacterisationJob;
  /** What stands in the files of readings and was not used: readings of no sample here, columns not known. */
  readonly leftOut: readonly string[];
}

/**
 * A job of `characterise` from the text of a `masstone/samples` file. Readings stand in the samples themselves or in
 * `files`, where they are found by the sample's name; a reading over a named backing is taken with the reading of the
 * bare chart that `backings` names, one over none as opaque. Readings come to the job's grid by Sprague.
 * Throws InputError with the place in the file, and with the name of the file of readings before it.
 */
export function readSamples(text: string, findText: FindText): SamplesFile {
  const {
    files: fileNames,
    backings = {},
    ...record
  } = SAMPLES_FILE.check(checkHeader(parseJson(text), "masstone/samples"), "");
  const { grid } = record;
  const files = readFiles(fileNames, findText);
  const named = files.flatMap(({ readings }) => readings);
  const bare = bareBackings(backings, named, grid);
  const used = new Set<string>([...bare.values()].map(({ name }) => name));
  const samples = record.samples.map((sample, i) => {
    if (sample.readings !== undefined) return sample;
    const { name } = sample;
    const own = named.filter((candidate) => candidate.name === name);
    if (own.length === 0) {
      const reason = `"${name}" has no readings, neither here nor in files`;
      throw new InputError("missing", `samples[${i}].readings`, reason);
    }
    used.add(name);
    return { ...sample, readings: own.map((one) => overItsBacking(one, bare, grid)) };
  });
  const unused = named.filter(({ name }) => !used.has(name)).map(({ name }) => `reading "${name}"`);
  return {
    job: checkCharacterisationJob({ ...record, samples }),
    leftOut: [...new Set([...files.flatMap(({ leftOut }) => leftOut), ...unused])],
  };
}

/** The readings of the bare charts, by backing and geometry. */
function bareBackings(
  backings: Readonly<Record<string, string>>,
  named: readonly NamedReading[],
  grid: Grid,
): ReadonlyMap<string, { readonly name: string; readonly reflectance: ArrayLike<number> }> {
  const bare = new Map<string, { readonly name: string; readonly reflectance: ArrayLike<number> }>();
  for (const [backing, name] of Object.entries(backings)) {
    const path = pathTo("backings", backing);
    const charts = named.filter((candidate) => candidate.name === name);
    if (charts.length === 0) throw new InputError("missing", path, `no reading in files is called "${name}"`);
    for (const { reading } of charts) {
      bare.set(`${backing} ${reading.geometry}`, { name, reflectance: onGrid(reading, grid) });
    }
  }
  return bare;
}

function overItsBacking(
  { name, reading, backing }: NamedReading,
  bare: ReturnType<typeof bareBackings>,
  grid: Grid,
): SampleReading {
  const film = { geometry: reading.geometry, grid, reflectance: onGrid(reading, grid) };
  if (backing === undefined || backing === "opaque") return film;
  const chart = bare.get(`${backing} ${reading.geometry}`);
  if (chart === undefined) {
    const reason = `"${name}" was read over ${backing}: name the reading of the bare chart (${reading.geometry}) here`;
    throw new InputError("missing", pathTo("backings", backing), reason);
  }
  return { ...film, backing: chart.reflectance, backingName: backing };
}

function onGrid({ grid: own, reflectance }: NamedReading["reading"], grid: Grid): ArrayLike<number> {
  return resampleSprague({ grid: own, values: reflectance }, grid, "grid").values;
}
