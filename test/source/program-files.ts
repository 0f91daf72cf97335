import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

/** The program's source as a graph: which file takes what from which, and what each offers. */

export const root = fileURLToPath(new URL('../..', import.meta.url));

/** Paths from the repository's root, parted by slashes. */
export const filesIn = (folder: string, ends: readonly string[] = ['.ts']): string[] =>
  readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && ends.some((end) => entry.name.endsWith(end)))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'));

export const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');

/** What one import, of whatever form, takes from a module. */
export interface Taken {
  /** As it is written: a path with a dot in front, or a package. */
  readonly from: string;
  /** Names as the other module calls them; undefined for all of it. */
  readonly names: readonly string[] | undefined;
}

export interface Offered {
  readonly name: string;
  /** Why it is offered though only tests take it, from "For tests: …" in its docstring. */
  readonly forTests: string | undefined;
}

export interface ReadFile {
  readonly taken: readonly Taken[];
  readonly offered: readonly Offered[];
}

const named = (bindings: ts.NamedImports | ts.NamedExports): string[] =>
  bindings.elements.map(({ name, propertyName }) => (propertyName ?? name).text);

function importedNames({ importClause }: ts.ImportDeclaration): string[] | undefined {
  if (importClause === undefined) return [];
  const { name, namedBindings } = importClause;
  if (namedBindings !== undefined && ts.isNamespaceImport(namedBindings)) return undefined;
  return [
    ...(name === undefined ? [] : ['default']),
    ...(namedBindings === undefined ? [] : named(namedBindings as ts.NamedImports)),
  ];
}

const propertyNames = (pattern: ts.BindingName): string[] | undefined =>
  ts.isObjectBindingPattern(pattern)
    ? pattern.elements.map(({ name, propertyName }) => (propertyName ?? name).getText())
    : undefined;

/** What is made of `import(…)` at once: taken apart when awaited, or by the function that waits for it. */
function awaitedNames(call: ts.CallExpression): string[] | undefined {
  const { parent } = call;
  if (ts.isAwaitExpression(parent) && ts.isVariableDeclaration(parent.parent)) return propertyNames(parent.parent.name);
  if (ts.isPropertyAccessExpression(parent) && parent.name.text === 'then' && ts.isCallExpression(parent.parent)) {
    const [then] = parent.parent.arguments;
    const given = then !== undefined && ts.isArrowFunction(then) ? then.parameters[0]?.name : undefined;
    return given === undefined ? undefined : propertyNames(given);
  }
  return undefined;
}

/** The text of a module's path in `new URL('./worker.ts', import.meta.url)`. */
function workerPath(node: ts.Node): string | undefined {
  if (!ts.isNewExpression(node) || node.expression.getText() !== 'URL') return undefined;
  const [path, base] = node.arguments ?? [];
  return path !== undefined && ts.isStringLiteral(path) && base?.getText() === 'import.meta.url'
    ? path.text
    : undefined;
}

function takenBy(node: ts.Node): Taken | undefined {
  if (ts.isImportDeclaration(node) && ts.isStringLiteral(node.moduleSpecifier))
    return { from: node.moduleSpecifier.text, names: importedNames(node) };
  if (ts.isExportDeclaration(node) && node.moduleSpecifier !== undefined && ts.isStringLiteral(node.moduleSpecifier)) {
    const { exportClause } = node;
    return {
      from: node.moduleSpecifier.text,
      names: exportClause !== undefined && ts.isNamedExports(exportClause) ? named(exportClause) : undefined,
    };
  }
  if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
    const [path] = node.arguments;
    if (path !== undefined && ts.isStringLiteral(path)) return { from: path.text, names: awaitedNames(node) };
  }
  if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument) && ts.isStringLiteral(node.argument.literal))
    return {
      from: node.argument.literal.text,
      names: node.qualifier === undefined ? undefined : [node.qualifier.getText().split('.')[0] ?? ''],
    };
  const worker = workerPath(node);
  return worker === undefined ? undefined : { from: worker, names: [] };
}

