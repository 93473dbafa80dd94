import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const core = join(import.meta.dirname, '../../packages/core/src');
const all = 'virtual:formulas';
const one = 'virtual:formula/';

/** Names under which the library exports its formulas, by id, as their source files say. */
function exportedNames(): ReadonlyMap<string, string> {
  const found = globSync('*/*.ts', { cwd: core }).flatMap((file): [string, string][] => {
    const [, name, id] =
      /^export const (\w+) = \/\* @__PURE__ \*\/ formula\(\{\n {2}id: '([^']+)'/m.exec(
        readFileSync(join(core, file), 'utf8'),
      ) ?? [];
    return name && id ? [[id, name]] : [];
  });
  return new Map(found.sort());
}

/** One module a formula, so that a page loads its own and no other. */
export function formulaModules() {
  const names = exportedNames();
  return {
    name: 'formula-modules',
    resolveId: (id: string): string | undefined => (id === all || id.startsWith(one) ? `\0${id}` : undefined),
    load(path: string): string | undefined {
      const id = path.slice(1);
      if (path[0] !== '\0') return undefined;
      if (id === all) {
        const entries = [...names.keys()].map((name) => `'${name}': () => import('${one}${name}')`);
        return `export const load = {\n${entries.join(',\n')}\n};`;
      }
      const name = id.startsWith(one) ? names.get(id.slice(one.length)) : undefined;
      return name && `export { ${name} as formula } from 'swathe';`;
    },
  };
}
