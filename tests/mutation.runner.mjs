// A test runner for Stryker that loads the tests once and runs them for one mutant after the other: of the seconds that a
// mutant costs under Vitest nearly all go into loading.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const part = process.env.MUTATE ?? '';

/** By its package `swathe` would be the sources beside the sandbox, unmutated, and every mutant would survive. */
function mutated(folder) {
  const src = join(folder, '../packages/core/src');
  const vitest = import.meta.resolve('vitest');
  const own = new URL('./mutation.vitest.mjs', import.meta.url).href;
  registerHooks({
    resolve(name, context, next) {
      if (name === 'vitest') return { url: own, shortCircuit: true };
      if (name === 'vitest-itself') return { url: vitest, shortCircuit: true };
      const found = /^swathe(?:\/(\w+))?$/.exec(name);
      if (!found) return next(name, context);
      return { url: pathToFileURL(join(src, `${found[1] ?? 'index'}.ts`)).href, shortCircuit: true };
    },
  });
}

// Each part is held to the tests of its own, not to all that happen to pass through it. Never among them: what reads the
// sources as text, starts other processes, compares with what was before, or looks at the site.
const own = {
  coverage: ['checks/coverage', 'properties/coverage'],
  layers: ['checks/layers', 'properties/layers'],
  pressure: ['properties/under-bandage'],
  roll: ['properties/roll', 'properties/take-off', 'checks/cutting'],
  segment: ['properties/segment', 'checks/segment-tables'],
  setting: ['properties/setting', 'properties/heat', 'checks/conduction', 'checks/injury'],
};
const everyDomain = [
  'checks/rows',
  'laws/joint',
  'laws/cautions',
  'laws/answers',
  'laws/inputs',
  'checks/independent',
];
const domain = Object.keys(own).find((name) => part.startsWith(name));
/** Of setting what needs no march in time: the tests of the rest take minutes. */
const isLight =
  part.startsWith('setting/') && !/march|column|cast-model|conduction|temperature|contact/.test(part);
