/** Index here, index beyond, cosine of incidence and what is reflected: tests of iadpython and of mitsuba3. */
// biome-ignore format: a table
export const FRESNEL_TABLE: readonly (readonly [
  here: number, beyond: number, cosine: number, reflectance: number, allowed: number,
])[] = [
  [1, 1.5, 1, 0.04, 1e-12],
  [1, 1.5, 0.5, 0.0891867128, 1e-10],
  [1, 1.5, 0.2, 0.338894, 1e-5],
  [1, 1.5, 0, 1, 1e-12],
  [1.5, 1, 0.8, 0.11414110022, 1e-10],
  [1.5, 1, 0.5, 1, 1e-12],
  [1.5, 1, 1, 0.04, 1e-12],
  [1, 1.5, Math.cos(Math.PI / 4), 0.05023991101223595, 1e-15],
  [1.5, 1, Math.cos((10 * Math.PI) / 180), 0.0400829591550701, 1e-15],
  [1, 1.5, Math.cos((56.3099 * Math.PI) / 180), 0.1479287705017786 / 2, 1e-12],
];

/** An index with the diffuse reflectances of the surface from outside and from inside. */
type DiffuseReflectances = readonly [n: number, external: number, internal: number];

/** Answer key of a public course on water optics, six digits. */
export const FRESNEL_DIFFUSE_OF_WATER: readonly DiffuseReflectances[] = [
  [1.332, 0.066248, 0.473712],
  [1.3348, 0.06669, 0.476166],
  [1.34, 0.067511, 0.480681],
];

/** A note on the optics of pigments: three digits from outside, two from inside. */
export const FRESNEL_DIFFUSE_OF_BINDERS: readonly DiffuseReflectances[] = [
  [1.48, 0.089, 0.58],
  [1.5, 0.092, 0.6],
  [1.57, 0.102, 0.64],
];

/** Computed by adaptive integration of Fresnel's laws in another program, twelve digits. */
export const FRESNEL_DIFFUSE_COMPUTED: readonly DiffuseReflectances[] = [
  [1.1, 0.0251573573529, 0.194344923432],
  [1.2, 0.0442802662354, 0.336305740441],
  [1.333, 0.0664057647831, 0.474590570814],
  [1.4, 0.076811545577, 0.528985482437],
  [1.5, 0.0917779593424, 0.596345759708],
  [1.55, 0.0990658309285, 0.625001386443],
  [1.6, 0.106245567839, 0.650877174937],
  [1.8, 0.134054449418, 0.732732854759],
  [2, 0.16059663707, 0.790149159267],
  [2.7, 0.24440586841, 0.896351970975],
];

/** For n = 1.5: Judd 1942 (0.0918 and 0.596) and Orchard 1969 (0.5963), from memory. */
export const FRESNEL_DIFFUSE_OF_1_5 = { external: 0.0918, internal: 0.596, internalFiner: 0.5963 } as const;
