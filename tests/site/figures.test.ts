import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chromiumPath } from '../chromium.ts';
import { formulas } from '../generators.ts';
import { serve } from './served.ts';

let site: Awaited<ReturnType<typeof serve>>;
let browser: Browser;
const pages = new Map<number, Page>();

beforeAll(async () => {
  site = await serve();
  browser = await chromium.launch({
    executablePath: chromiumPath as string,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update'],
  });
  for (const width of [390, 1280])
    pages.set(width, await browser.newPage({ viewport: { width, height: 900 }, reducedMotion: 'reduce' }));
});

afterAll(async () => {
  await browser?.close();
  site?.close();
});

/** What is wrong with the words in the drawings of a page: too small as drawn, outside the screen, one over another. */
const faults = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<SVGSVGElement>('.drawing svg')].flatMap((svg) => {
      const scale = svg.getScreenCTM()?.a ?? 0;
      const frame = svg.getBoundingClientRect();
      const texts = [...svg.querySelectorAll('text')].map((text) => {
        const { left, right, top, bottom, height } = text.getBoundingClientRect();
        const size = Number.parseFloat(getComputedStyle(text).fontSize) * scale;
        // A line's box is higher than its letters.
        return {
          says: text.textContent,
          size,
          left,
          right,
          top: top + height / 5,
          bottom: bottom - height / 5,
        };
      });
      return texts.flatMap((a, n) => [
        ...(a.size < 11 ? [`${a.says}: ${a.size.toFixed(1)} px`] : []),
        ...(a.left < 0 || a.right > innerWidth ? [`${a.says}: off the screen`] : []),
        ...(a.top < frame.top - 4 || a.bottom > frame.bottom + 4 ? [`${a.says}: above or below`] : []),
        ...texts
          .slice(n + 1)
          .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
          .map((b) => `${a.says} lies over ${b.says}`),
      ]);
    }),
  );

describe.each([390, 1280])('on a screen of %i px', (width) => {
  test.each(formulas)('the words in the figure of $id can be read', async ({ id }) => {
    const page = pages.get(width) as Page;
    await page.goto(`${site.origin}/f/${id}/`);
    await page.evaluate(() => document.fonts.ready);
    expect(await page.locator('try-formula .drawing svg text').count()).toBeGreaterThan(0);
    expect(await faults(page)).toEqual([]);
  });
});

test('the axes of a figure follow the unit of the panel, and the file that is saved does too', async () => {
  const page = pages.get(1280) as Page;
  await page.goto(`${site.origin}/f/coverage.layer-map/`);
  await page.locator('try-formula[data-ready]').waitFor({ state: 'attached' });
  const labels = () => page.locator('.sheet svg text').allTextContents();
  expect(await labels()).toContain('/ mm');
  await page.getByLabel('in', { exact: true }).check();
  await expect.poll(labels).toContain('/ in');
  expect(await labels()).not.toContain('/ mm');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as SVG' }).click(),
  ]);
  const chunks: Buffer[] = [];
  for await (const chunk of await download.createReadStream()) chunks.push(chunk as Buffer);
  expect(Buffer.concat(chunks).toString()).toContain('/ in<');
});
