import { describe, expect, it } from "vitest";
import { absorptionRatio, reflectivity } from "../../src/optics/infiniteFilm.js";
import { measuredReflectance, surfaceTerms } from "../../src/surface/saunderson.js";
import { mix, packCoefficients } from "../../src/toners/coefficients.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { relativeDifference } from "../support/relativeDifference.js";

const GEOMETRY = "d:8 specular excluded";
const SURFACE = { geometry: GEOMETRY, k1: 0.033, k2: 0.66 } as const;

/** K and S of the mixture, straight through the toner layer. */
function mixture(ks: readonly number[][], ss: readonly number[][], grams: readonly number[]) {
  const set: TonerSet = {
    grid: { start: 400, step: 50, count: 5 },
    surfaces: [SURFACE],
    toners: ks.map((k, j) => ({ id: `${j}`, k: { [GEOMETRY]: k }, s: { [GEOMETRY]: ss[j] } })),
  };
  const [k, s] = [new Float64Array(5), new Float64Array(5)];
  mix(packCoefficients(set, [GEOMETRY]), grams, k, s);
  return { k, s };
}

const reflectivities = ({ k, s }: ReturnType<typeof mixture>) =>
  Array.from(k, (kb, b) => reflectivity(kb, s[b]));

function expectAll(actual: readonly number[], expected: readonly number[]): void {
  expect(actual).toHaveLength(expected.length);
  for (let b = 0; b < actual.length; b++) {
    expect(relativeDifference(actual[b], expected[b])).toBeLessThan(1e-12);
  }
}

const K = [
  [1.0, 0.5, 1.0, 0.5, 1.0],
  [1.0, 1.0, 0.25, 0.5, 0.5],
  [1.0, 1.0, 0.75, 0.25, 0.25],
];
const S = [
  [0.2, 0.4, 0.6, 0.8, 1.0],
  [1.0, 0.8, 0.6, 0.4, 0.2],
  [0.2, 0.8, 0.2, 0.8, 0.2],
];

describe("mixture of two constants: published (seen: tests of the Unicolour library, 15 decimals)", () => {
  it.each([
    [
      [1.0, 0.0, 0.0],
      [0.083920216900384, 0.234435562925363, 0.194600504301446, 0.34413115425505, 0.267949192431123],
    ],
    [
      [0.0, 1.0, 0.0],
      [0.267949192431123, 0.234435562925363, 0.413200451767309, 0.234435562925363, 0.145898033750315],
    ],
    [
      [0.0, 0.0, 1.0],
      [0.083920216900384, 0.234435562925363, 0.106456094748323, 0.462408093204035, 0.234435562925363],
    ],
    [
      [0.5, 0.5, 0.0],
      [0.194600504301446, 0.234435562925363, 0.261665886392181, 0.296742590451186, 0.234435562925363],
    ],
    [
      [0.5, 0.0, 0.5],
      [0.083920216900384, 0.234435562925363, 0.160924996799187, 0.393005345121343, 0.261665886392181],
    ],
    [
      [0.0, 0.5, 0.5],
      [0.194600504301446, 0.234435562925363, 0.234435562925363, 0.34413115425505, 0.179517668394022],
    ],
    [
      [0.5, 0.3, 0.2],
      [0.156520636181344, 0.234435562925363, 0.218836327679683, 0.334563915603707, 0.244572900888201],
    ],
    [
      [0.2, 0.5, 0.3],
      [0.194600504301446, 0.234435562925363, 0.247254734895954, 0.323269155117111, 0.212581170298022],
    ],
    [
      [0.3, 0.2, 0.5],
      [0.134756375387777, 0.234435562925363, 0.183782394398364, 0.375, 0.241247780463508],
    ],
  ])("%o g", (grams, expected) => {
    expectAll(reflectivities(mixture(K, S, grams)), expected);
  });
});

