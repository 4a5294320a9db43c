import { readFileSync, writeFileSync } from "node:fs";

/** Writes one study's section of docs/evidence.md anew, and to logs/ beside it what is too fine for that page. */
export function writeSection(study, text, log) {
  const page = new URL("../../docs/evidence.md", import.meta.url);
  const before = readFileSync(page, "utf8");
  const section = new RegExp(`(<!-- study: ${study} -->\\n)[\\s\\S]*?(<!-- end -->)`);
  if (!section.test(before)) throw new Error(`docs/evidence.md has no section "${study}"`);
  writeFileSync(
    page,
    before.replace(section, (_, start, end) => `${start}\n${text.trim()}\n\n${end}`),
  );
  if (log !== undefined) writeFileSync(new URL(`logs/${study}.md`, import.meta.url), `${log.trim()}\n`);
}
