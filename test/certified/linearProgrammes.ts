/**
 * Linear programmes with published answers, from memory of their sources; each answer is also proved in the test by
 * its multipliers or its ray, so that a slip of memory could not pass.
 */
export interface KnownProgramme {
  readonly name: string;
  readonly source: string;
  /** Maximised. */
  readonly objective: readonly number[];
  readonly matrix: readonly (readonly number[])[];
  readonly atMost: readonly number[];
  readonly status: "optimal" | "infeasible" | "unbounded";
  readonly value?: number;
  readonly x?: readonly number[];
}

/** Klee & Minty's cube of n dimensions, on which the rule of the largest slope visits every corner. */
function kleeMinty(n: number): KnownProgramme {
  const row = (i: number) =>
    Array.from({ length: n }, (_, j) => (j < i ? 2 ** (i - j + 1) : j === i ? 1 : 0));
  return {
    name: `Klee–Minty cube of ${n} dimensions`,
    source: "Klee & Minty 1972, as in Chvátal 1983",
    objective: Array.from({ length: n }, (_, j) => 2 ** (n - 1 - j)),
    matrix: Array.from({ length: n }, (_, i) => row(i)),
    atMost: Array.from({ length: n }, (_, i) => 5 ** (i + 1)),
    status: "optimal",
    value: 5 ** n,
    x: Array.from({ length: n }, (_, j) => (j === n - 1 ? 5 ** n : 0)),
  };
}

const upTo = (column: number, columns: number) =>
  Array.from({ length: columns }, (_, j) => (j === column ? 1 : 0));
const atLeast = (row: readonly number[]) => row.map((value) => -value);

/** Seven raw materials of an alloy, shares of iron, copper, manganese, aluminium, silicon. */
const ALLOY = {
  yield: [1, 1, 1, 1, 1, 1, 1],
  iron: [0.15, 0.04, 0.02, 0.04, 0.02, 0.01, 0.03],
  copper: [0.03, 0.05, 0.08, 0.02, 0.06, 0.01, 0],
  manganese: [0.02, 0.04, 0.01, 0.02, 0.02, 0, 0],
  aluminium: [0.7, 0.75, 0.8, 0.75, 0.8, 0.97, 0],
  silicon: [0.02, 0.06, 0.08, 0.12, 0.02, 0.01, 0.97],
};

export const KNOWN_PROGRAMMES: readonly KnownProgramme[] = [
  {
    name: "first example of Chvátal",
    source: "Chvátal 1983, ch. 2",
    objective: [5, 4, 3],
    matrix: [
      [2, 3, 1],
      [4, 1, 2],
      [3, 4, 2],
    ],
    atMost: [5, 11, 8],
    status: "optimal",
    value: 13,
    x: [2, 0, 1],
  },
  {
    name: "Wyndor Glass",
    source: "Hillier & Lieberman, Introduction to Operations Research, ch. 3",
    objective: [3, 5],
    matrix: [
      [1, 0],
      [0, 2],
      [3, 2],
    ],
    atMost: [4, 12, 18],
    status: "optimal",
    value: 36,
    x: [2, 6],
  },
  {
    name: "Beale's cycling example",
    source: "Beale 1955",
    objective: [0.75, -150, 0.02, -6],
    matrix: [
      [0.25, -60, -0.04, 9],
      [0.5, -90, -0.02, 3],
      [0, 0, 1, 0],
    ],
    atMost: [0, 0, 1],
    status: "optimal",
    value: 0.05,
    x: [0.04, 0, 1, 0],
  },
  {
    name: "Chvátal's cycling example",
    source: "Chvátal 1983, ch. 3",
    objective: [10, -57, -9, -24],
    matrix: [
      [0.5, -5.5, -2.5, 9],
      [0.5, -1.5, -0.5, 1],
      [1, 0, 0, 0],
    ],
    atMost: [0, 0, 1],
    status: "optimal",
    value: 1,
    x: [1, 0, 1, 0],
  },
  {
    name: "a start that is not feasible",
    source: "Chvátal 1983, ch. 3",
    objective: [1, -1, 1],
    matrix: [
      [2, -1, 2],
      [2, -3, 1],
      [-1, 1, -2],
    ],
    atMost: [4, -5, -1],
    status: "optimal",
    value: 0.6,
    x: [0, 2.8, 3.4],
  },
  {
    name: "blending of an alloy",
    source: "GLPK reference manual, plan.mps",
    objective: [-0.03, -0.08, -0.17, -0.12, -0.15, -0.21, -0.38],
    matrix: [
      ALLOY.yield,
      atLeast(ALLOY.yield),
      ALLOY.iron,
      ALLOY.copper,
      ALLOY.manganese,
      atLeast(ALLOY.aluminium),
      ALLOY.silicon,
      atLeast(ALLOY.silicon),
      upTo(0, 7),
      upTo(1, 7),
      upTo(2, 7),
      atLeast(upTo(2, 7)),
      upTo(3, 7),
      atLeast(upTo(3, 7)),
      upTo(4, 7),
    ],
    atMost: [2000, -2000, 60, 100, 40, -1500, 300, -250, 200, 2500, 800, -400, 700, -100, 1500],
    status: "optimal",
    value: -296.216606,
  },
  kleeMinty(3),
  kleeMinty(8),
  {
    name: "two halves that do not meet",
    source: "by hand",
    objective: [1, 1],
    matrix: [
      [1, 1],
      [-1, -1],
    ],
    atMost: [1, -2],
    status: "infeasible",
  },
  {
    name: "a cone without end",
    source: "by hand",
    objective: [1, 0],
    matrix: [
      [1, -1],
      [-2, 1],
    ],
    atMost: [1, 2],
    status: "unbounded",
  },
];
