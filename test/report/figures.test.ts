import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { correctionSpectra } from "../../src/correction/correctionSpectra.js";
import type { ReadingQuality, Sample, TonerQuality } from "../../src/doors/characterisation.js";
import { correct, type TonerSet } from "../../src/doors/index.js";
import type { NotebookFigure } from "../../src/report/chart/notebookFigure.js";
import { textWidth } from "../../src/report/chart/textWidth.js";
import { differencePlot } from "../../src/report/plots/differencePlot.js";
import { labPlot } from "../../src/report/plots/labPlot.js";
import { ladderPlot } from "../../src/report/plots/ladderPlot.js";
import { reflectancePlot } from "../../src/report/plots/reflectancePlot.js";
import { type TintLadder, tintLadders } from "../../src/report/plots/tintLadders.js";
import { tonerPlot } from "../../src/report/plots/tonerPlot.js";
import { randomJob } from "../certificate/randomJobs.js";
import { horseboxJob } from "../fixtures/horsebox.js";
import { refusal } from "../support/refusal.js";
import { characterisation, samples, toners } from "./inventedCharacterisation.js";
import { everyNode, parseMarkup, textsOf } from "./parseMarkup.js";

const geometry = "d:8 specular excluded";
const correction = correct(horseboxJob());
const [ladder] = tintLadders(samples);

const figures: readonly (readonly [string, () => NotebookFigure])[] = [
  ["reflectancePlot", () => reflectancePlot(characterisation.samples[9], toners.grid)],
  ["tonerPlot", () => tonerPlot(toners, characterisation.quality[2])],
  ["ladderPlot", () => ladderPlot(ladder)],
  ["labPlot", () => labPlot(correction)],
  ["labPlot of one plane", () => labPlot(correction, {}, { plane: "a*b*", height: 116 })],
  ["differencePlot", () => differencePlot(correctionSpectra(horseboxJob(), correction)[0])],
];

