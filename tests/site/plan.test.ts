import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { applicationPlan, digits12, orderTemplate } from 'swathe';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { decode, encode, type Fields, type State, startFrom } from '../../docs-site/src/plan/state.ts';
import { orderOf } from '../plan/cases.ts';
import { launch, serve } from './served.ts';

let site: Awaited<ReturnType<typeof serve>>;
let browser: Browser;
let opened: BrowserContext[] = [];
const pictures = join(import.meta.dirname, '../output/site');

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  site = await serve();
  browser = await launch();
});

afterEach(async () => {
  await Promise.all(opened.map((context) => context.close()));
  opened = [];
});

afterAll(async () => {
  await browser?.close();
  site?.close();
});

interface Visit {
  readonly context: BrowserContext;
  readonly page: Page;
  /** What the browser had to complain of: console, policy, failed or foreign requests. */
  readonly complaints: string[];
}

async function open(fragment = '', width = 390, colorScheme: 'light' | 'dark' = 'light'): Promise<Visit> {
  const context = await browser.newContext({
    viewport: { width, height: 844 },
    colorScheme,
    reducedMotion: 'reduce',
    hasTouch: width < 500,
  });
  opened.push(context);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(error.message));
  context.on('request', (request) => {
    if (!request.url().startsWith(`${site.origin}/`) && !request.url().startsWith('blob:'))
      complaints.push(`elsewhere: ${request.url()}`);
  });
  await page.goto(`${site.origin}/plan/${fragment && `#${fragment}`}`);
  await page.locator('swathe-plan .job').waitFor();
  return { context, page, complaints };
}

const stateOf = (name: string): State => ({
  order: orderOf(name) as unknown as Fields,
  units: 'cm',
  confirmed: true,
});
const cases = ['posterior-ankle-slab', 'short-leg-cast'] as const;

/** Numbers at the digits on which every runtime agrees. */
const agreed = (json: string): unknown =>
  JSON.parse(json, (_, x) => (typeof x === 'number' ? digits12(x) : x));

async function downloaded(page: Page): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Download plan as JSON' }).click(),
  ]);
  return readFileSync(await download.path(), 'utf8');
}

