import fc from "fast-check";

// The same examples for every mutant and in every run, so that a score can be compared with the last one.
fc.configureGlobal({ seed: 20_26 });
