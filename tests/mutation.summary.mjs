// Writes references/mutation.json anew from Stryker's reports in tests/output/mutation; reasons already given are kept.
import { globSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const reports = process.argv[2] ?? join(import.meta.dirname, 'output/mutation');
const file = join(import.meta.dirname, '../references/mutation.json');
const before = JSON.parse(readFileSync(file, 'utf8'));
const keyOf = ({ file, was, became }) => [file, was, became].join('\n');
const reasons = new Map(before.survivors.map((survivor) => [keyOf(survivor), survivor.because]));

const short = (text) => {
  const line = text.replaceAll(/\s+/g, ' ');
  return line.length > 100 ? `${line.slice(0, 100)}…` : line;
};
function textAt(source, { start, end }) {
  const lines = source.split('\n').slice(start.line - 1, end.line);
  lines.push(lines.pop().slice(0, end.column - 1));
  lines[0] = lines[0].slice(start.column - 1);
  return lines.join('\n');
}

const parts = new Map(before.parts.map((part) => [part.part, part]));
const fresh = new Map();
const survivors = [];
const seen = new Set();
for (const report of globSync('*.json', { cwd: reports }).filter((name) => !name.includes('incremental'))) {
  const date = statSync(join(reports, report)).mtime.toISOString().slice(0, 10);
  const { files } = JSON.parse(readFileSync(join(reports, report), 'utf8'));
  for (const [path, { source, mutants }] of Object.entries(files)) {
    const name = path.replace('packages/core/src/', '');
    seen.add(name);
    const part = name.includes('/') ? name.split('/')[0] : name.replace('.ts', '');
    const sum = fresh.get(part) ?? { part, date, mutants: 0, killed: 0, timedOut: 0, survived: 0, unseen: 0 };
    fresh.set(part, sum);
    for (const { status, location, replacement } of mutants) {
      const count = { Killed: 'killed', Timeout: 'timedOut', Survived: 'survived', NoCoverage: 'unseen' }[
        status
      ];
      if (!count) continue;
      sum.mutants += 1;
      sum[count] += 1;
      if (status !== 'Survived' && status !== 'NoCoverage') continue;
      const survivor = { file: name, was: short(textAt(source, location)), became: short(replacement) };
      survivors.push({ ...survivor, because: reasons.get(keyOf(survivor)) ?? '' });
    }
  }
}
const kept = before.survivors.filter((survivor) => !seen.has(survivor.file));
const all = [...kept, ...survivors].sort((a, b) => a.file.localeCompare(b.file));
for (const [name, part] of fresh) parts.set(name, part);
const sorted = [...parts.values()].sort((a, b) => a.part.localeCompare(b.part));
writeFileSync(file, `${JSON.stringify({ parts: sorted, survivors: all }, null, 2)}\n`);
for (const { part, mutants, killed, timedOut } of sorted)
  console.log(
    `${part}: ${killed + timedOut} of ${mutants}, ${((100 * (killed + timedOut)) / mutants).toFixed(1)} %`,
  );
console.log(`${all.filter(({ because }) => because === '').length} survivors without a reason`);
