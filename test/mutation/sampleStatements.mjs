import { env } from "node:process";
import { declareValuePlugin, PluginKind } from "@stryker-mutator/api/plugin";

const SEED = 2026;
const SIMPLE = new Set(["ExpressionStatement", "VariableDeclaration", "ReturnStatement", "ThrowStatement"]);

/**
 * Leaves a share of the statements as they are, chosen by a seed and by where they stand: a sample that is the same
 * in every run of the same code. A statement is taken or left with everything in it; conditions and the steps of loops
 * count as statements. Blocks are all taken, to be emptied: what is in them is drawn by itself.
 */
const sampleStatements = {
  shouldIgnore({ node, parent }) {
    const share = Number(env.MUTATED_SHARE ?? 1);
    const isCondition = parent?.test === node && /^(If|For|While|DoWhile)Statement$/.test(parent.type);
    const isStep = parent?.update === node;
    if (!isCondition && !isStep && !SIMPLE.has(node.type)) return undefined;
    return drawn(node.start, node.end) < share ? undefined : "not in the sample";
  },
};

/** A number in 0…1 from two others (FNV-1a over their bytes, then mixed). */
function drawn(...numbers) {
  let hash = 2166136261 ^ SEED;
  for (const number of numbers) {
    for (let shift = 0; shift < 32; shift += 8) {
      hash = Math.imul(hash ^ ((number >>> shift) & 255), 16777619);
    }
  }
  hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d);
  return ((hash ^ (hash >>> 13)) >>> 0) / 2 ** 32;
}

export const strykerPlugins = [declareValuePlugin(PluginKind.Ignore, "sample", sampleStatements)];
