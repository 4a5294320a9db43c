/**
 * Kubelka–Munk films, stacks and hiding, and the surface between air and paint.
 * @module optics
 */
export { type Film, film, overBacking } from "../optics/film.js";
export { type FilmGradient, filmGradient } from "../optics/filmGradient.js";
export { contrastRatio, HIDING_DEFAULTS, type HidingChart, hidingThickness } from "../optics/hiding.js";
export {
  absorptionRatio,
  attenuation,
  reflectivity,
  reflectivityFromRatio,
  reflectivitySlope,
} from "../optics/infiniteFilm.js";
export { airBoundary, filmLayer, type Layer, lay, stackReflectance } from "../optics/stack.js";
export {
  type BackingPair,
  type FilmFromBackings,
  filmFromBackings,
  TWO_BACKINGS_DEFAULTS,
} from "../optics/twoBackings.js";
export {
  diffuseExternalReflectance,
  diffuseInternalReflectance,
  fresnelReflectance,
} from "../surface/fresnel.js";
export {
  GEOMETRIES,
  type Geometry,
  type GeometryFacts,
  type GeometryKind,
  geometryFacts,
} from "../surface/geometry.js";
export {
  internalReflectance,
  measuredReflectance,
  measuredSlope,
  type SurfaceTerms,
  surfaceTerms,
} from "../surface/saunderson.js";
export { type Surface, surfaceFromIndex } from "../surface/surface.js";
