import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { applicationPlan, InputError } from 'swathe';
import { catalog } from 'swathe/catalog';
import { jsonSchema } from 'swathe/schema';
import { printPlan } from './print-plan.ts';
import { runRows } from './run-rows.ts';
import { type Units, writer } from './write.ts';

const usage = `swathe plan CASE.json [--json] [--units in|cm|both]   the plan for one splint or cast
swathe run FORMULA ROWS.csv                            a formula over a table; "-" reads standard input
swathe schema FORMULA                                  JSON Schema of what a formula reads

Formulas: ${catalog.map((f) => f.id).join(', ')}`;

/** Something the person who typed can mend. */
class UsageError extends Error {}

const fail = (message: string): never => {
  throw new UsageError(message);
};

function read(path: string | undefined, what: string): string {
  if (path === undefined) return fail(`${what} is missing\n\n${usage}`);
  try {
    return readFileSync(path === '-' ? 0 : path, 'utf8');
  } catch (error) {
    return fail(`cannot read ${path}: ${(error as Error).message}`);
  }
}

function parsed(text: string, path: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    return fail(`${path} is not JSON: ${(error as Error).message}`);
  }
}

const formulaCalled = (id: string | undefined) =>
  catalog.find((f) => f.id === id) ?? fail(`no formula is called ${id ?? 'nothing'}\n\n${usage}`);

function plan(path: string | undefined, options: { json: boolean; units: string }): string {
  const { units } = options;
  if (units !== 'in' && units !== 'cm' && units !== 'both')
    return fail(`--units: got ${units}; possible: in, cm, both`);
  const given = parsed(read(path, 'the case file'), String(path));
  const { about, order } = (typeof given === 'object' && given !== null ? given : {}) as Record<
    string,
    unknown
  >;
  if (order === undefined)
    return fail(`${path}: got no "order"; possible: { "about": text, "order": { … } }`);
  const plan = applicationPlan.fromJson(order);
  if (options.json) return JSON.stringify(plan, null, 2);
  return printPlan(plan, typeof about === 'string' ? about : undefined, writer(units satisfies Units));
}

function main(): string {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      json: { type: 'boolean', default: false },
      units: { type: 'string', default: 'both' },
      help: { type: 'boolean', short: 'h', default: false },
    },
  });
  const [command, first, second] = positionals;
  if (values.help) return usage;
  switch (command) {
    case 'plan':
      return plan(first, values);
    case 'run':
      return runRows(formulaCalled(first), read(second, 'the table of rows'));
    case 'schema':
      return JSON.stringify(jsonSchema(formulaCalled(first)), null, 2);
    default:
      return fail(usage);
  }
}

try {
  process.stdout.write(`${main()}\n`);
} catch (error) {
  const typed =
    error instanceof UsageError ||
    error instanceof InputError ||
    (error as { code?: string }).code?.startsWith('ERR_PARSE_ARGS');
  if (!typed) throw error;
  process.stderr.write(`${(error as Error).message}\n`);
  process.exitCode = 2;
}