const isExported = (node: ts.Statement): boolean =>
  ts.canHaveModifiers(node) && ts.getModifiers(node)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) === true;

const declaredNames = (name: ts.BindingName): string[] =>
  ts.isIdentifier(name)
    ? [name.text]
    : name.elements.flatMap((element) => (ts.isBindingElement(element) ? declaredNames(element.name) : []));

function offeredBy(node: ts.Statement): string[] {
  if (ts.isExportDeclaration(node))
    return node.exportClause !== undefined && ts.isNamedExports(node.exportClause)
      ? node.exportClause.elements.map(({ name }) => name.text)
      : [];
  if (ts.isExportAssignment(node)) return ['default'];
  if (!isExported(node)) return [];
  if (ts.isVariableStatement(node)) return node.declarationList.declarations.flatMap(({ name }) => declaredNames(name));
  return ts.isFunctionDeclaration(node) ||
    ts.isClassDeclaration(node) ||
    ts.isInterfaceDeclaration(node) ||
    ts.isTypeAliasDeclaration(node) ||
    ts.isEnumDeclaration(node)
    ? [node.name?.text ?? 'default']
    : [];
}

/** A file's text as what it takes and offers. */
export function readSource(text: string, name = 'some.ts'): ReadFile {
  const source = ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true);
  const taken: Taken[] = [];
  const look = (node: ts.Node): void => {
    const found = takenBy(node);
    if (found !== undefined) taken.push(found);
    ts.forEachChild(node, look);
  };
  look(source);
  const offered = source.statements.flatMap((statement) => {
    const doc = ts.getJSDocCommentsAndTags(statement).map((part) => part.getText());
    const [, forTests] = /For tests: (.+?)(?:\*\/|\n|$)/s.exec(doc.join('\n')) ?? [];
    return offeredBy(statement).map((each): Offered => ({ name: each, forTests: forTests?.trim() }));
  });
  return { taken, offered };
}

/** The path that an import means, from the repository's root; undefined for a package. */
export const targetOf = (file: string, from: string): string | undefined =>
  from.startsWith('.')
    ? relative(root, resolve(root, dirname(file), from.replace(/\?.*$/, '')))
        .split(sep)
        .join('/')
    : undefined;

export type Program = ReadonlyMap<string, ReadFile>;

/** Every file of src and sheets, and what builds them, which offers nothing to others. */
export const readProgram = (): Program =>
  new Map([
    ...[...filesIn('src'), ...filesIn('sheets')].map((file) => [file, readSource(textOf(file), file)] as const),
    ['vite.config.ts', { ...readSource(textOf('vite.config.ts'), 'vite.config.ts'), offered: [] }],
  ]);

/** What is offered and taken by no other file of the program, as "file: name". */
export function deadExports(program: Program): { readonly dead: string[]; readonly forTests: string[] } {
  const used = new Map<string, Set<string>>();
  const whole = new Set<string>();
  for (const [file, { taken }] of program) {
    for (const { from, names } of taken) {
      const target = targetOf(file, from);
      if (target === undefined) continue;
      // A command's module is loaded as a whole and asked for the one thing that commands have.
      const asked = names ?? (file === 'src/cli/runnable-commands.ts' ? ['run'] : undefined);
      if (asked === undefined) whole.add(target);
      else used.set(target, new Set([...(used.get(target) ?? []), ...asked]));
    }
  }
  const found = [...program].flatMap(([file, { offered }]) =>
    whole.has(file)
      ? []
      : offered.filter(({ name }) => used.get(file)?.has(name) !== true).map((each) => ({ file, ...each })),
  );
  const words = (some: typeof found): string[] => some.map(({ file, name }) => `${file}: ${name}`);
  return {
    dead: words(found.filter(({ forTests }) => forTests === undefined)),
    forTests: words(found.filter(({ forTests }) => forTests !== undefined)),
  };
}
