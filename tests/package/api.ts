import { readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import ts from 'typescript';

interface Declared {
  readonly file: string;
  readonly name: string;
  readonly text: string;
  /** What of the package the declaration names. */
  readonly names: readonly ts.Symbol[];
}

const { factory } = ts;

const named = (node: ts.Node, name: string): boolean =>
  ts.isTypeReferenceNode(node) && ts.isIdentifier(node.typeName) && node.typeName.text === name;

/** Data in a type, told by the type it is of: its sources, places and notes are nothing that a caller writes against. */
function ofData(node: ts.TypeLiteralNode): ts.TypeNode | undefined {
  const typeOf = (name: string): ts.TypeNode | undefined =>
    node.members.filter(ts.isPropertySignature).find((m) => m.name.getText() === name)?.type;
  const [printed, unit, value, status] = ['printed', 'unit', 'value', 'status'].map(typeOf);
  const [used, published] = ['used', 'published'].map(typeOf);
  if (printed && unit && status) return factory.createTypeReferenceNode('Constant', [printed, unit]);
  if (value && status) return factory.createTypeReferenceNode('Published', [value]);
  return used && published && factory.createTypeReferenceNode('Choice', [used]);
}

const withoutData: ts.TransformerFactory<ts.Node> = (context) => (root) => {
  const visit = (node: ts.Node): ts.Node => {
    if (ts.isTypeLiteralNode(node)) {
      const short = ofData(node);
      if (short) return ts.visitEachChild(short, visit, context);
    }
    // Prose, which has spaces; a name to choose from stands in a union.
    if (ts.isLiteralTypeNode(node) && ts.isStringLiteral(node.literal) && node.literal.text.includes(' '))
      return ts.isUnionTypeNode(node.parent)
        ? node
        : factory.createKeywordTypeNode(ts.SyntaxKind.StringKeyword);
    const seen = ts.visitEachChild(node, visit, context);
    const all = ts.isTupleTypeNode(seen) ? seen.elements : [];
    return all.some((part) => named(part, 'Published'))
      ? factory.createArrayTypeNode(factory.createTypeReferenceNode('Published'))
      : seen;
  };
  return visit(root);
};

/** Every name that a package exports, with its declaration as built, and whatever else of the package those name. */
export function apiOf(folder: string): string {
  const { name, exports } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    name: string;
    exports: Record<string, { types?: string }>;
  };
  const entries = Object.entries(exports).flatMap(([path, { types }]) =>
    types ? [{ entry: join(name, path), file: join(folder, types) }] : [],
  );
  const program = ts.createProgram(
    entries.map(({ file }) => file),
    { module: ts.ModuleKind.NodeNext, target: ts.ScriptTarget.ES2023, strict: true, types: [] },
  );
  const checker = program.getTypeChecker();
  const printer = ts.createPrinter({ removeComments: true });
  const dist = join(folder, 'dist');

  const meant = (symbol: ts.Symbol): ts.Symbol =>
    symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
  const statementOf = (node: ts.Node): ts.Node =>
    ts.isVariableDeclaration(node) ? node.parent.parent : node;
  const isTop = (node: ts.Node): boolean => ts.isSourceFile(statementOf(node).parent);
  const isOurs = (node: ts.Node): boolean => node.getSourceFile().fileName.startsWith(dist);

  function namedIn(node: ts.Node): ts.Symbol[] {
    const own = ts.isIdentifier(node) ? checker.getSymbolAtLocation(node) : undefined;
    const symbol = own && meant(own);
    const found = symbol?.declarations?.some((d) => isOurs(d) && isTop(d)) ? [symbol] : [];
    ts.forEachChild(node, (child) => void found.push(...namedIn(child)));
    return found;
  }

  function declared(symbol: ts.Symbol): Declared {
    const declarations = symbol.declarations ?? [];
    const [first] = declarations;
    if (!first) throw new Error(`${symbol.name} is declared nowhere`);
    const printed = (node: ts.Node): string => {
      const [shown = node] = ts.transform(statementOf(node), [withoutData]).transformed;
      return printer
        .printNode(ts.EmitHint.Unspecified, shown, node.getSourceFile())
        .replace(/^(?:export )?(?:declare )?/, '');
    };
    const ours = isOurs(first);
    return {
      file: ours ? relative(dist, first.getSourceFile().fileName) : '',
      name: symbol.name,
      text: ours ? declarations.map(printed).join('\n') : `${symbol.name}, of a dependency`,
      names: ours ? declarations.flatMap(namedIn) : [],
    };
  }

  const all = new Map<ts.Symbol, Declared>();
  const collect = (symbol: ts.Symbol): void => {
    if (all.has(symbol)) return;
    const found = declared(symbol);
    all.set(symbol, found);
    found.names.forEach(collect);
  };
  const exported = entries.map(({ entry, file }) => {
    const source = program.getSourceFile(file);
    const module = source && checker.getSymbolAtLocation(source);
    if (!module) throw new Error(`${file} is no module: run the build first`);
    return { entry, symbols: checker.getExportsOfModule(module).sort((a, b) => (a.name < b.name ? -1 : 1)) };
  });
  for (const { symbols } of exported) for (const symbol of symbols) collect(meant(symbol));

  // Where a type stands is noise, but for the few names that two files give to different things.
  const files = Map.groupBy(all.values(), (d) => d.name);
  const short = (text: string): string =>
    text.replaceAll(/import\("(?:\.{1,2}\/)+[^"]+"\)\.(\w+)/g, (whole, type: string) =>
      files.get(type)?.length === 1 ? type : whole,
    );
  const shown = ({ name, text }: Declared, as: string): string =>
    short(name === as ? text : `${as}: ${text}`);

  const named = new Set(exported.flatMap(({ symbols }) => symbols.map(meant)));
  const behind = [...all].filter(([symbol]) => !named.has(symbol)).map(([, d]) => d);
  behind.sort((a, b) => (a.file + a.name < b.file + b.name ? -1 : 1));
  return `${[
    ...exported.flatMap(({ entry, symbols }) => [
      `==== ${entry} ====`,
      ...symbols.map((symbol) => shown(all.get(meant(symbol)) as Declared, symbol.name)),
    ]),
    '==== not exported, but named above ====',
    ...behind.map((d) => `-- ${d.file}\n${shown(d, d.name)}`),
  ].join('\n\n')}\n`;
}
