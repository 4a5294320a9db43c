import {
  diffuseExternalReflectance,
  diffuseInternalReflectance,
  fresnelReflectance,
} from "../surface/fresnel.js";
import { internalReflectance, measuredReflectance, surfaceTerms } from "../surface/saunderson.js";
import { surfaceFromIndex } from "../surface/surface.js";
import type { Check, CheckGroup } from "./check.js";
import {
  FRESNEL_DIFFUSE_COMPUTED,
  FRESNEL_DIFFUSE_OF_1_5,
  FRESNEL_DIFFUSE_OF_BINDERS,
  FRESNEL_DIFFUSE_OF_WATER,
  FRESNEL_TABLE,
} from "./data/fresnelTables.js";

/** What the surface of a film reflects outside and inside, and Saunderson's way through it. */
export function surfaceChecks(): readonly CheckGroup[] {
  return [
    {
      title: "Fresnel reflectance of one ray",
      source: "tests of iadpython and of mitsuba3",
      known: "seen",
      checks: FRESNEL_TABLE.map(([here, beyond, cosine, expected, allowed]) => ({
        name: `from n = ${here} into ${beyond} at cos θ = ${Number(cosine.toFixed(6))}`,
        measure: "absolute",
        allowed,
        figures: () => [{ name: "R", expected, got: fresnelReflectance(cosine, beyond / here) }],
      })),
    },
    {
      title: "Fresnel reflectance of diffuse light: water",
      source: "answer key of a public course on water optics, six digits",
      known: "seen",
      checks: FRESNEL_DIFFUSE_OF_WATER.map((row) => diffuseCheck(row, 5.1e-7)),
    },
    {
      title: "Fresnel reflectance of diffuse light: binders",
      source: "a note on the optics of pigments, three digits from outside and two from inside",
      known: "seen",
      checks: FRESNEL_DIFFUSE_OF_BINDERS.flatMap((row) => [outsideCheck(row, 5e-4), insideCheck(row, 5e-3)]),
    },
    {
      title: "Fresnel reflectance of diffuse light: closed form against integration",
      source: "adaptive integration of Fresnel's laws in another program, twelve digits",
      known: "computed",
      checks: FRESNEL_DIFFUSE_COMPUTED.map((row) => diffuseCheck(row, 2e-12)),
    },
    {
      title: "The usual paint surface, n = 1.5",
      source: "Judd 1942 (r_ext, k2), Orchard 1969 (k2 to four digits); k1 by Fresnel",
      known: "memory",
      checks: usualSurfaceChecks(),
    },
    {
      title: "Saunderson's correction: k1 = 0, k2 = 0.6, R 0.05 inside is 0.021 outside",
      source: "a worked number on the open web, two digits",
      known: "seen",
      checks: [
        single("outwards", { expected: 0.021, allowed: 5e-4 }, () => measuredReflectance(0.05, bare())),
        single("inwards", { expected: 0.05, allowed: 1.2e-3 }, () => internalReflectance(0.021, bare())),
      ],
    },
    {
      title: "Saunderson's correction: k1 = 1/25, k2 = 3/5, R = 1/2 inside, in fractions",
      source: "Saunderson 1942, worked out by hand",
      known: "computed",
      checks: [
        single("specular included: 11/35", { expected: 11 / 35, allowed: 1e-15 }, () =>
          measuredReflectance(0.5, byHand("d:8 specular included")),
        ),
        single("specular excluded: 48/175", { expected: 48 / 175, allowed: 1e-15 }, () =>
          measuredReflectance(0.5, byHand("d:8 specular excluded")),
        ),
        single("45:0: 48/175", { expected: 48 / 175, allowed: 1e-15 }, () =>
          measuredReflectance(0.5, byHand("45:0")),
        ),
      ],
    },
  ];
}

function usualSurfaceChecks(): readonly Check[] {
  const { external, internal, internalFiner } = FRESNEL_DIFFUSE_OF_1_5;
  const surface = () => surfaceFromIndex("45:0", 1.5);
  return [
    single("k1 at normal incidence", { expected: 0.04, allowed: 1e-15 }, () => fresnelReflectance(1, 1.5)),
    single("r_ext, diffuse from outside", { expected: external, allowed: 5e-5 }, () =>
      diffuseExternalReflectance(1.5),
    ),
    single("k2, diffuse from inside (Judd)", { expected: internal, allowed: 5e-4 }, () => surface().k2),
    single(
      "k2, diffuse from inside (Orchard)",
      { expected: internalFiner, allowed: 5e-5 },
      () => surface().k2,
    ),
  ];
}

const bare = () => surfaceTerms({ geometry: "d:8 specular included", k1: 0, k2: 0.6 });

const byHand = (geometry: "d:8 specular included" | "d:8 specular excluded" | "45:0") =>
  surfaceTerms({ geometry, k1: 0.04, k2: 0.6 });

function single(
  name: string,
  { expected, allowed }: { readonly expected: number; readonly allowed: number },
  got: () => number,
): Check {
  return { name, measure: "absolute", allowed, figures: () => [{ name: "", expected, got: got() }] };
}

type DiffuseRow = readonly [n: number, external: number, internal: number];

function diffuseCheck([n, external, internal]: DiffuseRow, allowed: number): Check {
  return {
    name: `n = ${n}`,
    measure: "absolute",
    allowed,
    figures: () => [
      { name: "from outside", expected: external, got: diffuseExternalReflectance(n) },
      { name: "from inside", expected: internal, got: diffuseInternalReflectance(n) },
    ],
  };
}

function outsideCheck([n, external]: DiffuseRow, allowed: number): Check {
  return single(`n = ${n}, from outside`, { expected: external, allowed }, () =>
    diffuseExternalReflectance(n),
  );
}

function insideCheck([n, , internal]: DiffuseRow, allowed: number): Check {
  return single(`n = ${n}, from inside`, { expected: internal, allowed }, () =>
    diffuseInternalReflectance(n),
  );
}
