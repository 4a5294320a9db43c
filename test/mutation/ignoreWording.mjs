import { declareValuePlugin, PluginKind } from "@stryker-mutator/api/plugin";

/** The third argument of InputError is a sentence for people: tests hold its code and place, not its wording. */
const ignoreWording = {
  shouldIgnore({ node, parent }) {
    const isWording =
      parent?.type === "NewExpression" && parent.callee.name === "InputError" && parent.arguments[2] === node;
    return isWording ? "wording of a refusal" : undefined;
  },
};

export const strykerPlugins = [declareValuePlugin(PluginKind.Ignore, "wording", ignoreWording)];