describe("the same seen through a surface of k1 0.033, k2 0.66, specular excluded: published (seen: same)", () => {
  it.each([
    [
      [1.0, 0.0, 0.0],
      [0.029209103554298, 0.091186832391423, 0.073409156685747, 0.146393232455631, 0.107022969538771],
    ],
    [
      [0.0, 1.0, 0.0],
      [0.107022969538771, 0.091186832391423, 0.186792715165618, 0.091186832391423, 0.053079526586978],
    ],
    [
      [0.0, 0.0, 1.0],
      [0.029209103554298, 0.091186832391423, 0.0376456572002, 0.218808579037984, 0.091186832391423],
    ],
    [
      [0.5, 0.5, 0.0],
      [0.073409156685747, 0.091186832391423, 0.103989431373653, 0.121324432254632, 0.091186832391423],
    ],
    [
      [0.5, 0.0, 0.5],
      [0.029209103554298, 0.091186832391423, 0.059196175746731, 0.17446587027925, 0.103989431373653],
    ],
    [
      [0.0, 0.5, 0.5],
      [0.073409156685747, 0.091186832391423, 0.091186832391423, 0.146393232455631, 0.066954726195394],
    ],
    [
      [0.5, 0.3, 0.2],
      [0.057389386089411, 0.091186832391423, 0.084095017367215, 0.141169974626911, 0.095888880683781],
    ],
    [
      [0.2, 0.5, 0.3],
      [0.073409156685747, 0.091186832391423, 0.097145384967362, 0.13511150497998, 0.081298973598661],
    ],
    [
      [0.3, 0.2, 0.5],
      [0.048630345501823, 0.091186832391423, 0.068764910347273, 0.163843853820598, 0.094338327216122],
    ],
  ])("%o g", (grams, expected) => {
    const terms = surfaceTerms(SURFACE);
    const seen = reflectivities(mixture(K, S, grams)).map((r) => measuredReflectance(r, terms));
    expectAll(seen, expected);
  });
});

describe("mixture of one constant, S = 1 throughout: published (seen: same)", () => {
  const masstones = [
    [1.0, 0.5, 1.0, 0.5, 1.0],
    [1.0, 1.0, 0.25, 0.5, 0.5],
    [1.0, 1.0, 0.75, 0.25, 0.25],
  ];
  const ratios = masstones.map((masstone) => masstone.map(absorptionRatio));
  const ones = masstones.map((masstone) => masstone.map(() => 1));

  it.each([
    [
      [1.0, 0.0, 0.0],
      [1.0, 0.5, 1.0, 0.5, 1.0],
    ],
    [
      [0.0, 1.0, 0.0],
      [1.0, 1.0, 0.25, 0.5, 0.5],
    ],
    [
      [0.0, 0.0, 1.0],
      [1.0, 1.0, 0.75, 0.25, 0.25],
    ],
    [
      [0.5, 0.5, 0.0],
      [1.0, 0.609611796797792, 0.361914205481341, 0.5, 0.609611796797792],
    ],
    [
      [0.5, 0.0, 0.5],
      [1.0, 0.609611796797792, 0.815648795795914, 0.328214801816778, 0.361914205481341],
    ],
    [
      [0.0, 0.5, 0.5],
      [1.0, 1.0, 0.355756678111981, 0.328214801816778, 0.328214801816778],
    ],
    [
      [0.5, 0.3, 0.2],
      [1.0, 0.609611796797792, 0.44512951902415, 0.409802974787652, 0.469337613708193],
    ],
    [
      [0.2, 0.5, 0.3],
      [1.0, 0.729843788128358, 0.358190647636204, 0.377750578321363, 0.395304493075425],
    ],
    [
      [0.3, 0.2, 0.5],
      [1.0, 0.680506654048513, 0.502798546500009, 0.328214801816778, 0.347527174204916],
    ],
  ])("%o g", (grams, expected) => {
    expectAll(reflectivities(mixture(ratios, ones, grams)), expected);
  });
});
