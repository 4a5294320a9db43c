import { readdirSync, readFileSync } from "node:fs";
import { posix } from "node:path";
import ts from "typescript";

export interface Import {
  readonly from: string;
}

/** What the rules want to know of one file under src. `path` is relative to src: `optics/film.ts`. */
export interface SourceFile {
  readonly path: string;
  readonly lines: number;
  readonly imports: readonly Import[];
  /** Modules of which something is passed on with `export … from`. */
  readonly passedOn: readonly string[];
  readonly exported: readonly string[];
  readonly usesProcess: boolean;
  /** The most parameters that a function of it has. */
  readonly mostParameters: number;
  /** Whether anything of it is left when its types are gone. */
  readonly hasCode: boolean;
  /** Text of statements that do something, or keep something changeable, when the module is loaded. */
  readonly sideEffects: readonly string[];
}

const SOURCE = new URL("../../src/", import.meta.url);

/** Every TypeScript file under src, parsed. */
export function readSourceFiles(): readonly SourceFile[] {
  return readdirSync(SOURCE, { recursive: true, encoding: "utf8" })
    .map((path) => path.replaceAll("\\", "/"))
    .filter((path) => path.endsWith(".ts"))
    .sort()
    .map((path) => parseSourceFile(path, readFileSync(new URL(path, SOURCE), "utf8")));
}

export function parseSourceFile(path: string, text: string): SourceFile {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const imports: Import[] = [];
  let usesProcess = false;
  let mostParameters = 0;
  const visit = (node: ts.Node): void => {
    const found = importOf(node);
    if (found) imports.push(found);
    if (ts.isIdentifier(node) && node.text === "process" && isReference(node)) usesProcess = true;
    if (ts.isFunctionLike(node)) mostParameters = Math.max(mostParameters, node.parameters.length);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return {
    path,
    lines: text.split("\n").length - (text.endsWith("\n") ? 1 : 0),
    imports,
    passedOn: file.statements.flatMap((statement) =>
      ts.isExportDeclaration(statement) && statement.moduleSpecifier
        ? [textOf(statement.moduleSpecifier)]
        : [],
    ),
    exported: file.statements.flatMap(exportedNames),
    usesProcess,
    mostParameters,
    hasCode: file.statements.some((statement) => !isTypeOnly(statement)),
    sideEffects: file.statements.filter((statement) => !isPassive(statement)).map((s) => s.getText(file)),
  };
}

/** The file that a relative import means, relative to src. */
export function importedPath(importer: string, from: string): string {
  return posix.join(posix.dirname(importer), from).replace(/\.js$/, ".ts");
}

/** The top folder under src. */
export const layerOf = (path: string): string => path.split("/")[0];

function importOf(node: ts.Node): Import | undefined {
  if (ts.isImportDeclaration(node)) {
    return { from: textOf(node.moduleSpecifier) };
  }
  if (ts.isExportDeclaration(node) && node.moduleSpecifier) {
    return { from: textOf(node.moduleSpecifier) };
  }
  if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) {
    return { from: textOf(node.argument.literal) };
  }
  if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
    return { from: textOf(node.arguments[0]) };
  }
  return undefined;
}

const textOf = (node: ts.Node): string => (ts.isStringLiteral(node) ? node.text : node.getText());

/** Whether an identifier stands for a variable, not for the key of a property. */
function isReference(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent)) return parent.expression === node;
  if (ts.isPropertyAssignment(parent)) return parent.initializer === node;
  return !ts.isPropertySignature(parent) && !ts.isMethodSignature(parent) && !ts.isMethodDeclaration(parent);
}

function exportedNames(statement: ts.Statement): readonly string[] {
  const exports = ts.canHaveModifiers(statement)
    ? ts.getModifiers(statement)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword)
    : false;
  if (!exports) return [];
  if (ts.isVariableStatement(statement)) {
    return statement.declarationList.declarations.map(({ name }) => name.getText());
  }
  const { name } = statement as unknown as { readonly name?: ts.Identifier };
  return name ? [name.text] : [];
}

const isTypeOnly = (statement: ts.Statement): boolean =>
  ts.isInterfaceDeclaration(statement) ||
  ts.isTypeAliasDeclaration(statement) ||
  (ts.isImportDeclaration(statement) && statement.importClause?.isTypeOnly === true);

/** A declaration that does nothing when the module is loaded. */
function isPassive(statement: ts.Statement): boolean {
  if (ts.isVariableStatement(statement)) {
    const { flags, declarations } = statement.declarationList;
    const constant = (flags & ts.NodeFlags.Const) !== 0;
    return (
      constant && declarations.every(({ initializer }) => initializer !== undefined && isQuiet(initializer))
    );
  }
  return (
    ts.isImportDeclaration(statement) ||
    ts.isExportDeclaration(statement) ||
    ts.isFunctionDeclaration(statement) ||
    ts.isInterfaceDeclaration(statement) ||
    ts.isTypeAliasDeclaration(statement) ||
    ts.isClassDeclaration(statement)
  );
}

/** What describes records; its functions are marked as free of side effects, which the bundle tests hold them to. */
const SHAPES = /core\/shape\/\w+\.js$/;

/** Whether a name was imported from the shapes. */
function isShape(name: ts.Expression): boolean {
  return name
    .getSourceFile()
    .statements.some(
      (statement) =>
        ts.isImportDeclaration(statement) &&
        SHAPES.test(textOf(statement.moduleSpecifier)) &&
        statement.importClause?.namedBindings !== undefined &&
        ts.isNamedImports(statement.importClause.namedBindings) &&
        statement.importClause.namedBindings.elements.some((one) => one.name.text === name.getText()),
    );
}

/**
 * Literals, functions, arithmetic on them, names, `Object.freeze`, `Math` and shapes of those: no other call, nothing
 * new.
 */
function isQuiet(expression: ts.Node): boolean {
  if (ts.isFunctionLike(expression)) return true;
  if (ts.isCallExpression(expression)) {
    const { expression: called } = expression;
    return (
      (/^(Object\.freeze|Math\.\w+)$/.test(called.getText()) || isShape(called)) &&
      expression.arguments.every(isQuiet)
    );
  }
  if (
    ts.isNewExpression(expression) ||
    ts.isTaggedTemplateExpression(expression) ||
    ts.isAwaitExpression(expression) ||
    ts.isDeleteExpression(expression)
  ) {
    return false;
  }
  let quiet = true;
  ts.forEachChild(expression, (child) => {
    quiet &&= isQuiet(child);
  });
  return quiet;
}
