import { parseArgs } from 'node:util';
import { applicationPlan, InputError } from 'swathe';
import { catalog } from 'swathe/catalog';
import { jsonSchema } from 'swathe/schema';
import { printPlan } from './print-plan.ts';
import { runRows } from './run-rows.ts';
import { plain, type Units, writer } from './write.ts';

const usage = `swathe plan CASE.json [--json] [--units in|cm|both]   the plan for one splint or cast
swathe run FORMULA ROWS.csv                            a formula over a table; "-" reads standard input
swathe schema FORMULA                                  JSON Schema of what a formula reads

Exit code 0 with an answer, 2 with a message where what was typed or read cannot be.
Formulas: ${catalog.map((f) => f.id).join(', ')}`;

/** Something the person who typed can mend. */
class UsageError extends Error {}

const fail = (message: string): never => {
  throw new UsageError(message);
};

/** Gives the text of a file, `-` for standard input. */
type Read = (path: string) => string;

/** As much of a text as a message has room for, on one line. */
const brief = (text: string): string => plain(text.length > 120 ? `${text.slice(0, 120)}…` : text);

function text(read: Read, path: string | undefined, what: string): string {
  if (path === undefined) return fail(`${what} is missing\n\n${usage}`);
  try {
    // Spreadsheets put a byte order mark before what they save.
    return read(path).replace(/^\ufeff/, '');
  } catch (error) {
    return fail(`cannot read ${brief(path)}: ${brief((error as Error).message)}`);
  }
}

function parsed(text: string, path: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    return fail(`${brief(path)} is not JSON: ${brief((error as Error).message)}`);
  }
}

const formulaCalled = (id: string | undefined) =>
  catalog.find((f) => f.id === id) ?? fail(`no formula is called ${brief(id ?? 'nothing')}\n\n${usage}`);

function plan(read: Read, path: string | undefined, options: { json: boolean; units: string }): string {
  const { units } = options;
  if (units !== 'in' && units !== 'cm' && units !== 'both')
    return fail(`--units: got ${brief(units)}; possible: in, cm, both`);
  const given = parsed(text(read, path, 'the case file'), String(path));
  const { about, order } = (typeof given === 'object' && given !== null ? given : {}) as Record<
    string,
    unknown
  >;
  if (order === undefined)
    return fail(`${brief(String(path))}: got no "order"; possible: { "about": text, "order": { … } }`);
  const plan = applicationPlan.fromJson(order);
  if (options.json) return JSON.stringify(plan, null, 2);
  return printPlan(plan, typeof about === 'string' ? about : undefined, writer(units satisfies Units));
}

function done(args: readonly string[], read: Read): string {
  const { values, positionals } = parseArgs({
    args: [...args],
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
      return plan(read, first, values);
    case 'run':
      return runRows(formulaCalled(first), text(read, second, 'the table of rows'));
    case 'schema':
      return JSON.stringify(jsonSchema(formulaCalled(first)), null, 2);
    default:
      return fail(usage);
  }
}

/** What a command leaves: its exit code, and what goes to standard output or to standard error. */
export interface Outcome {
  readonly code: 0 | 2;
  readonly out: string;
  readonly err: string;
}

/** Carries out a command line. What the person who typed can mend is told with code 2. */
export function command(args: readonly string[], read: Read): Outcome {
  try {
    return { code: 0, out: `${done(args, read)}\n`, err: '' };
  } catch (error) {
    if (error instanceof UsageError || error instanceof InputError)
      return { code: 2, out: '', err: `${error.message}\n` };
    if ((error as { code?: string }).code?.startsWith('ERR_PARSE_ARGS'))
      return { code: 2, out: '', err: `${brief((error as Error).message)}\n` };
    throw error;
  }
}
