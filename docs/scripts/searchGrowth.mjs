import { correct } from "masstone";
import { fadedJob, growthJob } from "../../benchmarks/inventedPaint.mjs";
import { importSources } from "./importSources.mjs";

const [{ axes }, { figure }, { line }, { logScale }, { trace }, { seriesStyle }] = await importSources(
  "src/report/chart/axes.ts",
  "src/report/chart/figure.ts",
  "src/report/chart/line.ts",
  "src/report/chart/logScale.ts",
  "src/report/chart/trace.ts",
  "src/report/chart/seriesStyle.ts",
);

const COMMON = { toners: 15, bands: 31, geometries: 1, targets: 1 };
const GROWN = {
  toners: [5, 10, 15, 30, 60],
  bands: [16, 31, 61, 151],
  geometries: [1, 3, 5],
  targets: [1, 2, 4, 8],
};
/** Enough for the 99th centile to be one of several. */
const MANY = 300;
const FEW = 20;

const BARE = { alternatives: false };

/** Milliseconds of calls, the engine warm. */
function time(job, options, calls) {
  for (let i = 0; i < Math.min(20, calls); i++) correct(job, options);
  return Array.from({ length: calls }, () => {
    const start = performance.now();
    correct(job, options);
    return performance.now() - start;
  });
}

export function timings() {
  const common = fadedJob();
  const unrounded = { ...common, limits: { ...common.limits, scaleStepGrams: 0 } };
  const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
  return {
    table: [
      {
        name: "all subsets and refinement, nothing rounded, additions alone",
        milliseconds: time(unrounded, BARE, MANY),
      },
      { name: "whole steps of 0.1 g, additions alone", milliseconds: time(common, BARE, MANY) },
      { name: "the same with alternatives and reasons", milliseconds: time(common, {}, MANY) },
      {
        name: "60 toners, whole steps of 0.1 g, additions alone",
        milliseconds: time(growthJob({ ...COMMON, toners: 60 }), BARE, FEW),
      },
    ],
    growth: Object.entries(GROWN).map(([what, counts]) => ({
      what,
      counts,
      milliseconds: counts.map((count) => median(time(growthJob({ ...COMMON, [what]: count }), BARE, FEW))),
    })),
  };
}

const PANEL = { width: 150, height: 170, top: 70, left: 58, gap: 30 };

/** Milliseconds, on a logarithmic scale, against each of the counts, in panels side by side. */
export function growthFigure({ growth }) {
  const all = growth.flatMap(({ milliseconds }) => milliseconds);
  const range = [Math.min(...all) / 1.3, Math.max(...all) * 1.3];
  const panels = growth.flatMap(({ what, counts, milliseconds }, i) => {
    const area = {
      left: PANEL.left + i * (PANEL.width + PANEL.gap),
      top: PANEL.top,
      width: PANEL.width,
      height: PANEL.height,
    };
    const x = logScale([counts[0] * 0.9, counts.at(-1) * 1.1], [area.left, area.left + area.width]);
    const y = logScale(range, [area.top + area.height, area.top]);
    return [
      axes(area, x, y, { x: what, y: i === 0 ? "milliseconds" : "" }),
      line(trace(x, y, counts, milliseconds), seriesStyle(0)),
    ];
  });
  const text = growth.map(
    ({ what, counts, milliseconds }) =>
      `${what}: ${counts.map((count, i) => `${count} take ${milliseconds[i].toFixed(1)} ms`).join(", ")}`,
  );
  return String(
    figure(
      { title: "Time of one correction, median, four pours, 0.1 g", description: text.join("; ") },
      PANEL.top + PANEL.height + 50,
      ...panels,
    ),
  );
}
