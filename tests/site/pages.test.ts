import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { catalog } from 'swathe/catalog';
import type { Fields as Inputs } from 'swathe/definition';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { stateOf, tellsInputs } from '../../docs-site/src/client/fragment.ts';
import { decode, type Fields, typeOf } from '../../docs-site/src/plan/state.ts';
import { isPossible } from '../generators.ts';
import { addresses, dist, launch, serve, shiftOf } from './served.ts';

const pictures = join(import.meta.dirname, '../output/site');

let site: Awaited<ReturnType<typeof serve>>;
let browser: Browser;
/** Ids on each page, and every address that its links lead to. */
const seen = new Map<string, { readonly ids: ReadonlySet<string>; readonly links: readonly string[] }>();

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  site = await serve();
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  site?.close();
});

interface Visit {
  readonly page: Page;
  /** What the browser had to complain of: console, policy, failed or foreign requests. */
  readonly complaints: readonly string[];
}

async function visit(context: BrowserContext, address: string): Promise<Visit> {
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('requestfailed', (request) => complaints.push(`failed: ${request.url()}`));
  page.on('request', (request) => {
    if (!request.url().startsWith(`${site.origin}/`)) complaints.push(`elsewhere: ${request.url()}`);
  });
  page.on('response', (response) => {
    if (response.status() >= 400) complaints.push(`${response.status()}: ${response.url()}`);
  });
  await page.goto(site.origin + address);
  await page.evaluate(() => document.fonts.ready);
  return { page, complaints };
}

const open = (width: number, colorScheme: 'light' | 'dark'): Promise<BrowserContext> =>
  browser.newContext({ viewport: { width, height: 900 }, colorScheme, reducedMotion: 'reduce' });

/** Pages made alike, of which two are looked at closely; of the others, whether they are quiet, fit and lead somewhere. */
const close = /^\/immobilisations\/(volar-slab|long-leg-cast)\//;
const alike = (address: string): boolean => /^\/immobilisations\/./.test(address) && !close.test(address);

const name = (address: string): string => address.replaceAll('/', ' ').trim().replaceAll(' ', '-') || 'front';

/** One page of each layout, which is looked at in both themes; of the others each in one. */
const layouts = [
  '/',
  '/404.html',
  '/f/coverage.helix/',
  '/f/setting.temperature-history/',
  ...['/plan/', '/tables/', '/words/', '/search/', '/guides/', '/guides/teach/'],
  ...addresses.filter((address) => close.test(address)),
];
const looks = [
  [390, 'light'],
  [1280, 'dark'],
] as const;
const visits = addresses.flatMap((address, n) =>
  looks
    .filter((_, k) => layouts.includes(address) || k === n % 2)
    .map(([width, scheme]) => ({ address, width, scheme })),
);

test.concurrent.each(visits)(
  '$address is quiet, fits and is accessible at $width px, $scheme',
  async (look) => {
    const { address, width, scheme } = look;
    const context = await open(width, scheme);
    const { page, complaints } = await visit(context, address);

    const over = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(await over()).toBeLessThanOrEqual(0);
    expect(await page.locator('h1').count()).toBe(1);
    if (!alike(address)) {
      const axe = new AxeBuilder({ page }).setLegacyMode().options({ resultTypes: ['violations'] });
      const { violations } = await axe.analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    }

    const ids = await page.locator('[id]').evaluateAll((all) => all.map(({ id }) => id));
    const links = await page
      .locator('a[href]')
      .evaluateAll((all) => all.map((a) => (a as HTMLAnchorElement).href));
    expect(ids.length, 'an id twice').toBe(new Set(ids).size);
    seen.set(address, { ids: new Set(ids), links });

    if (layouts.includes(address))
      await page.screenshot({
        path: join(pictures, `${name(address)}-${width}-${scheme}.png`),
        fullPage: true,
      });
    // The narrowest and the widest screen fit too.
    for (const extreme of [320, 1600]) {
      await page.setViewportSize({ width: extreme, height: 900 });
      expect(await over(), `at ${extreme}`).toBeLessThanOrEqual(0);
    }
    expect(complaints).toEqual([]);
    await context.close();
  },
);

