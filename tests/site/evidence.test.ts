import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { exercises } from '../../docs-site/src/guides/exercises.ts';
import { launch, serve } from './served.ts';

let site: Awaited<ReturnType<typeof serve>>;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];
let asked: string[];

beforeAll(async () => {
  site = await serve();
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  site?.close();
});

beforeEach(async () => {
  context = await browser.newContext({ viewport: { width: 1280, height: 900 }, reducedMotion: 'reduce' });
  page = await context.newPage();
  complaints = [];
  asked = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => asked.push(new URL(request.url()).pathname));
});

afterEach(async () => {
  await context.close();
  expect(complaints).toEqual([]);
});

const open = (address: string) => page.goto(site.origin + address);

describe('search', () => {
  const status = () => page.locator('header site-search [role=status]');
  const results = () => page.locator('header site-search li a');
  const field = () => page.locator('#site-search');

  test('finds by keyboard alone; its code and its index are loaded when it is first turned to', async () => {
    const search = /site-search|minisearch|search\.json/;
    await open('/words/');
    await page.waitForLoadState('networkidle');
    const where = await page.locator('h1').boundingBox();
    expect(asked.filter((path) => search.test(path))).toEqual([]);
    await field().focus();
    await page.keyboard.type('overlap for the layers');
    await results().first().waitFor();
    expect(await page.locator('h1').boundingBox()).toEqual(where);
    expect(asked.filter((path) => path === '/search.json').length).toBe(1);
    expect(await results().first().textContent()).toBe('Overlap for the layers wanted');
    expect(await status().textContent()).toMatch(/^\d+ results?$/);

    await page.keyboard.press('ArrowDown');
    expect(
      await results()
        .first()
        .evaluate((link) => link === document.activeElement),
    ).toBe(true);
    await page.keyboard.press('ArrowUp');
    expect(await field().evaluate((input) => input === document.activeElement)).toBe(true);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.waitForURL('**/f/coverage.overlap-for/');
  });

  test('says when there is nothing, and Escape clears it', async () => {
    await open('/');
    await field().fill('zzqx');
    await expect.poll(() => status().textContent()).toBe('Nothing found for “zzqx”');
    expect(await results().count()).toBe(0);
    await page.keyboard.press('Escape');
    expect(await field().inputValue()).toBe('');
    expect(await status().textContent()).toBe('');
  });

  test('finds words, splints, sources, rows and the API, and forgives a slip', async () => {
    await open('/search/');
    const all = page.locator('#search-all');
    for (const [typed, found] of [
      ['olecranon', '/words/#olecranon'],
      ['sugar-tong forearm', '/immobilisations/forearm-sugar-tong/'],
      ['lavalette', '/sources/#lavalette-1982-setting'],
      ['recheck', '/api/swathe/#recheck'],
      ['stockinete', '/words/#stockinette'],
    ] as const) {
      await all.fill(typed);
      await page.locator(`main site-search a[href="${found}"]`).waitFor();
    }
  });

  test('Enter opens the page of all results, which the address names', async () => {
    await open('/');
    await field().fill('padding');
    await results().first().waitFor();
    await page.keyboard.press('Enter');
    await page.waitForURL('**/search/#q=padding');
    await page.locator('main site-search li a').nth(9).waitFor();
    expect(await page.locator('#search-all').inputValue()).toBe('padding');
  });
});

describe('the page of checks', () => {
  const shown = () => page.locator('tr[data-state]:visible').count();

  test('shows the rows that fit what is chosen, and the address tells what was', async () => {
    await open('/checks/');
    const all = await shown();
    await page.selectOption('select[name=state]', 'deviates');
    const deviating = await shown();
    expect(deviating).toBe(await page.locator('tr[data-state=deviates]').count());
    expect(deviating).toBeLessThan(all);
    await page.selectOption('select[name=kind]', 'measured');
    expect(await shown()).toBe(await page.locator('tr[data-state=deviates][data-kind=measured]').count());
    expect(await page.evaluate(() => location.hash)).toBe('#state=deviates&kind=measured');
    expect(await page.locator('check-filter [role=status]').textContent()).toBe(
      `${await shown()} rows shown`,
    );

    await page.selectOption('select[name=state]', 'fails');
    expect(await shown()).toBe(0);
    expect(await page.locator('check-filter [role=status]').textContent()).toBe('No row fits');

    await open('/');
    await open('/checks/#status=read&formula=setting.dip-water');
    expect(await shown()).toBe(
      await page.locator('[data-formula="setting.dip-water"] tr[data-status=read]').count(),
    );
    expect(await page.locator('select[name=status]').inputValue()).toBe('read');
  });
});

describe('exercises', () => {
  const question = (n: number) => page.locator('[data-part=questions] li').nth(n).textContent();

  test('follow the set that the address names, and another set has other numbers', async () => {
    await open('/guides/teach/#set=42');
    await expect.poll(() => question(0)).toBe(exercises(42)[0]?.question);
    await page.locator('lesson-exercises summary').click();
    expect(await page.locator('[data-part=answers] strong').allTextContents()).toEqual(
      exercises(42).map(({ result }) => result),
    );
    await page.locator('lesson-exercises button').click();
    const set = Number((await page.evaluate(() => location.hash)).replace('#set=', ''));
    expect(await question(2)).toBe(exercises(set)[2]?.question);

    await page.locator('lesson-exercises input').fill('0');
    await page.keyboard.press('Tab');
    expect(await page.locator('lesson-exercises [role=status]').textContent()).toMatch(/whole number/);
  });

  test('lead to their formula’s page with the numbers filled in, and the page works out the same', async () => {
    await open('/guides/teach/');
    const links = await page
      .locator('[data-part=answers] a')
      .evaluateAll((all) => all.map((link) => link.getAttribute('href')));
    const set = exercises(1);
    expect(links.length).toBe(set.length);
    for (const n of [0, 2, 5]) {
      await open('/');
      await open(links[n] ?? '');
      await page.locator('try-formula[data-value]').waitFor({ state: 'attached' });
      const value = await page.locator('try-formula').getAttribute('data-value');
      expect(JSON.parse(value ?? '')).toEqual(set[n]?.answer.value);
    }
  });

  test('answers are printed when they are open, and only then', async () => {
    await open('/guides/teach/');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('[data-part=answers]').isVisible()).toBe(false);
    expect(await page.locator('[data-part=questions]').isVisible()).toBe(true);
    expect(await page.locator('lesson-exercises button').isVisible()).toBe(false);
    await page.locator('details.answers').evaluate((details) => details.setAttribute('open', ''));
    expect(await page.locator('[data-part=answers]').isVisible()).toBe(true);
  });
});

test('without scripts the rows and the exercises are all there, and search is a page with a list', async () => {
  const bare = await browser.newContext({ javaScriptEnabled: false });
  const without = await bare.newPage();
  await without.goto(`${site.origin}/checks/`);
  expect(await without.locator('tr[data-state]:visible').count()).toBe(
    await without.locator('tr[data-state]').count(),
  );
  expect(await without.locator('check-filter').isVisible()).toBe(false);
  expect(await without.locator('#site-search').isVisible()).toBe(false);
  await without.locator('header').getByRole('link', { name: 'Search' }).click();
  expect(await without.locator('main a[href="/f/coverage.helix/"]').isVisible()).toBe(true);
  await without.goto(`${site.origin}/guides/teach/`);
  expect(await without.locator('[data-part=questions] li').count()).toBe(exercises(1).length);
  expect(await without.locator('lesson-exercises button').isVisible()).toBe(false);
  await bare.close();
});
