/** What to call the toners by id; an id stands for itself where there is no name. */
export type TonerNames = Readonly<Record<string, string>>;

export function tonerName(names: TonerNames, id: string): string {
  return Object.hasOwn(names, id) ? names[id] : id;
}
