import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { cm, layerMap, mm, percent, ratio, stripLength } from 'swathe';
import { Sampler, type Wrap } from '../checks/sampler.ts';
import { beside, row } from './beside.ts';

const wrap: Wrap = {
  limb: [
    [0, 240],
    [80, 215],
    [220, 345],
    [340, 362],
  ],
  from: 5,
  to: 330,
  width: 100,
  overlap: 0.5,
  keeps: 'overlap',
  passes: 1,
  startTurns: 2,
  endTurns: 2,
  extra: [],
};
const given = {
  stations: wrap.limb.map(([at, girth]) => ({ at: mm(at), girth: mm(girth) })),
  from: mm(wrap.from),
  to: mm(wrap.to),
  width: mm(wrap.width),
  overlap: ratio(wrap.overlap),
  keeps: wrap.keeps,
  passes: wrap.passes,
  startTurns: wrap.startTurns,
  endTurns: wrap.endTurns,
  extra: [],
  stretch: percent(0),
  wanted: { least: 2, most: 4 },
};

/** Bands found point by point, a tenth of a millimetre along and a degree round: that is how exactly it knows an edge. */
function sampled(): number {
  const sampler = new Sampler(wrap);
  let bands = 0;
  let before = '';
  for (let along = sampler.start; along < sampler.end; along += 0.1) {
    let [least, most] = [Number.POSITIVE_INFINITY, 0];
    for (let degree = 0; degree < 360; degree++) {
      const layers = sampler.layers(along, degree / 360, []);
      least = Math.min(least, layers);
      most = Math.max(most, layers);
    }
    if (`${least} ${most}` !== before) bands += 1;
    before = `${least} ${most}`;
  }
  return bands;
}

const limbs = Array.from({ length: 1000 }, (_, n) => ({
  girth: cm(10 + n / 50),
  advance: mm(38.1),
  turns: 6,
}));
function answered(): number {
  let sum = 0;
  for (const limb of limbs) sum += stripLength(limb).value;
  return sum;
}
const { input } = stripLength;
function parsed(): number {
  let sum = 0;
  for (const limb of limbs) {
    const read = input['~standard'].validate(limb);
    if ('value' in read) sum += read.value.girth;
  }
  return sum;
}

// zod is the library's dependency, so it is found from there, and the library by its own sources.
const core = join(import.meta.dirname, '../../packages/core');
async function bytes(contents: string): Promise<number> {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: core },
    bundle: true,
    minify: true,
    format: 'esm',
    write: false,
  });
  return gzipSync(outputFiles[0]?.contents ?? '').byteLength;
}
const schema = `import * as z from 'zod/mini';
export const input = z.strictObject({
  girth: z.number().check(z.gte(10), z.lte(2000)),
  advance: z.number().check(z.gte(1), z.lte(300)),
  turns: z.number().check(z.gte(0), z.lte(200)),
});`;
const page = await bytes("export { stripLength, cm } from './src/index.ts'");

export const rows = [
  row(
    'layer map of a wrap',
    'point sampler',
    beside(() => layerMap.compute(given), sampled),
    'points 0.1 mm and 1° apart',
  ),
  row(
    '1000 answers with their record',
    'zod parse',
    beside(answered, parsed),
    'the parse of the same input, nothing worked out',
  ),
  row(
    'bundle of one small formula, gzipped',
    'zod/mini',
    [[page, await bytes(schema)]],
    'a schema of the same three numbers by itself',
    'bytes',
  ),
];
