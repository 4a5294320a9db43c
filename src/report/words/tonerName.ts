import type { TonerSet } from "../../toners/tonerSet.js";

/** What to call the toners by id; an id stands for itself where there is no name. */
export type TonerNames = Readonly<Record<string, string>>;

export function tonerName(names: TonerNames, id: string): string {
  return Object.hasOwn(names, id) ? names[id] : id;
}

/** The names in a toner set, unless `names` has others. */
export function tonerNames({ toners }: TonerSet, names: TonerNames = {}): TonerNames {
  return { ...Object.fromEntries(toners.map(({ id, name = id }) => [id, name])), ...names };
}