/** How many pages a PDF has, by the objects in it. */
const pagesIn = (pdf: Buffer): number =>
  (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;

const tooWide = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

describe('what stands in the address', () => {
  test.each(cases)('%s comes back as it went', (name) => {
    const state = stateOf(name);
    expect(decode(`#${encode(state)}`)).toEqual(state);
    expect(encode(state)).toMatch(/^1\.[\w-]+$/);
  });

  test('an order half told comes back half told, in any letters', () => {
    const state: State = {
      order: { side: 'left', stockinette: [{ what: 'Füße, 足' }], stock: [] },
      units: 'in',
      confirmed: false,
    };
    expect(decode(encode(state))).toEqual(state);
    expect(encode({ order: {}, units: 'cm', confirmed: false })).toBe('');
  });

  test.each([
    ['formulas', 'not the record of an order'],
    ['7.e30', 'version 7'],
    [encode(stateOf(cases[0])).slice(0, 101), 'copy the whole link'],
    ['1.W10', 'holds no order'],
  ])('%s says why it cannot be read', (fragment, why) => {
    expect(decode(fragment)).toMatchObject({ why: expect.stringContaining(why) });
  });

  test('the template fills in nothing that is measured', () => {
    const before: State = { order: {}, units: 'cm', confirmed: false };
    const { order } = startFrom(before, { immobilisation: 'volar-slab', material: 'fast plaster' });
    expect(JSON.stringify(order)).not.toMatch(/"girth"|"length"|"path"|"onHand"|"dip"|"room"/);
    const { segments } = orderTemplate('volar-slab', 'plaster');
    expect((order['limb'] as Fields[]).map((s) => s['name'])).toEqual(segments.map((s) => s.name));
  });
});

describe.each(cases)('%s by its address', (name) => {
  test('gives the plan that the library gives', async () => {
    const { page, complaints } = await open(encode(stateOf(name)));
    await page.locator('.plan-sheet').waitFor();
    const expected = JSON.stringify(applicationPlan.fromJson(orderOf(name)));
    expect(agreed(await downloaded(page))).toEqual(agreed(expected));
    expect(complaints).toEqual([]);
  });

  test.each(['A4', 'Letter'])('prints on one sheet of %s, with what a technologist needs', async (format) => {
    const { page } = await open(encode(stateOf(name)), 1280, 'dark');
    await page.locator('.plan-sheet').waitFor();
    await page.evaluate(() => document.fonts.ready);
    expect(pagesIn(await page.pdf({ format }))).toBe(1);
    await page.emulateMedia({ media: 'print' });
    // biome-ignore lint/performance/useDomNodeTextContent: what paper shows is wanted, not all that the page holds
    const text = await page.locator('body').evaluate((body: HTMLElement) => body.innerText);
    for (const word of ['local protocol decide', 'Cautions', 'Position', 'Cut', 'Rolls to open', 'Layers'])
      expect(text).toContain(word);
    for (const word of [
      'Water and time',
      'Heat of setting',
      'Call the treating clinician',
      'Tell the person',
    ])
      expect(text).toContain(word);
    expect(text).not.toMatch(/Copy link|Start\b|Back\b/);
  });
});

test.each(['child-volar-slab', 'thumb-spica-slab'])('%s prints on one sheet too', async (name) => {
  const { page } = await open(encode(stateOf(name)), 1280);
  await page.locator('.plan-sheet').waitFor();
  await page.evaluate(() => document.fonts.ready);
  for (const format of ['A4', 'Letter']) expect(pagesIn(await page.pdf({ format })), format).toBe(1);
});

describe('what is entered', () => {
  /** Goes on with the Tab key to what has a name, as a person without a mouse does. */
  async function tabTo(page: Page, name: RegExp): Promise<void> {
    for (let n = 0; n < 160; n++) {
      await page.keyboard.press('Tab');
      const found = await page.evaluate(() => {
        const active = document.activeElement as HTMLElement | null;
        const label = active?.id ? document.querySelector(`label[for="${CSS.escape(active.id)}"]`) : null;
        return (
          label?.textContent ??
          active?.getAttribute('aria-label') ??
          active?.closest('label')?.textContent ??
          active?.textContent ??
          ''
        );
      });
      if (name.test(found)) return;
    }
    throw new Error(`the Tab key never reached ${name}`);
  }

  test('a keyboard alone gets from nothing to a plan', async () => {
    const { page, complaints } = await open('', 1280);
    const { keyboard } = page;
    await tabTo(page, /^Arm$/);
    await keyboard.press('Space');
    await tabTo(page, /^Slab$/);
    await keyboard.press('Space');
    await tabTo(page, /^Volar forearm slab$/);
    await keyboard.press('Enter');
    for (const choice of [/^Left$/, /^Extra-fast plaster$/]) {
      await tabTo(page, choice);
      await keyboard.press('Space');
    }
    await keyboard.press('ArrowDown');
    await tabTo(page, /^Infant$/);
    await keyboard.press('Space');
    for (let n = 0; n < 3; n++) await keyboard.press('ArrowDown');
    await tabTo(page, /^No$/);
    await keyboard.press('Space');
    await tabTo(page, /^Next$/);
    await keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Limb');
    for (const [name, value] of [
      [/Length of the hand/, '9'],
      [/Girth 2.cm distal/, '19,5'],
      [/Length of the forearm/, '13'],
      [/Girth at the wrist crease/, '16.5'],
      [/Girth at place 3/, '20'],
      [/Girth 2.cm proximal/, '24'],
      [/along the way it will lie/, '22'],
    ] as const) {
      await tabTo(page, name);
      await keyboard.type(value);
    }
    // The place of a girth part of the way follows from the length, to a whole centimetre.
    expect(await page.getByRole('textbox', { name: /Place 3/ }).inputValue()).toBe('7');
    await tabTo(page, /^Next$/);
    await keyboard.press('Enter');
    for (const [name, value] of [
      [/^Width$/, '10'],
      [/On a roll/, '2.75'],
      [/^Rolls$/, '6'],
      [/On a roll/, '2.75'],
      [/^Rolls$/, '6'],
      [/On a roll/, '2.4'],
      [/^Rolls$/, '6'],
      [/^Width$/, '7.5'],
      [/On a roll/, '20'],
      [/^Rolls$/, '1'],
      [/^Dip water$/, '22'],
      [/^Room$/, '21'],
    ] as const) {
      await tabTo(page, name);
      await keyboard.type(value);
    }
    await tabTo(page, /^Next$/);
    await keyboard.press('Enter');
    await page.getByText('Confirm the starting points').waitFor();
    await tabTo(page, /I have looked at these/);
    await keyboard.press('Space');
    await page.locator('.plan-sheet').waitFor();
    expect(await page.locator('.plan-sheet .what').textContent()).toBe(
      'Volar forearm slab left, adult, fast plaster',
    );
    const plan = JSON.parse(await downloaded(page)) as { takeOff: { value: { lines: { kind: string }[] } } };
    expect(plan.takeOff.value.lines.map((line) => line.kind)).toEqual(['taken', 'taken', 'taken', 'taken']);
    expect(complaints).toEqual([]);

    // What was typed is in the address, and the address alone brings the plan back.
    const again = await open(new URL(page.url()).hash.slice(1), 1280);
    await again.page.locator('.plan-sheet').waitFor();
    expect(JSON.parse(await downloaded(again.page))).toEqual(plan);
  });

  test('a fault is told at its field, in the unit of the field, and the plan waits', async () => {
    const { page } = await open(encode(stateOf('posterior-ankle-slab')));
    await page.locator('.plan-sheet').waitFor();
    await page.getByRole('button', { name: /^Limb/ }).click();
    const girth = page.getByRole('textbox', { name: /Girth at the fibular head/ });
    await girth.fill('2');
    await girth.blur();
    const described = (await girth.getAttribute('aria-describedby'))?.split(' ').at(-1);
    await expect
      .poll(() => page.locator(`#${described}`).textContent())
      .toMatch(/^Got 2\u00a0cm; possible: .*\u00a0cm\.$/);
    expect(await girth.getAttribute('aria-invalid')).toBe('true');
    expect(await page.locator('.plan-sheet').count()).toBe(0);
    await girth.fill('34.5');
    await page.locator('.plan-sheet').waitFor({ state: 'attached' });
  });

  test('figures of eight can be added over a joint, changed and taken away', async () => {
    const { page, complaints } = await open(encode(stateOf('thumb-spica-slab')), 1280);
    await page.locator('.plan-sheet').waitFor();
    await page.getByRole('button', { name: /^Technique/ }).click();
    const card = page.locator('details.wrap').first();
    await card.locator('summary').first().click();
    await card
      .getByRole('button', { name: /^Add figures of eight at the/ })
      .first()
      .click();
    const figures = card.getByRole('textbox', { name: 'Figures', exact: true });
    expect(await figures.evaluate((field) => field === document.activeElement)).toBe(true);
    await expect.poll(() => page.locator('.status').textContent()).toBe('3 still needed');
    await figures.fill('2');
    await card.getByRole('textbox', { name: 'Rise at the back, distal cm' }).fill('3');
    const proximal = card.getByRole('textbox', { name: 'Rise at the back, proximal cm' });
    await proximal.fill('4');
    await expect.poll(() => page.locator('.status').textContent()).toBe('Plan ready');

    const { order } = decode(new URL(page.url()).hash) as State;
    const given = applicationPlan.fromJson(order);
    expect(given.wraps[0]?.eights[0]?.from).toMatchObject({
      riseAbove: { value: 40, unit: 'mm' },
      riseBelow: { value: 30, unit: 'mm' },
      figures: 2,
    });
    expect(agreed(await downloaded(page))).toEqual(agreed(JSON.stringify(given)));

    await proximal.fill('99');
    await proximal.blur();
    await expect
      .poll(() => card.locator('.fault:not(:empty)').textContent())
      .toBe('Got 99\u00a0cm; possible: 0 to 60\u00a0cm.');
    await card.getByRole('button', { name: /^Take away: figures of eight/ }).click();
    await expect.poll(() => page.locator('.status').textContent()).toBe('Plan ready');
    expect(JSON.stringify(decode(new URL(page.url()).hash))).not.toContain('eights');
    expect(complaints).toEqual([]);
  });

  test('a splint’s page leads here with that splint chosen', async () => {
    const { page, complaints } = await open();
    await page.goto(`${site.origin}/immobilisations/volar-slab/`);
    await page.getByRole('link', { name: 'Plan this slab' }).click();
    await page.locator('.chosen-type').waitFor();
    expect(await page.locator('.type-name').textContent()).toBe('Volar forearm slab');
    await page.locator('label', { hasText: /^Left$/ }).click();
    await page.locator('label', { hasText: /^Fast plaster$/ }).click();
    await page.getByRole('button', { name: /^Limb/ }).click();
    expect(await page.getByRole('textbox', { name: 'Length of the forearm cm' }).isVisible()).toBe(true);
    expect(complaints).toEqual([]);
  });

  test('inches and centimetres say the same limb', async () => {
    const { page } = await open(encode(stateOf('posterior-ankle-slab')));
    await page.locator('.plan-sheet').waitFor();
    await page.locator('label', { hasText: 'in, °F' }).click();
    await page.getByRole('button', { name: /^Limb/ }).click();
    expect(await page.getByRole('textbox', { name: /Length of the leg/ }).inputValue()).toBe('14.1732');
    await page.getByRole('button', { name: /^Materials/ }).click();
    expect(await page.getByRole('textbox', { name: 'Dip water' }).inputValue()).toBe('73.4');
    await page.getByRole('button', { name: /^Plan/ }).click();
    const drawing = page.locator('.plan-sheet .figures figure').first();
    expect(await drawing.locator('svg').textContent()).toMatch(/\/ in(?![a-z])/);
    const expected = JSON.stringify(applicationPlan.fromJson(orderOf('posterior-ankle-slab')));
    expect(agreed(await downloaded(page))).toEqual(agreed(expected));
  });

  test('a link that cannot be read explains itself, and the page works on', async () => {
    const { page, complaints } = await open('1.bm90IGpzb24');
    expect(await page.getByRole('alert').textContent()).toContain('copy the whole link');
    await page.locator('label', { hasText: /^Leg$/ }).click();
    await page.locator('label', { hasText: /^Cast$/ }).click();
    await page.getByRole('button', { name: 'Short-leg cast' }).click();
    expect(decode(new URL(page.url()).hash)).toMatchObject({ order: { immobilisation: 'short-leg-cast' } });
    expect(complaints).toEqual([]);
  });
});

test('the clock tells elapsed time and nothing else, and stops', async () => {
  const { page } = await open(encode(stateOf('posterior-ankle-slab')));
  const time = page.getByRole('timer');
  await time.waitFor();
  expect(await time.getAttribute('aria-live')).toBe('off');
  const looks = () =>
    time.evaluate((of) => [getComputedStyle(of).color, getComputedStyle(of).backgroundColor, of.className]);
  const before = await looks();
  await page.getByRole('button', { name: 'Start' }).click();
  await expect.poll(() => time.textContent(), { timeout: 5000 }).toMatch(/^00:0[1-9]$/);
  expect(await looks()).toEqual(before);
  await page.getByRole('button', { name: 'Stop' }).click();
  const stopped = await time.textContent();
  await page.waitForTimeout(1200);
  expect(await time.textContent()).toBe(stopped);
});

describe.each([
  [390, 'light'],
  [390, 'dark'],
  [1280, 'light'],
  [1280, 'dark'],
] as const)('at %i px, %s', (width, scheme) => {
  test('every step is accessible, fits, and has targets for a gloved finger', async () => {
    const { page, complaints } = await open(encode(stateOf('thumb-spica-slab')), width, scheme);
    await page.locator('.plan-sheet').waitFor();
    for (const step of ['Order', 'Limb', 'Materials', 'Technique', 'Plan']) {
      await page
        .getByRole('button', { name: new RegExp(`^${step}\\b`) })
        .first()
        .click();
      for (const details of await page.locator('details:visible').all())
        await details.evaluate((of) => of.setAttribute('open', ''));
      const { violations } = await new AxeBuilder({ page })
        .include('main')
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
        .setLegacyMode()
        .analyze();
      expect(violations.map(({ id, nodes }) => `${step}: ${id}: ${nodes[0]?.html}`)).toEqual([]);
      expect(await tooWide(page), step).toBeLessThanOrEqual(0);
      const small = await page
        .locator('swathe-plan :is(button, input, select, summary):visible')
        .evaluateAll((all) =>
          all
            .map((of) => [of.getBoundingClientRect(), of.outerHTML.slice(0, 80)] as const)
            .filter(([{ height, width }]) => height < 44 || width < 44)
            .map(([{ height, width }, html]) => `${width} by ${height}: ${html}`),
        );
      expect(small, step).toEqual([]);
      await page.screenshot({ path: join(pictures, `plan-${step}-${width}-${scheme}.png`), fullPage: true });
    }
    expect(complaints).toEqual([]);
  });

  test('an empty page says what is needed, and is accessible', async () => {
    const { page } = await open('', width, scheme);
    await page.locator('label', { hasText: /^Arm$/ }).click();
    await page.locator('label', { hasText: /^Slab$/ }).click();
    const { violations } = await new AxeBuilder({ page }).include('main').setLegacyMode().analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    await page.getByRole('button', { name: /^Plan/ }).click();
    expect(await page.locator('.needed').textContent()).toContain('Splint or cast that is ordered');
    expect(await tooWide(page)).toBeLessThanOrEqual(0);
  });
});

test('after the first load it works without a network, down to the plan', async () => {
  const { context, page } = await open();
  await page.evaluate(() => navigator.serviceWorker.ready);
  await expect
    .poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null), { timeout: 20_000 })
    .toBe(true);
  await context.setOffline(true);
  await page.goto(`${site.origin}/plan/#${encode(stateOf('posterior-ankle-slab'))}`);
  await page.reload();
  await page.locator('.plan-sheet').waitFor();
  expect(await page.locator('.plan-sheet .what').textContent()).toContain('Posterior ankle slab');
  await page.goto(`${site.origin}/f/coverage.layer-map/`);
  expect(await page.locator('h1').count()).toBe(1);
});

test('words that would judge are nowhere on the page', async () => {
  for (const name of ['posterior-ankle-slab', 'short-leg-cast', 'child-volar-slab', 'thumb-spica-slab']) {
    const { page } = await open(encode(stateOf(name)), 1280);
    await page.locator('.plan-sheet').waitFor();
    const text = (await page.locator('main').textContent()) ?? '';
    expect(text).not.toMatch(/\b(safe|safely|low risk|critical|danger)\b/i);
  }
});
