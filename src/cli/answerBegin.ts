import { dirname, relative, sep } from "node:path";
import { ILLUMINANT } from "../colorimetry/illuminant.js";
import { InputError } from "../core/InputError.js";
import { beginJob, beginPlan, beginSamples } from "../formats/beginFile.js";
import { SCALE } from "../formats/declared.js";
import { readJob } from "../formats/jobFile.js";
import { readPlan } from "../formats/readPlan.js";
import { readReadings } from "../formats/readReadings.js";
import { readSamples } from "../formats/samplesFile.js";
import { readToners } from "../formats/tonersFile.js";
import { lines, screenText } from "../report/words/screenText.js";
import { GEOMETRY } from "../surface/geometry.js";
import { surfaceFromIndex } from "../surface/surface.js";
import type { Grams } from "../toners/pot.js";
import { typedGrams } from "../toners/typedGrams.js";
import { fromFile, toFile } from "./files.js";
import { pastedCommand } from "./nextCommand.js";
import { pairOf } from "./pairOf.js";
import { askSystem } from "./systemRefusal.js";
import type { Terminal } from "./terminal.js";
import { type Answer, type Asked, type Detail, detailOf } from "./verb.js";

/** Refractive index of a usual resin: common practice. */
const RESIN = 1.5;

/** Begins a job, a plan or samples from a file of readings: whatever is written was read back first. */
export function answerBegin(terminal: Terminal, file: string, asked: Asked): Answer {
  refuseExisting(terminal, file);
  const kinds = (["pour", "formula", "mix"] as const).filter((kind) => allOf(asked, kind).length > 0);
  if (kinds.length !== 1) {
    throw usage(
      "begin",
      "say one of --pour (a job), --formula (a plan) and --mix (samples), once for each toner or mix",
    );
  }
  const [kind] = kinds;
  const read = readingsFrom(terminal, file, asked);
  const what = kind === "mix" ? samplesOf(read, asked) : potOf(terminal, file, { read, asked, kind });
  const text = `${JSON.stringify(what.record, null, 2)}\n`;
  what.readBack(text);
  const line = pastedCommand([what.verb, file, ...what.flags], terminal);
  return {
    record: what.record,
    text: () =>
      screenText([
        `${file} is written, and can be read.`,
        lines("Put in, to be changed there:", ...what.put.map((one) => `- ${one}`)),
        lines("Next:", line),
      ]),
    save: () => toFile(terminal, file, text),
  };
}

const allOf = ({ details }: Asked, detail: Detail): readonly string[] =>
  details.filter(([one]) => one === detail).map(([, value]) => value);

function needed({ details }: Asked, detail: Detail, why: string): string {
  const value = detailOf(details, detail);
  if (value === undefined) throw usage(`--${detail}`, why);
  return value;
}

/** The instrument's file: what is in it, and how the new file names it. */
interface Read {
  readonly text: string;
  readonly readings: ReturnType<typeof readReadings>["readings"];
  readonly names: readonly string[];
  readonly files: readonly { readonly name: string }[];
  /** A name of a reading that is there. */
  checked(name: string, option: string): string;
}

function readingsFrom(terminal: Terminal, file: string, asked: Asked): Read {
  const readingsFile = needed(asked, "readings", "say the instrument's file");
  const geometry = detailOf(asked.details, "geometry");
  const scale = detailOf(asked.details, "scale");
  const declared = {
    ...(geometry !== undefined && { geometry: GEOMETRY.check(geometry, "--geometry") }),
    ...(scale !== undefined && { scale: SCALE.check(scale, "--scale") }),
  };
  const text = fromFile(terminal, readingsFile, (one) => one);
  const { readings, colours = [] } = fromFile({ ...terminal, readFile: () => text }, readingsFile, (one) =>
    readReadings(one, { name: readingsFile, declared }, "--readings"),
  );
  const names = [...new Set([...readings, ...colours].map(({ name }) => name))];
  const checked = (value: string, option: string): string => {
    if (names.includes(value)) return value;
    const reason = `${readingsFile} has no reading "${value}"; it has ${names.join(", ")}`;
    throw new InputError("missing", option, reason);
  };
  return { text, readings, names, files: [{ name: beside(file, readingsFile), ...declared }], checked };
}

/** What is begun. */
interface Begun {
  readonly record: object;
  /** Throws where what is written could not be read. */
  readonly readBack: (text: string) => void;
  /** Which verb goes on from it. */
  readonly verb: string;
  readonly flags: readonly string[];
  /** What was put in. */
  readonly put: readonly string[];
}