/** What marches in time has quick tests of its own, and of the rows those of one formula. */
const quickOf = {
  'setting/march.ts': ['checks/march'],
  'setting/column.ts': ['checks/column'],
  'setting/cast-model.ts': ['checks/cast-model'],
  'setting/cast-parameters.ts': ['checks/cast-model'],
  'setting/conduction.ts': ['checks/conduction-exact', 'checks/rows'],
  'setting/contact-time.ts': ['checks/contact-time', 'checks/rows', 'checks/injury'],
  'setting/temperature-band.ts': ['checks/temperature-course'],
  'setting/temperature-history.ts': ['checks/temperature-course'],
  'setting/setting-rate.ts': ['checks/setting-rate'],
};
const forms = ['laws/faults', 'laws/recheck'];
const filesOf = () => {
  if (part in quickOf) return quickOf[part];
  if (part === 'coverage/course.ts') return ['checks/course'];
  if (part === 'setting/trace.ts') return ['checks/trace'];
  const cutting = ['parts', 'relaxation', 'levels', 'search'].map((name) => `checks/cutting-${name}`);
  if (/cutting\//.test(part)) return cutting;
  if (/cutting-plan/.test(part)) return [...cutting, 'properties/roll'];
  // The layers' own are the longest of all.
  if (/layer-map/.test(part))
    return [...everyDomain, ...own.coverage, 'checks/course', 'properties/layer-map'];
  if (isLight) return [...everyDomain, 'properties/setting', 'checks/injury'];
  if (domain) return [...everyDomain, ...own[domain]];
  if (part === 'quantity.ts') return ['properties/quantity'];
  if (!part.startsWith('plan'))
    return [...forms, 'laws/answers', 'laws/inputs', 'laws/schema', 'properties/refusals'];
  if (/heat|expected/.test(part)) return [part.replace(/\.ts.*/, '')];
  return ['plan/parts', 'plan/templates', 'plan/application-plan'];
};

/** Laws hold for every formula: those of the domain, and for what all rest on, some of each shape that take no time. */
const quick = [
  'segment.girth-profile',
  'segment.stature-for-age',
  'coverage.helix',
  'layers.layers-wanted',
  'roll.length-left',
  'setting.supersaturation',
  'setting.heat-caution',
  'pressure.under-bandage',
];
const isOf = (test) => {
  const [, id, of] = /> ((\w+)\.[a-z-]+)/.exec(test) ?? [];
  if (part in quickOf)
    return of in own ? `${id.replace('.', '/')}.ts` === part && /agrees/.test(test) : !/left out/.test(test);
  // These count all rows, start other processes, or take long; of plans, those whose heat is worked out.
  if (part.startsWith('plan'))
    return !/command line|in plaster > gives|what the stock|cautions fire|figures of eight/.test(test);
  if (!(of in own)) return !/left out|> 100 000|on arcs|on every pattern|thirteen widths/.test(test);
  if (isLight && /setting\.(conduction|temperature|contact)/.test(id)) return false;
  return domain ? of === domain : quick.includes(id);
};

const times = 'mutation-times.json';

class OneProcess {
  // What Stryker's instrumented sources talk to.
  #state = globalThis.__stryker__ ?? {};
  #tests = new Map();
  /** How long each took last: the quick ones first. */
  #took = new Map();
  /** The same from the first run of all, for a process that starts anew. */
  #atFirst = existsSync(times) ? JSON.parse(readFileSync(times, 'utf8')) : {};
  #fresh = true;

  capabilities() {
    // A mutant that was met on loading too is switched on for the tests alone, so there is nothing to load anew.
    return { reloadEnvironment: true };
  }

  async init() {
    globalThis.__stryker__ = this.#state;
    const folder = resolve('tests');
    process.env.FC_RUNS = process.env.FC_RUNS ?? '30';
    process.env.FC_MANY = process.env.FC_MANY ?? '100';
    mutated(folder);
    const { load, tests } = await import('vitest');
    for (const file of filesOf()) await load(file, pathToFileURL(join(folder, `${file}.test.ts`)).href);
    this.#tests = new Map([...tests].filter(([id]) => isOf(id)));
  }

  async #failure(id) {
    const began = performance.now();
    try {
      await this.#tests.get(id)();
      this.#took.set(id, performance.now() - began);
    } catch (error) {
      return String(error?.message ?? error) || 'failed';
    }
  }

  async dryRun() {
    const results = [];
    for (const id of this.#tests.keys()) {
      this.#state.currentTestId = id;
      const began = performance.now();
      const failureMessage = await this.#failure(id);
      const timeSpentMs = performance.now() - began;
      results.push({
        id,
        name: id,
        // By its file a test that was changed is known, so that an incremental run takes it anew.
        fileName: resolve('tests', `${id.split(' > ')[0]}.test.ts`),
        timeSpentMs,
        status: failureMessage === undefined ? 0 : 1,
        failureMessage,
      });
    }
    this.#state.currentTestId = undefined;
    writeFileSync(times, JSON.stringify(Object.fromEntries(this.#took)));
    return { status: 'complete', tests: results, mutantCoverage: this.#state.mutantCoverage };
  }

  async mutantRun({ activeMutant, testFilter, hitLimit }) {
    const state = this.#state;
    const fresh = this.#fresh;
    this.#fresh = false;
    const took = (id) => this.#took.get(id) ?? this.#atFirst[id] ?? 0;
    const ids = (testFilter ?? [...this.#tests.keys()]).toSorted((a, b) => took(a) - took(b));
    state.hitCount = hitLimit === undefined ? undefined : 0;
    state.hitLimit = hitLimit;
    for (const [n, id] of ids.entries()) {
      // What a test makes once and keeps must be made from what is not mutated.
      if (!this.#took.has(id)) await this.#failure(id);
      state.activeMutant = activeMutant.id;
      const failureMessage = await this.#failure(id);
      state.activeMutant = undefined;
      const looped = state.hitCount > hitLimit;
      if (looped) return { status: 'timeout', reason: `hit ${state.hitCount} times` };
      if (failureMessage === undefined) continue;
      // What the mutant left behind, such as a kept value, must not fell those after it.
      if ((await this.#failure(id)) !== undefined && !fresh) throw new Error('needs a fresh process');
      return { status: 'killed', killedBy: [id], failureMessage, nrOfTests: n + 1 };
    }
    return { status: 'survived', nrOfTests: ids.length };
  }
}

/** Which sources a caution names is for people to check, as its words are. */
const citations = {
  shouldIgnore: ({ parent, node }) =>
    node.type === 'ArrayExpression' && parent?.key?.name === 'sources' ? 'a list of sources' : undefined,
};

export const strykerPlugins = [
  { kind: 'TestRunner', name: 'one-process', factory: () => new OneProcess() },
  { kind: 'Ignore', name: 'citations', value: citations },
];
