const OFFSET = 0x811c9dc5;
const PRIME = 0x01000193;

/**
 * Eight hexadecimal digits that a JSON-able value has in common with its copies, whatever the order of keys: FNV-1a of
 * 32 bits over the UTF-16 units of its text with sorted keys. It notices slips and spoilt files; it is no signature.
 */
export function checksum(value: unknown): string {
  const text = JSON.stringify(value, (_, inner) => (isRecord(inner) ? sorted(inner) : inner)) ?? "";
  let hash = OFFSET;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), PRIME);
  return (hash >>> 0).toString(16).padStart(8, "0");
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const sorted = (record: Readonly<Record<string, unknown>>) =>
  Object.fromEntries(Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1)));