function samplesOf({ text: readingsText, readings, files, checked }: Read, asked: Asked): Begun {
  const samples = allOf(asked, "mix").map((mix) => {
    const { name, recipe } = mixOf(mix);
    return { name: checked(name, "--mix"), recipe };
  });
  const backings = Object.fromEntries(
    allOf(asked, "backing").map((pair) => {
      const [word, name] = pairOf(pair, "--backing");
      return [word, checked(name, "--backing")];
    }),
  );
  const [{ reading }] = readings;
  const geometries = [...new Set(readings.map((one) => one.reading.geometry))];
  return {
    record: beginSamples({
      grid: reading.grid,
      surfaces: geometries.map((one) => surfaceFromIndex(one, RESIN)),
      samples,
      ...(Object.keys(backings).length > 0 && { backings }),
      files,
    }),
    readBack: (text) => readSamples(text, () => readingsText),
    verb: "characterise",
    flags: [],
    put: ["a resin of refractive index 1.5"],
  };
}

/** A job of a pot, or the plan of one. */
function potOf(
  terminal: Terminal,
  file: string,
  { read, asked, kind }: { readonly read: Read; readonly asked: Asked; readonly kind: "pour" | "formula" },
): Begun {
  const { names, files, checked } = read;
  const tonersFile = needed(asked, "toners", "say the file of your toners; masstone characterise makes one");
  const toners = fromFile(terminal, tonersFile, readToners);
  const light = ILLUMINANT.check(detailOf(asked.details, "light") ?? "D65", "--light");
  const card = detailOf(asked.details, "card") ?? "card";
  const isJob = kind === "pour";
  const targets = allOf(asked, "target").map((name) => checked(name, "--target"));
  const others = names.filter((name) => !isJob || name !== card);
  const from = {
    toners: beside(file, tonersFile),
    files,
    light,
    targets: targets.length > 0 ? targets : others,
  };
  const grams = gramsOf(allOf(asked, kind), `--${kind}`, asked.unit);
  const wanted = () =>
    typedGrams(needed(asked, "wanted", "say how much paint all panels need"), "--wanted", {
      unit: asked.unit,
    });
  const record = isJob
    ? beginJob(from, { pot: grams, card: checked(card, "--card") })
    : beginPlan(from, { formula: grams, wantedGrams: wanted() });
  const isOutside = [from.toners, files[0].name].some((name) => name.startsWith(".."));
  return {
    record,
    readBack: (text) =>
      (isJob ? readJob : readPlan)(
        text,
        () => toners,
        () => read.text,
      ),
    verb: isJob ? "correct" : "hold-back",
    flags: isOutside ? ["--allow-outside"] : [],
    put: [
      `to match: ${from.targets.join(", ")}`,
      `light ${light}, observer of 10°`,
      "0.5 ΔE00 allowed at an edge and 1 in a blend, a scale of 0.1 g",
    ],
  };
}

/** Nobody's file is written over. */
function refuseExisting(terminal: Terminal, file: string): void {
  const isThere = (() => {
    try {
      terminal.readFile(file);
      return true;
    } catch {
      return false;
    }
  })();
  if (isThere)
    throw new InputError("unwritable-file", file, "it is there already: begin another, or take it away");
  askSystem("unwritable-file", file, () => terminal.willWrite(file));
}

/** How the new file names another. */
function beside(file: string, other: string): string {
  return relative(dirname(file), other).split(sep).join("/");
}

function gramsOf(pairs: readonly string[], option: string, unit: Asked["unit"]): Grams {
  const grams = pairs.map((pair) => {
    const [toner, amount] = pairOf(pair, option);
    return [toner, typedGrams(amount, option, { unit })] as const;
  });
  const [twice] = grams.filter(([toner], i) => grams.findIndex(([one]) => one === toner) < i);
  if (twice) throw new InputError("duplicate", option, `"${twice[0]}" is said twice`);
  return Object.fromEntries(grams);
}

/** `NAME: TONER=PARTS …` */
function mixOf(value: string): { readonly name: string; readonly recipe: Grams } {
  const at = value.lastIndexOf(":");
  if (at < 1) throw usage("--mix", `"${value}": write it as 'blue tint 5: white=95 blue=5'`);
  const parts = value
    .slice(at + 1)
    .split(/\s+/)
    .filter((part) => part !== "");
  return { name: value.slice(0, at).trim(), recipe: gramsOf(parts, "--mix", undefined) };
}

function usage(option: string, reason: string): InputError {
  return new InputError("usage", option, reason);
}
