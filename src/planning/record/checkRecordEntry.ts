import {
  checkInteger,
  checkNumber,
  checkOneOf,
  checkProse,
  checkRecord,
  checkText,
  pathTo,
} from "../../core/check.js";
import { InputError } from "../../core/InputError.js";
import type { Correction } from "../../correction/correction.js";
import { checkReadings } from "../../surface/reading.js";
import { MOST_GRAMS } from "../../toners/pot.js";
import type { RecordEntry } from "./recordEntry.js";

const KINDS = ["job", "pour", "pour-off", "card", "answer", "withdraw", "note"] as const;

/** Checks an entry for its own sake; whether it fits the entries before it is seen by `jobState`. */
export function checkRecordEntry(value: unknown, path: string): RecordEntry {
  const record = checkRecord(value, path);
  const at = (key: string) => pathTo(path, key);
  const kind = checkOneOf(record.kind, at("kind"), KINDS);
  const grams = () => checkNumber(record.grams, at("grams"), { min: 0, max: MOST_GRAMS, aboveMin: true });
  switch (kind) {
    case "job": {
      const job = checkRecord(record.job, at("job"));
      for (const key of ["pot", "card"]) {
        if (job[key] === undefined) continue;
        const reason = "is noted by pours and cards, not in the job of a record";
        throw new InputError("unknown-key", pathTo(at("job"), key), reason);
      }
      return { kind, job: { ...job } };
    }
    case "pour":
      return {
        kind,
        toner: checkText(record.toner, at("toner")),
        grams: grams(),
        ...(record.can !== undefined && { can: checkText(record.can, at("can")) }),
      };
    case "pour-off":
      return { kind, grams: grams() };
    case "card":
      return {
        kind,
        name: checkText(record.name, at("name")),
        readings: checkReadings(record.readings, at("readings")),
      };
    case "answer":
      return {
        kind,
        library: checkText(record.library, at("library")),
        answer: checkRecord(record.answer, at("answer")) as unknown as Correction,
      };
    case "withdraw":
      return { kind, entry: checkInteger(record.entry, at("entry"), { min: 0 }) };
    case "note":
      return { kind, text: checkProse(record.text, at("text")) };
  }
}