/** Every path and number of a figure is written out, and all of it is XML. */
function expectSound({ svg }: NotebookFigure) {
  const root = parseMarkup(svg);
  for (const { name, attributes } of everyNode(root)) {
    for (const [key, value] of Object.entries(attributes)) {
      expect(value, `${name} ${key}`).not.toMatch(/NaN|undefined|null|Infinity|^[^#]*\de[+-]?\d/);
    }
    if (attributes.d) {
      expect(attributes.d).toMatch(/^(M-?[\d.]+ -?[\d.]+([LhvaZ]|-?[\d.]+| )*)+$/);
    }
    for (const size of ["width", "height", "x", "y"]) {
      if (size in attributes) expect(Number(attributes[size]), `${name} ${size}`).toBeGreaterThanOrEqual(0);
    }
  }
  return root;
}

describe.each(figures)("%s", (_, draw) => {
  it("is the same bytes each time", () => {
    expect(draw().svg).toBe(draw().svg);
  });

  it("holds no ids, scripts, links or files, so that many can stand in one page", () => {
    const nodes = everyNode(expectSound(draw()));
    expect(nodes.flatMap(({ attributes }) => Object.keys(attributes))).not.toContain("id");
    expect(nodes.map(({ name }) => name).filter((name) => /script|image|use|foreign/i.test(name))).toEqual(
      [],
    );
    expect(draw().svg.replace("http://www.w3.org/2000/svg", "")).not.toMatch(/href|url\(|https?:/);
  });

  it("begins with a name and a description for screen readers", () => {
    const root = parseMarkup(draw().svg);
    expect(root.name).toBe("svg");
    expect(root.attributes.role).toBe("img");
    expect(root.children.slice(0, 2).map(({ name }) => name)).toEqual(["title", "desc"]);
    expect(root.children[0].text.length).toBeGreaterThan(10);
    expect(root.children[1].text.length).toBeGreaterThan(40);
  });

  it("styles only what is its own, dark on dark screens", () => {
    const [style] = textsOf(parseMarkup(draw().svg), "style");
    expect(style).toContain("@media screen and (prefers-color-scheme:dark)");
    for (const [, selector] of style.matchAll(/(?:^|[{}])([^{}@]+)\{/g)) {
      expect(selector).toMatch(/^\.masstone-figure/);
    }
  });

  it("has every text inside the paper, as far as widths can be told", () => {
    const root = parseMarkup(draw().svg);
    for (const { attributes, text } of everyNode(root).filter(({ name }) => name === "text")) {
      const share = { start: 0, middle: 0.5, end: 1 }[attributes["text-anchor"] ?? "start"] ?? Number.NaN;
      const left = Number(attributes.x) - share * textWidth(text);
      expect(left, text).toBeGreaterThanOrEqual(0);
      expect(left + textWidth(text), text).toBeLessThanOrEqual(Number(root.attributes.width));
      expect(Number(attributes.y)).toBeLessThan(Number(root.attributes.height));
    }
  });

  it("is a picture in a notebook and text elsewhere", () => {
    const figure = draw();
    expect(`${figure}`).toBe(figure.svg);
    expect(figure[Symbol.for("Jupyter.display")]()).toEqual({ "image/svg+xml": figure.svg });
  });
});

describe("labels of a way in Lab", () => {
  /** As wide as texts are guessed, as high as their letters. */
  const boxes = ({ svg }: NotebookFigure) =>
    everyNode(parseMarkup(svg))
      .filter(({ attributes }) => attributes.class === "on-data")
      .map(({ attributes, text }) => {
        const [left, bottom] = [Number(attributes.x), Number(attributes.y)];
        return { text, left, right: left + textWidth(text), top: bottom - 9, bottom };
      });

  it.each(["a*b*", "C*L*"] as const)("lie on no other label on a sheet: %s", (plane) => {
    for (let seed = 1; seed <= 40; seed++) {
      const { job } = randomJob(horseboxJob().toners, seed);
      const answer = correct({ ...job, limits: { ...job.limits, scaleStepGrams: 0.1 } });
      const all = boxes(labPlot(answer, {}, { height: 116, plane }));
      const pairs = all.flatMap((one, i) => all.slice(i + 1).map((other) => [one, other] as const));
      const colliding = pairs.filter(
        ([a, b]) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom,
      );
      expect(colliding.map(([a, b]) => [seed, a.text, b.text])).toEqual([]);
    }
  });
});

describe("names from data", () => {
  const nasty = `</text><script>"&'\u0000`;

  it("stay text in every figure", () => {
    const [first] = correction.additions;
    const named = {
      ...toners,
      toners: toners.toners.map((toner) => ({ ...toner, name: nasty })),
    };
    for (const figure of [
      reflectancePlot({ ...characterisation.samples[0], name: nasty }, toners.grid),
      tonerPlot(named, characterisation.quality[0]),
      ladderPlot(ladder, { [ladder.toner]: nasty, [ladder.with]: nasty }),
      labPlot(correction, { [first.toner]: nasty }),
    ]) {
      const root = expectSound(figure);
      const shown = everyNode(root).map(({ text }) => text);
      expect(shown.some((text) => text.includes(`</text><scr`))).toBe(true);
      expect(everyNode(root).map(({ name }) => name)).not.toContain("script");
    }
  });

  it("may be far too long", () => {
    const long = "W".repeat(9_000);
    const root = expectSound(reflectancePlot({ ...characterisation.samples[0], name: long }, toners.grid));
    expect(textsOf(root, "title")[0]).toContain(long);
    for (const text of textsOf(root, "text")) expect(text.length).toBeLessThan(120);
  });
});

const anyNumber = fc.double();
const coefficient = fc.oneof(fc.double({ min: 0, max: 1e6, noNaN: true }), fc.constant(0));
const sd = fc.oneof(
  fc.double({ min: 0, max: 1000, noNaN: true }),
  fc.constantFrom(Number.POSITIVE_INFINITY, Number.NaN),
);
const grids = fc.record({
  start: fc.integer({ min: 360, max: 500 }),
  step: fc.constantFrom(0.5, 5, 10, 20),
  count: fc.integer({ min: 1, max: 12 }),
});
const list = (of: fc.Arbitrary<number>, count: number) =>
  fc.array(of, { minLength: count, maxLength: count });

describe("whatever the numbers are", () => {
  it("reflectancePlot is sound", () => {
    const inputs = grids.chain((grid) => {
      const reading: fc.Arbitrary<ReadingQuality> = fc.record({
        geometry: fc.constant(geometry),
        backing: fc.constant("white"),
        measured: list(anyNumber, grid.count),
        predicted: list(anyNumber, grid.count),
        deltaE00: anyNumber,
      });
      return fc.tuple(fc.constant(grid), fc.array(reading, { maxLength: 8 }));
    });
    fc.assert(
      fc.property(inputs, ([grid, readings]) => {
        expectSound(reflectancePlot({ name: "sample", readings }, grid));
      }),
    );
  });

  it("tonerPlot is sound, with nothing known, all known, or one band of one", () => {
    const inputs = grids.chain((grid) => {
      const nm = Array.from({ length: grid.count }, (_, i) => grid.start + i * grid.step);
      const spectra = fc
        .tuple(list(coefficient, grid.count), list(coefficient, grid.count))
        .map(([k, s]): TonerSet => {
          const toner = { id: "t", k: { [geometry]: k }, s: { [geometry]: s } };
          return { grid, surfaces: [{ geometry, k1: 0.04, k2: 0.6 }], toners: [toner] };
        });
      const quality: fc.Arbitrary<TonerQuality> = fc.record({
        id: fc.constant("t"),
        geometry: fc.constant(geometry),
        sdOfLogK: list(sd, grid.count),
        sdOfLogS: list(sd, grid.count),
        notIdentifiable: fc.array(
          fc.record({
            what: fc.constantFrom("k", "s"),
            wavelengths: fc.subarray(nm),
            reason: fc.constantFrom("hides fully", "too dark", "too few samples", "does not scatter"),
          }),
          { maxLength: 3 },
        ),
      });
      return fc.tuple(spectra, quality);
    });
    fc.assert(
      fc.property(inputs, ([set, quality]) => {
        expectSound(tonerPlot(set, quality));
      }),
    );
  });

  it("ladderPlot is sound, from one step to very many, on any grids", () => {
    const step: fc.Arbitrary<Sample> = fc
      .tuple(grids, fc.double({ min: 0, max: 100, noNaN: true }))
      .chain(([grid, mass]) =>
        list(anyNumber, grid.count).map((reflectance) => ({
          name: "step",
          recipe: { t: mass, white: 1 },
          readings: [{ geometry, grid, reflectance }],
        })),
      );
    const ladders: fc.Arbitrary<TintLadder> = fc
      .array(step, { minLength: 1, maxLength: 50 })
      .map((steps) => ({ toner: "t", with: "white", steps }));
    fc.assert(
      fc.property(ladders, (any) => {
        expectSound(ladderPlot(any));
      }),
      { numRuns: 50 },
    );
  });

  it("labPlot is sound for any colours and tolerances", () => {
    const component = fc.double({ min: -200, max: 200, noNaN: true });
    const lab = fc.tuple(fc.double({ min: 0, max: 100, noNaN: true }), component, component);
    const difference = fc.double({ min: 0, noNaN: true });
    fc.assert(
      fc.property(lab, fc.array(lab, { maxLength: 6 }), lab, difference, (card, pours, goal, allowed) => {
        const [first] = correction.predictions;
        expectSound(
          labPlot({
            ...correction,
            additions: pours.map((labAfter, i) => ({
              toner: `toner ${i}`,
              grams: i,
              drops: null,
              gramsUnrounded: i,
              labAfter,
            })),
            predictions: [{ ...first, labBefore: card, labTarget: goal, deltaE00Allowed: allowed }],
          }),
        );
      }),
      { numRuns: 50 },
    );
  });
});

describe("what the figures show", () => {
  const hatches = (root: ReturnType<typeof parseMarkup>) =>
    everyNode(root).filter(({ attributes }) => attributes["stroke-opacity"] === "0.45").length;

  it("tonerPlot hatches and leaves out what cannot be told, and says why", () => {
    const root = parseMarkup(tonerPlot(toners, characterisation.quality[2]).svg);
    expect(textsOf(root, "text")).toContain("S cannot be told (too dark): 400–430 nm");
    // One in the legend, one on the data.
    expect(hatches(root)).toBe(2);
    expect(hatches(parseMarkup(tonerPlot(toners, characterisation.quality[0]).svg))).toBe(0);
  });

  it("tonerPlot says so when nothing is known, or all is zero", () => {
    const [white] = toners.toners;
    const clear = { ...white, k: { [geometry]: new Float64Array(toners.grid.count) } };
    const set = { ...toners, toners: [clear, ...toners.toners.slice(1)] };
    expect(tonerPlot(set, characterisation.quality[0]).svg).toContain("0 at every wavelength");
    expect(tonerPlot(toners, characterisation.quality[1]).svg).toContain("cannot be told at any wavelength");
  });

  it("ladderPlot labels the steps with their shares, the least first", () => {
    const texts = textsOf(parseMarkup(ladderPlot(ladder).svg), "text").filter((text) => text.endsWith("%"));
    expect(texts).toEqual(["0.5 %", "2 %", "5 %", "15 %", "40 %", "80 %", "100 %"]);
  });

  it("ladderPlot tells backings apart where a step was read over several", () => {
    const { grid } = toners;
    const reflectance = new Float64Array(31).fill(0.5);
    const twice: Sample = {
      name: "twice",
      recipe: { black: 1, white: 1 },
      readings: [
        { geometry, grid, reflectance, backingName: "black" },
        { geometry, grid, reflectance },
      ],
    };
    const { svg } = ladderPlot({ toner: "black", with: "white", steps: [twice] });
    expect(svg).toContain("50 % over black");
    expect(svg).toContain("50 % over backing 2");
  });

  it("labPlot names the card, every pour with its grams, and every target", () => {
    const texts = textsOf(parseMarkup(labPlot(correction).svg), "text");
    expect(texts.filter((text) => text === "card")).toHaveLength(2);
    correction.additions.forEach(({ toner, grams }, i) => {
      expect(texts.some((text) => text.startsWith(`${i + 1} ${toner} ${grams}`))).toBe(true);
    });
    for (const name of ["near-side door", "tail ramp"]) expect(texts).toContain(name);
  });

  it("labPlot has as many pixels per unit along x as along y", () => {
    const root = parseMarkup(labPlot(correction).svg);
    const [plane] = root.children.filter(({ name }) => name === "g");
    const ticks = textsTicks(plane);
    expect(pixelsPerUnit(ticks.x)).toBeCloseTo(pixelsPerUnit(ticks.y), 1);
  });

  it("lists of the wrong length and strangers are refused", () => {
    const [sample] = characterisation.samples;
    const short = { ...sample, readings: [{ ...sample.readings[0], predicted: [0.5] }] };
    expect(refusal(() => reflectancePlot(short, toners.grid))).toMatchObject({
      code: "wrong-length",
      path: "readings[0].predicted",
    });
    const [quality] = characterisation.quality;
    expect(refusal(() => tonerPlot(toners, { ...quality, sdOfLogS: [] }))).toMatchObject({
      code: "wrong-length",
      path: "quality.sdOfLogS",
    });
    expect(refusal(() => tonerPlot(toners, { ...quality, id: "nobody" }))).toMatchObject({
      code: "unknown-toner",
    });
    expect(refusal(() => ladderPlot(ladder, {}, "45as110"))).toMatchObject({ code: "unknown-geometry" });
    expect(refusal(() => ladderPlot({ toner: "a", with: "b", steps: [] }))).toMatchObject({
      code: "unknown-geometry",
    });
    expect(refusal(() => labPlot({ ...correction, predictions: [] }))).toMatchObject({ code: "missing" });
  });
});

/** Tick labels of a plane as [value, pixel]; those of x stand centred, those of y end at the axis. */
function textsTicks(plane: ReturnType<typeof parseMarkup>) {
  const ticks = everyNode(plane)
    .filter(({ name, text }) => name === "text" && /^−?[\d.]+$/.test(text))
    .map(({ attributes, text }) => ({ attributes, value: Number(text.replace("−", "-")) }));
  const along = (anchor: string, key: string) =>
    ticks
      .filter(({ attributes }) => attributes["text-anchor"] === anchor)
      .map(({ attributes, value }) => [value, Number(attributes[key])] as const);
  return { x: along("middle", "x"), y: along("end", "y") };
}

function pixelsPerUnit(ticks: readonly (readonly [value: number, pixel: number])[]): number {
  const [[from, fromPixel], [to, toPixel]] = [ticks[0], ticks[ticks.length - 1]];
  return Math.abs((toPixel - fromPixel) / (to - from));
}
