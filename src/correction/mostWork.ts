/** Steps of work that one correction may take unless it is told otherwise; measured in benchmarks/nasty.mjs. */
export const MOST_WORK = 5e8;
