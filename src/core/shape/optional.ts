import type { Shape } from "./shape.js";

/** A key that may be left out and then stays out. */
export interface Optional<T> {
  readonly shape: Shape<T>;
  readonly isOptional: true;
}

/** A key that may be left out and then has this value. */
export interface Defaulted<T> extends Optional<T> {
  readonly otherwise: T;
}

/**
 * Marks a key of a record that may be left out, with what it then stands for.
 * @__NO_SIDE_EFFECTS__
 */
export function optional<T>(shape: Shape<T>): Optional<T>;
export function optional<T>(shape: Shape<T>, otherwise: NoInfer<T>): Defaulted<T>;
export function optional<T>(shape: Shape<T>, ...[otherwise]: readonly [T?]): Optional<T> {
  return { shape, isOptional: true, ...(otherwise !== undefined && { otherwise }) };
}
