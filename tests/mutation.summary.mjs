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

// What one run let through another may have caught: a part may be run in pieces, or under other tests.
const ranks = { Ignored: 0, NoCoverage: 1, Survived: 2, Timeout: 3, Killed: 4 };
const found = new Map();
for (const report of globSync('*.json', { cwd: reports })) {
  const date = statSync(join(reports, report)).mtime.toISOString().slice(0, 10);
  const { files } = JSON.parse(readFileSync(join(reports, report), 'utf8'));
  for (const [path, { source, mutants }] of Object.entries(files)) {
    const file = path.replace('packages/core/src/', '');
    for (const { status, mutatorName, location, replacement } of mutants) {
      if (!(status in ranks)) continue;
      const key = [file, mutatorName, JSON.stringify(location), replacement].join('\n');
      if (ranks[status] <= ranks[found.get(key)?.status ?? 'Ignored']) continue;
      found.set(key, {
        file,
        status,
        date,
        was: short(textAt(source, location)),
        became: short(replacement),
      });
    }
  }
}
const seen = new Set([...found.values()].map(({ file }) => file));
const fresh = new Map();
for (const { file, status, date } of found.values()) {
  const part = file.includes('/') ? file.split('/')[0] : file.replace('.ts', '');
  const sum = fresh.get(part) ?? { part, date, mutants: 0, killed: 0, timedOut: 0, survived: 0, unseen: 0 };
  fresh.set(part, sum);
  sum.mutants += 1;
  sum[{ Killed: 'killed', Timeout: 'timedOut', Survived: 'survived', NoCoverage: 'unseen' }[status]] += 1;
}
const survivors = [...found.values()]
  .filter(({ status }) => status === 'Survived' || status === 'NoCoverage')
  .map(({ file, was, became }) => ({
    file,
    was,
    became,
    because: reasons.get(keyOf({ file, was, became })) ?? '',
  }));
const parts = new Map([...before.parts.map((part) => [part.part, part]), ...fresh]);
const kept = before.survivors.filter((survivor) => !seen.has(survivor.file));
const all = [...kept, ...survivors].sort((a, b) => a.file.localeCompare(b.file));
const sorted = [...parts.values()].sort((a, b) => a.part.localeCompare(b.part));
writeFileSync(file, `${JSON.stringify({ ...before, parts: sorted, survivors: all }, null, 2)}\n`);
for (const { part, mutants, killed, timedOut } of sorted)
  console.log(
    `${part}: ${killed + timedOut} of ${mutants}, ${((100 * (killed + timedOut)) / mutants).toFixed(1)} %`,
  );
console.log(`${all.filter(({ because }) => because === '').length} survivors without a reason`);
