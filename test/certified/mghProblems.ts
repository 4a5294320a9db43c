/**
 * Moré, Garbow & Hillstrom (1981), ACM TOMS 7(1):17–41, with the bounds of Gay (1984): starts, bounds and optima
 * transcribed by a script from Ceres Solver (commit fe351d5a, examples/more_garbow_hillstrom.cc). Seen, except the
 * start of problem 6, which is from memory of the paper. `found` is computed: the best of many starts with SciPy.
 * Optima are sums of squares; Ceres counts four equal digits as solved.
 */
export interface MghProblem {
  /** In Ceres' order, which leaves the numbering of the paper at 11 (Gulf, left out: its printed forms differ). */
  readonly number: number;
  readonly name: string;
  readonly residualCount: number;
  readonly start: readonly number[];
  readonly startValue: number;
  readonly optimum: number;
  readonly found: number;
  readonly bounded?: {
    readonly lower: readonly number[];
    readonly upper: readonly number[];
    readonly optimum: number;
    readonly found: number;
  };
}

export const mghProblems: readonly MghProblem[] = [
  {
    number: 1,
    name: "Rosenbrock",
    residualCount: 2,
    start: [-1.2, 1],
    startValue: 24.199999999999996,
    optimum: 0,
    found: 0,
  },
  {
    number: 2,
    name: "Freudenstein & Roth",
    residualCount: 2,
    start: [0.5, -2],
    startValue: 400.5,
    optimum: 0,
    found: 48.98425367924,
  },
  {
    number: 3,
    name: "Powell badly scaled",
    residualCount: 2,
    start: [0, 1],
    startValue: 1.1352617173483783,
    optimum: 0,
    found: 0,
    bounded: {
      lower: [0, 1],
      upper: [1, 9],
      optimum: 1.51259e-10,
      found: 1.5125936724383832e-10,
    },
  },
  {
    number: 4,
    name: "Brown badly scaled",
    residualCount: 3,
    start: [1, 1],
    startValue: 999998000003,
    optimum: 0,
    found: 0,
    bounded: {
      lower: [0, 0.00003],
      upper: [1000000, 100],
      optimum: 784,
      found: 783.9999992951841,
    },
  },
  {
    number: 5,
    name: "Beale",
    residualCount: 3,
    start: [1, 1],
    startValue: 14.203125,
    optimum: 0,
    found: 0,
    bounded: {
      lower: [0.6, 0.5],
      upper: [10, 100],
      optimum: 0,
      found: 6.660742847125874e-22,
    },
  },
  {
    number: 6,
    name: "Jennrich & Sampson",
    residualCount: 10,
    start: [0.3, 0.4],
    startValue: 4171.306161960493,
    optimum: 124.362,
    found: 124.36218235561479,
  },
  {
    number: 7,
    name: "Helical valley",
    residualCount: 3,
    start: [-1, 0, 0],
    startValue: 2500,
    optimum: 0,
    found: 0,
    bounded: {
      lower: [-100, -1, -1],
      upper: [0.8, 1, 1],
      optimum: 0.99042212,
      found: 0.9904221209614004,
    },
  },
  {
    number: 8,
    name: "Bard",
    residualCount: 15,
    start: [1, 1, 1],
    startValue: 41.68169586167801,
    optimum: 0.00821487,
    found: 0.008214877306578954,
  },
  {
    number: 9,
    name: "Gaussian",
    residualCount: 15,
    start: [0.4, 1, 0],
    startValue: 0.000003888106991166684,
    optimum: 1.12793e-8,
    found: 1.1279327696185314e-8,
    bounded: {
      lower: [0.398, 1, -0.5],
      upper: [4.2, 2, 0.1],
      optimum: 1.12793e-8,
      found: 1.1279327696184876e-8,
    },
  },
  {
    number: 10,
    name: "Meyer",
    residualCount: 16,
    start: [0.02, 4000, 250],
    startValue: 1693607809.4361455,
    optimum: 87.9458,
    found: 87.94585517037893,
  },
  {
    number: 12,
    name: "Box 3-D",
    residualCount: 3,
    start: [0, 10, 20],
    startValue: 431.7227677688877,
    optimum: 0,
    found: 0,
    bounded: {
      lower: [0, 5, 0],
      upper: [2, 9.5, 20],
      optimum: 0.0000030998153,
      found: 0.0000030998153432290307,
    },
  },
  {
    number: 13,
    name: "Powell singular",
    residualCount: 4,
    start: [3, -1, 0, 1],
    startValue: 215.00000000000003,
    optimum: 0,
    found: 8.845543028927376e-35,
  },
  {
    number: 14,
    name: "Wood",
    residualCount: 6,
    start: [-3, -1, -3, -1],
    startValue: 19192,
    optimum: 0,
    found: 0,
    bounded: {
      lower: [-100, -100, -100, -100],
      upper: [0, 10, 100, 100],
      optimum: 1.5567008,
      found: 1.5567008004385647,
    },
  },
  {
    number: 15,
    name: "Kowalik & Osborne",
    residualCount: 11,
    start: [0.25, 0.39, 0.415, 0.39],
    startValue: 0.00531317227210854,
    optimum: 0.000307505,
    found: 0.00030750560384923626,
  },
  {
    number: 16,
    name: "Brown & Dennis",
    residualCount: 20,
    start: [25, 5, -5, -1],
    startValue: 7926693.336997433,
    optimum: 85822.2,
    found: 85822.20162635637,
    bounded: {
      lower: [-10, 0, -100, -20],
      upper: [100, 15, 0, 0.2],
      optimum: 88860.479,
      found: 88860.47977043694,
    },
  },
  {
    number: 17,
    name: "Osborne 1",
    residualCount: 33,
    start: [0.5, 1.5, -1, 0.01, 0.02],
    startValue: 0.8790262935446402,
    optimum: 0.0000546489,
    found: 0.000054648946974825645,
  },
  {
    number: 18,
    name: "Biggs EXP6",
    residualCount: 13,
    start: [1, 2, 1, 1, 1, 1],
    startValue: 0.7790700756559702,
    optimum: 0,
    found: 8.320017359752859e-32,
    bounded: {
      lower: [0, 0, 0, 1, 0, 0],
      upper: [2, 8, 1, 7, 5, 5],
      optimum: 0.00053209865,
      found: 0.0005320986590782357,
    },
  },
  {
    number: 19,
    name: "Osborne 2",
    residualCount: 65,
    start: [1.3, 0.65, 0.65, 0.7, 0.6, 3, 5, 7, 2, 4.5, 5.5],
    startValue: 2.0934195142120644,
    optimum: 0.0401377,
    found: 0.040137736293547735,
  },
];
