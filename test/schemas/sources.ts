import ts from "typescript";
import type { AnyShape } from "../../src/core/shape/shape.js";
import { root } from "../package/consumer.js";

/** Types of the sources with the prose of their comments. */
export interface Sources {
  readonly checker: ts.TypeChecker;
  /** An exported interface or type by the file that it stands in, relative to src. */
  readonly typeOf: (file: string, name: string) => ts.Type;
  /** Shapes of records that answers hand on, by the name of their interfaces. */
  readonly shapes: Readonly<Record<string, AnyShape>>;
}

/** Reads the files, and all that they import, as the compiler does. */
export function readSources(files: readonly string[], shapes: Sources["shapes"]): Sources {
  const paths = new Map(files.map((file) => [file, `${root}/src/${file}`]));
  const program = ts.createProgram([...paths.values()], {
    target: ts.ScriptTarget.ES2022,
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Bundler,
    lib: ["lib.es2023.d.ts"],
    strict: true,
    exactOptionalPropertyTypes: true,
    resolveJsonModule: true,
    skipLibCheck: true,
    noEmit: true,
    types: [],
  });
  const checker = program.getTypeChecker();
  return {
    checker,
    shapes,
    typeOf: (file, name) => {
      const source = program.getSourceFile(paths.get(file) ?? "");
      const module = source && checker.getSymbolAtLocation(source);
      const symbol = module && checker.getExportsOfModule(module).find((one) => one.name === name);
      if (!symbol) throw new Error(`${file} exports no ${name}`);
      return checker.getDeclaredTypeOfSymbol(symbol);
    },
  };
}

/** The comment on a symbol, on one line. */
export function proseOf(checker: ts.TypeChecker, symbol: ts.Symbol | undefined): string {
  if (!symbol) return "";
  return ts.displayPartsToString(symbol.getDocumentationComment(checker)).replaceAll(/\s+/g, " ").trim();
}

/** The name under which an object type is known: that of its interface, or of its alias. */
export function nameOf(type: ts.Type): string | undefined {
  const symbol = type.aliasSymbol ?? type.symbol;
  const isLibrary = symbol?.declarations?.some((one) => one.getSourceFile().isDeclarationFile) ?? true;
  return isLibrary || symbol.name.startsWith("__") ? undefined : symbol.name;
}

/** What is said of a type of ours; of `Partial<Limits>` and the like what is said of Limits. */
export function proseOfType(checker: ts.TypeChecker, type: ts.Type): string {
  if (nameOf(type) !== undefined) return proseOf(checker, type.aliasSymbol ?? type.symbol);
  const [of] = type.aliasTypeArguments ?? [];
  return of ? proseOfType(checker, of) : "";
}

/** What a type is when it is there at all. */
export function present(checker: ts.TypeChecker, type: ts.Type): ts.Type {
  return checker.getNonNullableType(type);
}
