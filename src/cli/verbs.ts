import type { Verb } from "./verb.js";

/** Every verb: what it takes and gives, and where its code is, which is loaded when it is asked for. */
export const VERBS: Readonly<Record<string, Verb>> = Object.freeze({
  correct: {
    summary: "the grams of each toner to add, from a job with a card and targets",
    file: "a masstone/job in JSON: toners, pot, the card sprayed from it, targets, viewing, limits",
    format: "masstone/correction",
    outputs: {
      report: "a sheet for the bench, in one HTML file",
      certificate: "what is proved of the answer, as a masstone/certificate in JSON",
    },
    details: {
      record:
        "RECORD: pot and card are those of this record (made from FILE where there is none); the answer is added to it",
    },
    hasUnits: true,
    takesLines: true,
    example: "correct examples/horsebox/job.json --report sheet.html",
    load: async () => (await import("./answerCorrect.js")).answerCorrect,
  },
  record: {
    summary: "what was poured and which cards were read, line by line; and what is next",
    file: "a masstone/record, begun by --job where there is none yet",
    format: "masstone/job-state",
    details: {
      job: "JOB: begin with this masstone/job; its pot and card are noted as the first pours and the first card",
      can: "TONER=CAN: which can the pours of a toner come from",
      pour: "TONER=GRAMS: poured, as the scale showed it; or 0.44oz, or 12drops where the job says what a drop weighs",
      "pour-off": "GRAMS: taken out of the pot; or 1.5oz",
      card: "READINGS: a card sprayed and read, from a file of readings; FILE#NAME where it has several",
      withdraw: "ENTRY: a pour or card noted wrongly counts no more",
      note: "TEXT: anything to remember",
    },
    hasUnits: true,
    example: "record horsebox.record --job examples/horsebox/job.json --pour white=12.5",
    load: async () => (await import("./answerRecord.js")).answerRecord,
  },
  learn: {
    summary: "the strength of the cans in use, from the cards of records or jobs, oldest first",
    file: "a masstone/record, or a masstone/job with pot and card",
    takesMany: true,
    format: "masstone/learning",
    outputs: {
      out: "the toners with what was learnt, as a masstone/toners file",
      report: "what each card taught and what is doubted, in one HTML file",
    },
    details: { toners: "TONERS: start from this masstone/toners, not from the toners of the first FILE" },
    hasUnits: true,
    example: "learn examples/horsebox/job.record --out toners.json --report cans.html",
    load: async () => (await import("./answerLearn.js")).answerLearn,
  },
  predict: {
    summary: "the reflectance and colour of the mix in a job's pot",
    file: "a masstone/job in JSON, of which toners, pot and viewing are used",
    format: "masstone/prediction",
    takesLines: true,
    example: "predict examples/horsebox/job.json",
    load: async () => (await import("./answerPredict.js")).answerPredict,
  },
  directions: {
    summary: "what a gram and a per cent of each toner do now, from the pot and card of a job",
    file: "a masstone/job in JSON, of which toners, pot, card (if there is one) and viewing are used",
    format: "masstone/directions",
    takesLines: true,
    example: "directions examples/horsebox/job.json",
    load: async () => (await import("./answerDirections.js")).answerDirections,
  },
  "hold-back": {
    summary: "the first pot for faded panels: what to pour now, what to keep back",
    file: "a masstone/plan in JSON: toners, formulas, faded panels, viewing, how much paint is wanted",
    format: "masstone/hold-back",
    outputs: { report: "a sheet for the bench, in one HTML file" },
    hasUnits: true,
    takesLines: true,
    example: "hold-back examples/horsebox/plan.json --report plan.html",
    load: async () => (await import("./answerHoldBack.js")).answerHoldBack,
  },
  characterise: {
    summary: "toners from readings of films of known composition",
    file: "a masstone/samples in JSON: what was mixed, and the readings of it",
    format: "masstone/characterisation",
    outputs: {
      out: "the toners, as a masstone/toners file",
      report: "a report for the browser, in one HTML file",
    },
    takesLines: true,
    example: "characterise examples/ladder/samples.json --out toners.json --report toners.html",
    load: async () => (await import("./answerCharacterise.js")).answerCharacterise,
  },
  verify: {
    summary: "published figures worked out anew on this machine, and how far off they are",
    format: "masstone/verification",
    example: "verify",
    load: async () => (await import("./answerVerify.js")).answerVerify,
  },
});
