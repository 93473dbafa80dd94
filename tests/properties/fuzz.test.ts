import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { inspect, isDeepStrictEqual } from 'node:util';
import { csvFormatRows, csvParseRows } from 'd3-dsv';
import fc from 'fast-check';
import {
  type Answer,
  type AnyFormula,
  applicationPlan,
  type ImmobilisationId,
  InputError,
  immobilisations,
  orderTemplate,
  recheck,
} from 'swathe';
import { afterAll, describe, expect, test } from 'vitest';
import { command } from '../../packages/cli/src/command.ts';
import { type Fields, isRecord } from '../../packages/core/src/measure.ts';
import { order as orderSchema } from '../../packages/core/src/plan/order.ts';
import { dataOf, formulas, inputsOf, numbersIn, wireIn } from '../generators.ts';
import { type Hostile, holds, hostileTo, hostileWords, refusal, shapes, Trap } from '../hostile.ts';
import { orderFrom, orderOf } from '../plan/cases.ts';

type Schema = Fields[string];

/** Cases over all readers. `UPDATE=1 FUZZ_CASES=1000000` writes references/fuzz-report.json anew. */
const cases = Number(process.env['FUZZ_CASES'] ?? 20_000);
const { seed = 1 } = fc.readConfigureGlobal();

/** One case read: the message where it was refused. */
type Told = { readonly refused: string } | { readonly answered: true };

interface Target {
  readonly id: string;
  /** Share of all cases, beside that of a formula of plain arithmetic. */
  readonly weight: number;
  readonly cases: fc.Arbitrary<unknown>;
  reads(one: never): Told;
}

const natives = [Object, Object.prototype, Array, Array.prototype, Function.prototype, String.prototype];
const native = (): number => natives.reduce<number>((sum, of) => sum + Reflect.ownKeys(of).length, 0);
const clean = native();

/** What must hold whatever is read: an answer of finite numbers that JSON carries, or an InputError and nothing else. */
function read(reader: (json: unknown) => unknown, { json }: Hostile): Told & { readonly record?: unknown } {
  let answer: unknown;
  try {
    answer = reader(json);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    holds(error);
    // A fault of our own must not pass for one of the input.
    if (error.cause !== undefined && !(error.cause instanceof Trap))
      expect(String(error.cause)).toContain('has been revoked');
    return { refused: error.message };
  } finally {
    expect(native(), 'nothing is put on a prototype').toBe(clean);
  }
  for (const { path, x } of numbersIn(answer))
    if (!Number.isFinite(x)) throw new Error(`${path.join('.')} is ${x}`);
  const record: unknown = JSON.parse(JSON.stringify(answer));
  if (!isDeepStrictEqual(record, answer)) {
    expect(record).toStrictEqual(answer);
    throw new Error('JSON does not bring the answer back');
  }
  return { answered: true, record };
}

/** The same of a formula, whose record gives the same answer again; called without JSON it refuses as well. */
function reads(formula: AnyFormula, one: Hostile): Told {
  const told = read(formula.fromJson, one);
  if ('answered' in told) expect(recheck(told.record as Answer, formula)).toEqual({ kind: 'holds' });
  if (one.made === 'noise') holds(refusal(() => formula(one.json as never)));
  return told;
}

/** The few whose calls take long get fewer cases. */
const weights: Readonly<Record<string, number>> = {
  'coverage.layer-map': 0.5,
  'roll.take-off': 0.5,
  'roll.cutting-plan': 0.2,
  'setting.conduction': 0.1,
  'setting.temperature-history': 0.1,
  'setting.temperature-band': 0.02,
};

const byFormula = formulas.map(
  ({ id, formula }): Target => ({
    id,
    weight: weights[id] ?? 1,
    cases: hostileTo(formula.input as Schema, inputsOf(formula), (inputs, units) =>
      wireIn(formula, inputs, units),
    ),
    reads: (one) => reads(formula, one),
  }),
);

