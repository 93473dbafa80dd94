import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { pictureOf } from '../../docs-site/src/figures/picture.ts';
import { orderOf } from '../plan/cases.ts';

const site = join(import.meta.dirname, '../../docs-site');
const picture = join(site, 'public/layers.svg');

// UPDATE=1 draws it anew.
test('the picture in the README is what the demo computes', () => {
  const css = (name: string): string => readFileSync(join(site, 'src/styles', name), 'utf8');
  const drawn = pictureOf(orderOf('posterior-ankle-slab'), css('base.css'), css('figure.css'));
  if (process.env['UPDATE']) writeFileSync(picture, drawn);
  expect(readFileSync(picture, 'utf8')).toBe(drawn);
});