/** Whether a formula's page, opened with these inputs, has an answer. */
function answers(pathname: string, fragment: string): boolean {
  const formula = catalog.find(({ id }) => pathname === `/f/${id}/`);
  if (!formula) return false;
  const { given, unread } = stateOf(formula.inputs as Inputs, fragment);
  return unread.length === 0 && isPossible(() => formula.fromJson(given));
}

/** The order that an address of the planning page holds. */
function chosenIn(hash: string): Fields {
  const state = decode(hash);
  return 'why' in state ? {} : state.order;
}

test('every internal link and anchor resolves', () => {
  const missing = [...seen].flatMap(([from, { links }]) =>
    links
      .filter((link) => link.startsWith(`${site.origin}/`))
      .filter((link) => {
        const { pathname, hash } = new URL(link);
        const target = seen.get(pathname);
        // A file to download is no page.
        if (!pathname.endsWith('/') && pathname !== '/404.html') return !existsSync(join(dist, pathname));
        if (target && tellsInputs(hash)) return !answers(pathname, hash.slice(1));
        // The planning page, opened with a splint or cast chosen, knows it.
        if (target && pathname === '/plan/' && /^#\d/.test(hash)) return typeOf(chosenIn(hash)) === undefined;
        return !target || (hash !== '' && !target.ids.has(decodeURIComponent(hash.slice(1))));
      })
      .map((link) => `${from} to ${link.slice(site.origin.length)}`),
  );
  expect(seen.size).toBe(addresses.length);
  expect([...new Set(missing)]).toEqual([]);
});

test('an address that is none gives the 404 page', async () => {
  const context = await open(1280, 'light');
  const page = await context.newPage();
  const response = await page.goto(`${site.origin}/f/no.such-formula/`);
  expect(response?.status()).toBe(404);
  expect(await page.locator('h1').textContent()).toBe('No such page');
  await context.close();
});

test('the policy is in force: an injected script, style and picture do nothing', async () => {
  const context = await open(1280, 'light');
  const { page, complaints } = await visit(context, '/f/coverage.helix/');
  const colour = await page.evaluate(() => {
    document.body.insertAdjacentHTML(
      'beforeend',
      '<p id="probe" style="color: rgb(1, 2, 3)">x</p><img src="https://example.org/x.png" alt="">',
    );
    const script = document.createElement('script');
    script.textContent = 'document.title = "injected"';
    document.body.append(script);
    return getComputedStyle(document.querySelector('#probe') as Element).color;
  });
  expect(colour).not.toBe('rgb(1, 2, 3)');
  await expect
    .poll(() => complaints.filter((x) => x.includes('Content Security Policy')).length)
    .toBeGreaterThanOrEqual(3);
  expect(await page.title()).not.toBe('injected');
  await context.close();
});

test('nothing jumps while a page loads, and it reads the same without scripts', async () => {
  const context = await open(390, 'light');
  const { page } = await visit(context, '/f/coverage.layer-map/');
  expect(await shiftOf(page)).toBeLessThan(0.02);
  const text = await page.locator('main').textContent();
  await context.close();

  const bare = await browser.newContext({ viewport: { width: 390, height: 900 }, javaScriptEnabled: false });
  const without = await bare.newPage();
  await without.goto(`${site.origin}/f/coverage.layer-map/`);
  expect(await without.locator('main').textContent()).toBe(text);
  await bare.close();
});

test('a keyboard reaches the text by the skip link, and sees where it is', async () => {
  const context = await open(1280, 'light');
  const { page } = await visit(context, '/f/coverage.helix/');
  await page.keyboard.press('Tab');
  const skip = page.locator('.skip');
  expect(await skip.evaluate((link) => link === document.activeElement)).toBe(true);
  expect((await skip.boundingBox())?.y).toBeGreaterThanOrEqual(0);
  await page.keyboard.press('Enter');
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('main');
  await page.keyboard.press('Tab');
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement as Element).outlineStyle);
  expect(outline).toBe('solid');
  await context.close();
});