const orders = [
  ...['child-volar-slab', 'posterior-ankle-slab', 'short-leg-cast', 'thumb-spica-slab'].map(
    (name) => applicationPlan.fromJson(orderOf(name)).order,
  ),
  ...(Object.keys(immobilisations) as ImmobilisationId[]).flatMap((id) => [
    orderFrom(orderTemplate(id, 'plaster'), 'fast plaster'),
    orderFrom(orderTemplate(id, 'fibreglass'), 'fibreglass'),
  ]),
];
const orderInUnits = (order: unknown, units: readonly number[]): unknown =>
  wireIn({ input: orderSchema }, order, units);
const hostileOrders = hostileTo(orderSchema as Schema, fc.constantFrom(...orders), orderInUnits);

/** A command line, and the text of every file it names. */
interface Typed {
  readonly args: readonly string[];
  readonly text: string;
}

/** What the command must leave: its code, and a short message without a stack; or an answer, and no message. */
function typed({ args, text }: Typed): Told {
  const { code, out, err } = command(args, () => text);
  expect(native(), 'nothing is put on a prototype').toBe(clean);
  if (code === 0) {
    expect(err).toBe('');
    expect(out.length).toBeGreaterThan(10);
    const words = /\b(?:NaN|Infinity|undefined)\b|\[object/;
    if (args[0] === 'run') {
      const [headings = [], ...rows] = csvParseRows(out);
      const own = csvParseRows(text.replace(/^\ufeff/, ''))[0]?.length ?? 0;
      const values = headings.flatMap((h, n) =>
        n >= own && h.startsWith('value') ? rows.map((row) => row[n]) : [],
      );
      expect(values.filter((x) => words.test(x ?? ''))).toEqual([]);
      const cannot = rows.map((row) => row.at(-1) ?? '').find((words) => words !== '');
      if (cannot !== undefined) {
        expect(cannot.length).toBeLessThanOrEqual(4000);
        return { refused: cannot };
      }
    } else if (!words.test(text)) expect(out).not.toMatch(words);
    return { answered: true };
  }
  expect([code, out]).toEqual([2, '']);
  expect(err.trim()).not.toBe('');
  expect(err.length).toBeLessThanOrEqual(2000);
  expect(err).not.toMatch(/^ +at /m);
  expect(err.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  return { refused: err };
}

/** JSON text of whatever has one. */
function textOf(json: unknown): string {
  try {
    return JSON.stringify(json) ?? '';
  } catch {
    return String(Object.prototype.toString.call(json));
  }
}

const place = fc.nat({ max: 2 ** 20 });

/** Text cut short, doubled, or with a few characters of it changed. */
const brokenText = (whole: fc.Arbitrary<string>): fc.Arbitrary<string> =>
  fc
    .tuple(whole, fc.nat({ max: 40 }), place, fc.constantFrom(...hostileWords))
    .map(([text, how, n, word]) => {
      const at = n % (text.length + 1);
      if (how === 0) return text.slice(0, at);
      if (how === 1) return text + text;
      if (how === 2) return text.slice(0, at) + word + text.slice(at);
      if (how === 3) return text.slice(0, at) + text.slice(at + 1);
      if (how === 4) return `\ufeff${text}`;
      if (how === 5) return text.replaceAll('"', "'");
      if (how === 6) return text.replaceAll('\n', '\r\n');
      if (how === 7) return text.replace(/\d+/g, (digits) => (at % 2 ? `${digits}e400` : `-${digits}`));
      if (how === 8 && n % 50 === 0) return '['.repeat(100_000) + text;
      return text;
    });

const planned: Target = {
  id: 'swathe plan',
  weight: 0.3,
  cases: fc
    .record({
      options: fc.subarray(['--json', '--units', 'cm', 'in']),
      text: brokenText(
        fc
          .tuple(hostileOrders, fc.nat({ max: 9 }))
          .map(([{ json }, n]) =>
            textOf(n === 0 ? json : { about: n === 1 ? json : 'invented', order: json }),
          ),
      ),
    })
    .map(({ options, text }): Typed => ({ args: ['plan', 'case.json', ...options], text })),
  reads: typed,
};

/** JSON laid out as columns, a heading a path. */
function columnsOf(json: unknown, path = ''): [string, string][] {
  const under = (key: string): string => (path === '' ? key : `${path}.${key}`);
  if (!isRecord(json) && !Array.isArray(json)) return [[path, String(json)]];
  if ('value' in json && 'unit' in json) return [[`${path} [${json['unit']}]`, String(json['value'])]];
  return Object.entries(json).flatMap(([key, x]) => columnsOf(x, under(key)));
}

const light = formulas.filter(({ id }) => (weights[id] ?? 1) === 1);
const headings = [
  ...[
    '__proto__.polluted',
    '__proto__',
    'constructor.prototype.polluted',
    'girth.x',
    'girth [cm].x',
    '',
    ' ',
    '.',
  ],
  ...[
    'stations.__proto__.polluted',
    'stations.0.__proto__.polluted',
    'stations.4294967294.at [mm]',
    'stations',
  ],
  ...[
    'stations.length',
    'stations.-1',
    'stations.0.at [cm]',
    'girth [cm',
    'girth []',
    'girth [__proto__]',
    'value',
  ],
];
const ran: Target = {
  id: 'swathe run',
  weight: 1,
  cases: fc
    .constantFrom(...light)
    .chain(({ id, formula }) =>
      fc
        .record({
          id: fc.constant(id),
          rows: fc.array(
            fc.tuple(inputsOf(formula), fc.array(fc.nat({ max: 5 }), { minLength: 1, maxLength: 3 })),
            { minLength: 1, maxLength: 2 },
          ),
          beside: fc.array(fc.tuple(place, fc.constantFrom(...headings), fc.constantFrom('', '1', 'x')), {
            maxLength: 2,
          }),
          spoilt: fc.array(fc.tuple(place, fc.constantFrom(...hostileWords)), { maxLength: 2 }),
        })
        .map(({ id, rows, beside, spoilt }) => {
          // Headings are those of the first row; the second may have other units and so be refused.
          const columns = columnsOf(wireIn(formula, rows[0]?.[0], rows[0]?.[1] ?? [0]));
          for (const [at, heading, cell] of beside)
            columns.splice(at % (columns.length + 1), 0, [heading, cell]);
          const cells = [
            columns.map(([, cell]) => cell),
            ...rows.slice(1).map(([inputs, units]) => {
              const row = columnsOf(wireIn(formula, inputs, units));
              return columns.map((_, n) => row[n]?.[1] ?? '');
            }),
          ];
          const table = [columns.map(([heading]) => heading), ...cells];
          for (const [at, word] of spoilt) {
            const row = table[at % table.length] as string[];
            row[(at >> 4) % row.length] = word;
          }
          return { id, text: csvFormatRows(table) };
        }),
    )
    .chain(({ id, text }) =>
      brokenText(fc.constant(text)).map((text): Typed => ({ args: ['run', id, '-'], text })),
    ),
  reads: typed,
};

const argument = fc.oneof(
  fc.constantFrom(
    ...['plan', 'run', 'schema', '--json', '--units', 'cm', '--help', '-h', '-', '--', '-x', '--no-json'],
  ),
  fc.constantFrom(...formulas.map(({ id }) => id)),
  fc.constantFrom(...hostileWords),
  fc.string(),
);
const args: Target = {
  id: 'swathe, any words',
  weight: 0.5,
  cases: fc.record({
    args: fc.oneof(fc.array(argument, { maxLength: 5 }), fc.tuple(fc.constant('schema'), argument)),
    text: fc.oneof(fc.string(), fc.jsonValue().map(textOf), fc.constantFrom(...hostileWords)),
  }),
  reads: typed,
};

const targets: readonly Target[] = [
  ...byFormula,
  { id: 'plan', weight: 0.3, cases: hostileOrders, reads: (one) => read(applicationPlan.fromJson, one) },
  {
    id: 'test.shapes',
    weight: 1,
    cases: hostileTo(shapes.input as Schema, dataOf(shapes.input as Schema), (inputs, units) =>
      wireIn(shapes, inputs, units),
    ),
    reads: (one) => read(shapes.fromJson, one),
  },
  planned,
  ran,
  args,
];
const whole = targets.reduce((sum, { weight }) => sum + weight, 0);

interface Line {
  readonly reader: string;
  cases: number;
  answered: number;
  refused: number;
  longestMessage: number;
  slowest: { ms: number; seed: number };
}
const report: Line[] = [];
const failures: { reader: string; seed: number; path: string; error: string; case: string }[] = [];
const began = performance.now();

describe(`${cases} hostile cases`, () => {
  test.each(targets)('$id', { timeout: 60_000 + cases * 10 }, ({ id, weight, cases: of, reads }) => {
    const line: Line = {
      reader: id,
      cases: 0,
      answered: 0,
      refused: 0,
      longestMessage: 0,
      slowest: { ms: 0, seed },
    };
    report.push(line);
    const failed: typeof failures = [];
    const wanted = Math.ceil((cases * weight) / whole);
    for (let n = 0; line.cases < wanted && failed.length < 5; n++) {
      const of1 = seed + n;
      const property = fc.property(of, (one) => {
        line.cases += 1;
        const start = process.cpuUsage();
        const told = reads(one as never);
        const { user, system } = process.cpuUsage(start);
        const ms = (user + system) / 1000;
        if (ms > line.slowest.ms) line.slowest = { ms, seed: of1 };
        if ('answered' in told) line.answered += 1;
        else {
          line.refused += 1;
          line.longestMessage = Math.max(line.longestMessage, told.refused.length);
        }
      });
      const found = fc.check(property, {
        seed: of1,
        numRuns: Math.min(1000, wanted - line.cases),
        endOnFailure: true,
        interruptAfterTimeLimit: 600_000,
      });
      if (found.failed)
        failed.push({
          reader: id,
          seed: of1,
          path: found.counterexamplePath ?? '',
          error: String((found.errorInstance as Error | undefined)?.stack ?? found.errorInstance).slice(
            0,
            1500,
          ),
          case: inspect(found.counterexample, {
            depth: 9,
            maxStringLength: 200,
            maxArrayLength: 6,
            breakLength: 140,
          }).slice(0, 6000),
        });
    }
    failures.push(...failed);
    expect(failed.map((f) => `${f.error}\n${f.case}`).join('\n\n')).toBe('');
    // Cases that all go one way would test little.
    expect(Math.min(line.answered, line.refused), 'of each kind').toBeGreaterThan(wanted / 50);
  });
});

afterAll(() => {
  const seconds = (performance.now() - began) / 1000;
  if (process.env['FUZZ_SHOW']) console.table(report.map(({ slowest, ...r }) => ({ ...r, ...slowest })));
  if (process.env['UPDATE'] !== '1') return;
  const sum = (of: (line: Line) => number): number => report.reduce((total, line) => total + of(line), 0);
  writeFileSync(
    join(import.meta.dirname, '../../references/fuzz-report.json'),
    `${JSON.stringify(
      {
        date: new Date().toISOString().slice(0, 10),
        command: `UPDATE=1 FUZZ_CASES=${cases} FC_SEED=${seed} vitest run --project laws properties/fuzz`,
        cases: sum((l) => l.cases),
        answered: sum((l) => l.answered),
        refused: sum((l) => l.refused),
        failures: failures.length,
        seconds: Math.round(seconds),
        megabytes: Math.round(process.resourceUsage().maxRSS / 1024),
        longestMessage: Math.max(...report.map((l) => l.longestMessage)),
        readers: report.map(({ slowest, ...line }) => ({
          ...line,
          slowest: { ...slowest, ms: Math.round(slowest.ms) },
        })),
      },
      null,
      2,
    )}\n`,
  );
});
