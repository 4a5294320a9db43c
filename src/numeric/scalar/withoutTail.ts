/** Twelve digits of a number, without the tail that binary fractions leave: 3 × 0.1 is 0.3. */
export const withoutTail = (value: number): number => Number(value.toPrecision(12));
