import { basename, extname } from "node:path";
import type { SheetHead } from "../report/page/sheetHead.js";
import type { Terminal } from "./terminal.js";

/** The head of a sheet: the job after its file, and today. */
export function headOf({ now }: Pick<Terminal, "now">, file: string): SheetHead {
  const job = file === "-" ? {} : { job: basename(file, extname(file)) };
  return { ...job, date: now().slice(0, "2026-03-31".length) };
}
