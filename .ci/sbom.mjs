// What a published package runs on, as CycloneDX 1.6, from the lock file: `node .ci/sbom.mjs swathe > swathe.cdx.json`.
// The same lock file gives the same text: no serial number, no time, no address of a registry, components by name.
import { execFileSync } from 'node:child_process';

const [name] = process.argv.slice(2);
if (!name) throw new Error('Name a package: node .ci/sbom.mjs swathe');

const pnpm = ['--yes', 'pnpm@12.21.0', '--filter', name, '--fail-if-no-match'];
const options = ['--prod', '--sbom-format', 'cyclonedx', '--sbom-spec-version', '1.6'];
const text = execFileSync('npx', [...pnpm, 'sbom', ...options], { encoding: 'utf8', maxBuffer: 1e8 });
const { serialNumber: _, ...bom } = JSON.parse(text);

const inOrder = (list, key) => list.toSorted((a, b) => (a[key] < b[key] ? -1 : 1));
const { timestamp: __, ...metadata } = bom.metadata;
const components = inOrder(bom.components, 'bom-ref').map(({ externalReferences = [], ...component }) => ({
  ...component,
  hashes: externalReferences.flatMap(({ hashes = [] }) => hashes),
}));
const dependencies = inOrder(bom.dependencies, 'ref');

process.stdout.write(`${JSON.stringify({ ...bom, metadata, components, dependencies }, undefined, 2)}\n`);
