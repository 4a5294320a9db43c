/** Numbers of two records that are not the same, bit for bit, with the largest relative difference. */
export interface Differences {
  readonly compared: number;
  readonly different: number;
  readonly largest: number;
}

/** Compares records of one shape; throws where anything but a number differs. */
export function compareNumbers(one: unknown, other: unknown, path = "answer"): Differences {
  if (typeof one === "number" && typeof other === "number") {
    const scale = Math.max(Math.abs(one), Math.abs(other));
    const same = Object.is(one, other);
    return { compared: 1, different: same ? 0 : 1, largest: same ? 0 : Math.abs(one - other) / scale };
  }
  if (typeof one === "object" && typeof other === "object" && one !== null && other !== null) {
    const keys = Object.keys(one);
    if (keys.join() !== Object.keys(other).join()) throw new Error(`${path} has other keys`);
    return keys
      .map((key) => compareNumbers(one[key as never], other[key as never], `${path}.${key}`))
      .reduce(add, { compared: 0, different: 0, largest: 0 });
  }
  if (one !== other) throw new Error(`${path}: ${one} is not ${other}`);
  return { compared: 0, different: 0, largest: 0 };
}

function add(a: Differences, b: Differences): Differences {
  return {
    compared: a.compared + b.compared,
    different: a.different + b.different,
    largest: Math.max(a.largest, b.largest),
  };
}
