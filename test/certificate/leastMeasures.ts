import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { createEvaluation, evaluate } from "../../src/forward/evaluate.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { labAt } from "../../src/problem/goal.js";
import { checkJob, type Job } from "../../src/problem/job.js";
import { prepareProblem } from "../../src/problem/problem.js";

export interface Trial {
  /** Random additions tried. */
  readonly additions: number;
  readonly seed: number;
}

/**
 * The least of both measures over random additions within stock and room: first anywhere, then ever nearer around the
 * best so far, each measure in turn, so that the search does find what there is to find.
 */
export function leastMeasures(
  job: Job,
  { additions, seed }: Trial,
): { readonly weighted: number; readonly worst: number } {
  const { problem } = prepareProblem(checkJob(job));
  const { model, bench, goal } = problem;
  const random = createRandom(seed);
  const at = createEvaluation(model);
  const count = bench.pot.length;
  const most = Array.from(bench.stock, (stock) => Math.min(stock, bench.room));
  const measures = (added: readonly number[]) => {
    evaluate(
      model,
      bench.pot.map((grams, j) => grams + added[j]),
      at,
    );
    let squares = 0;
    let worst = 0;
    for (const { lab, place, weight, allowed } of goal.aims) {
      const difference = ciede2000(lab, labAt(at.lab, place));
      squares += weight * difference ** 2;
      worst = Math.max(worst, difference / allowed);
    }
    return { weighted: Math.sqrt(squares), worst };
  };
  const within = (added: readonly number[]): readonly number[] => {
    const cut = added.map((grams, j) => Math.min(most[j], Math.max(0, grams)));
    const sum = cut.reduce((a, b) => a + b, 0);
    return sum > bench.room ? cut.map((grams) => (grams * bench.room) / sum) : cut;
  };
  const anywhere = () => {
    const total = bench.room * random.uniform() ** 2;
    const parts = Array.from({ length: count }, () =>
      random.uniform() < 0.4 ? -Math.log(1 - random.uniform()) : 0,
    );
    const sum = parts.reduce((a, b) => a + b, 0);
    return within(parts.map((part) => (sum > 0 ? (part / sum) * total : 0)));
  };
  const nothing = new Array<number>(count).fill(0);
  const best = {
    weighted: { added: nothing as readonly number[], ...measures(nothing) },
    worst: { added: nothing as readonly number[], ...measures(nothing) },
  };
  const tryAt = (added: readonly number[]) => {
    const both = measures(added);
    if (both.weighted < best.weighted.weighted) best.weighted = { added, ...both };
    if (both.worst < best.worst.worst) best.worst = { added, ...both };
  };
  for (let i = 0; i < additions; i++) {
    if (i < additions / 4) {
      tryAt(anywhere());
      continue;
    }
    const { added } = i % 2 === 0 ? best.weighted : best.worst;
    const far = 0.3 * (1 - i / additions) ** 3;
    const scale = 1e-4 * bench.room;
    tryAt(
      within(
        added.map((grams) =>
          random.uniform() < 0.5 ? grams : grams + far * (grams + scale) * random.normal(),
        ),
      ),
    );
  }
  return { weighted: best.weighted.weighted, worst: best.worst.worst };
}
