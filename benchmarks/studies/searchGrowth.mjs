import { correct } from "masstone";
import { certify } from "masstone/certificate";
import { fadedJob, growthJob, seededJob } from "../inventedPaint.mjs";
import { quantile } from "./figures.mjs";
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

const BARE = { alternatives: false, wayOut: false };
export const ROUNDS = 3;
/** Before the first round, in milliseconds a function. */
const WARM_UP = 1000;

export const SEEDED_JOBS = 60;
const TRIES = 3;

/**
 * Milliseconds of processor time of one call, the functions taking turns round by round as in benchmarks/measure.mjs: for each the calls of the
 * round with the least median, so that what else the machine did counts least.
 */
function quietest(runs) {
  for (const { run } of runs) {
    const start = performance.now();
    do run();
    while (performance.now() - start < WARM_UP);
  }
  const best = runs.map(() => undefined);
  for (let round = 0; round < ROUNDS; round++) {
    runs.forEach(({ run, calls }, i) => {
      const times = Array.from({ length: calls }, () => timed(run));
      if (!best[i] || quantile(times, 0.5) < quantile(best[i], 0.5)) best[i] = times;
    });
  }
  return best;
}

/** Processor time of all threads, those of compiler and collector among them: waiting for a core does not count. */
function timed(run) {
  const start = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

/** The least of three calls of each of many jobs: how times differ from job to job. */
function acrossJobs(act, limits = {}) {
  const jobs = Array.from({ length: SEEDED_JOBS }, (_, i) => {
    const job = seededJob(i + 1);
    return { ...job, limits: { ...job.limits, ...limits } };
  });
  return jobs.map((job) => Math.min(...Array.from({ length: TRIES }, () => timed(() => act(job)))));
}

const UNROUNDED = { scaleStepGrams: 0 };
const bare = (job) => correct(job, BARE);
const certified = (job) => certify(job, bare(job));

export function timings() {
  const common = fadedJob();
  const unrounded = { ...common, limits: { ...common.limits, ...UNROUNDED } };
  const sixty = growthJob({ ...COMMON, toners: 60 });
  const call = (name, run, calls, goal) => ({ name, goal, calls, run });
  const rows = [
    call("all subsets and refinement, nothing rounded", () => bare(unrounded), 60, { median: 3 }),
    call("the same in whole steps of 0.1 g", () => bare(common), 60),
    call("in whole steps, and `certify`", () => certified(common), 60, { median: 20, p99: 200 }),
    call("`correct(job)`: with alternatives and reasons", () => correct(common), 30),
    call("in whole steps, with forecast", () => correct(common, { ...BARE, forecast: true }), 10),
    call("60 toners, in whole steps", () => bare(sixty), 5, { median: 300 }),
  ];
  const grown = Object.entries(GROWN).flatMap(([what, counts]) =>
    counts.map((count) => ({ job: growthJob({ ...COMMON, [what]: count }) })),
  );
  const times = quietest(rows);
  const growing = grown.map(({ job }) => {
    correct(job, BARE);
    return Math.min(
      ...Array.from({ length: ROUNDS }, () =>
        quantile(
          Array.from({ length: 3 }, () => timed(() => correct(job, BARE))),
          0.5,
        ),
      ),
    );
  });
  return {
    table: rows.map(({ name, goal }, i) => ({ name, goal, milliseconds: times[i] })),
    jobs: [
      {
        name: "all subsets and refinement, nothing rounded",
        goal: { median: 3 },
        milliseconds: acrossJobs(bare, UNROUNDED),
      },
      { name: "in whole steps of 0.1 g", milliseconds: acrossJobs(bare) },
      {
        name: "in whole steps, and `certify`",
        goal: { median: 20, p99: 200 },
        milliseconds: acrossJobs(certified),
      },
    ],
    growth: Object.entries(GROWN).map(([what, counts]) => ({
      what,
      counts,
      milliseconds: counts.map(() => growing.shift()),
    })),
  };
}

const PANEL = { width: 145, height: 170, top: 74, left: 58, gap: 30 };

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
    const x = logScale([counts[0], counts.at(-1)], [area.left, area.left + area.width]);
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
      { title: "Time of one correction: up to four pours, steps of 0.1 g", description: text.join("; ") },
      PANEL.top + PANEL.height + 50,
      ...panels,
    ),
  );
}
