import { AxeBuilder } from '@axe-core/playwright';
import { csvParse } from 'd3-dsv';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { type AnyFormula, helix, inch, mm, ratio } from 'swathe';
import type { Fields } from 'swathe/definition';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fragmentOf, stateOf } from '../../docs-site/src/client/fragment.ts';
import { disagreement, formulas, samplesOf, wireOf } from '../generators.ts';
import { launch, serve, shiftOf } from './served.ts';

let site: Awaited<ReturnType<typeof serve>>;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[] = [];

beforeAll(async () => {
  site = await serve();
  browser = await launch();
  context = await browser.newContext({ viewport: { width: 1280, height: 900 }, reducedMotion: 'reduce' });
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  page = await context.newPage();
  page.on('console', (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    if (!/^(blob:)?http:\/\/127\.0\.0\.1/.test(request.url())) complaints.push(`elsewhere: ${request.url()}`);
  });
});

afterAll(async () => {
  await browser?.close();
  site?.close();
});

type Given = Readonly<Record<string, unknown>>;
const panel = () => page.locator('try-formula');
const fieldsOf = (formula: AnyFormula): Fields => formula.inputs as Fields;

async function open(id: string, fragment = '', ready = true): Promise<void> {
  complaints = [];
  await page.goto('about:blank');
  await page.goto(`${site.origin}/f/${id}/${fragment}`);
  if (ready) await page.locator('try-formula[data-ready]').waitFor({ state: 'attached' });
}

/** The value that the panel shows, all its digits. */
async function value(): Promise<unknown> {
  await page.locator('try-formula[data-value]').waitFor({ state: 'attached' });
  return JSON.parse((await panel().getAttribute('data-value')) ?? '');
}

const hash = (): Promise<string> => page.evaluate(() => location.hash);
/** JSON has no word for what is left out. */
const asJson = (x: unknown): unknown => JSON.parse(JSON.stringify(x));

describe.each(formulas)('$id', ({ id, formula }) => {
  test('the page computes what the library computes, and its address tells the inputs', async () => {
    const [first, second] = samplesOf(formula, 2).map((inputs) => wireOf(formula, inputs) as Given);
    const fragmentFor = (given: Given): string => `#${fragmentOf(fieldsOf(formula), { given, units: {} })}`;
    const told = async (given: Given): Promise<string> => {
      const expected = asJson(formula.fromJson(given).value);
      // What is nought but for its last bits has no digits to compare.
      expect(disagreement(await value(), expected, 1e-3)).toBeUndefined();
      expect(await panel().locator('.fault:not(:empty)').count()).toBe(0);
      const written = await hash();
      const read = stateOf(fieldsOf(formula), written.slice(1));
      expect(asJson(read.given)).toEqual(asJson(given));
      return written;
    };
    await open(id, fragmentFor(first as Given));
    const written = await told(first as Given);
    // Another address in the open page, and back to the one that the page wrote.
    const go = (to: string) =>
      page.evaluate((to) => {
        document.querySelector('try-formula')?.removeAttribute('data-value');
        location.hash = to;
      }, to);
    await go(fragmentFor(second as Given));
    await told(second as Given);
    await go(written);
    expect(await told(first as Given)).toBe(written);
    expect(complaints).toEqual([]);
  });
});

test('a page that is just opened shows the worked example, and nothing moves when the panel wakes', async () => {
  await open('coverage.helix');
  const expected = helix({ girth: mm(200), width: mm(75), overlap: ratio(0.6) }).value;
  expect(disagreement(await value(), expected)).toBeUndefined();
  expect(await hash()).toBe('');
  // The font of the mathematics may come a moment after the text.
  expect(await shiftOf(page)).toBeLessThan(0.01);
});

test('keys alone change a value, move a slider and choose units; answer, figure and address follow', async () => {
  await open('coverage.helix');
  const drawn = await page.locator('.sheet svg').innerHTML();
  await page.locator('#in-girth').focus();
  await page.keyboard.press('ControlOrMeta+A');
  await page.keyboard.type('25,5');
  await expect.poll(hash).toContain('girth=25.5cm');
  expect(
    disagreement(await value(), helix({ girth: mm(255), width: mm(75), overlap: ratio(0.6) }).value),
  ).toBe(undefined);
  expect(await page.locator('.sheet svg').innerHTML()).not.toBe(drawn);

  await page.keyboard.press('Tab');
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute('data-for'));
  expect(await focused()).toBe('girth');
  expect(await page.locator(':focus').getAttribute('aria-valuetext')).toBe('25.5\u00a0cm');
  await page.keyboard.press('ArrowRight');
  await expect.poll(hash).toContain('girth=26cm');
  expect(await page.locator('#in-girth').inputValue()).toBe('26');

  await page.locator('.units input[value="cm"]').focus();
  await page.keyboard.press('ArrowRight');
  await expect.poll(hash).toContain('units=in');
  expect(await page.locator('#in-girth').inputValue()).toBe('10.2362');
  expect(await page.locator('.answer').textContent()).toContain('\u00a0in');
  // What was entered stays what it was, however it is shown.
  expect(
    disagreement(await value(), helix({ girth: mm(260), width: mm(75), overlap: ratio(0.6) }).value),
  ).toBe(undefined);
  await page.locator('#in-girth').fill('9');
  await expect.poll(hash).toContain('girth=9in');
  expect(
    disagreement(await value(), helix({ girth: inch(9), width: mm(75), overlap: ratio(0.6) }).value),
  ).toBe(undefined);
  await expect.poll(() => page.locator('.said').textContent()).toContain('advance along the limb per turn');
});

test('what cannot be is explained beside its field, in the unit shown, and is no answer', async () => {
  await open('coverage.helix');
  const girth = page.locator('#in-girth');
  const fault = page.locator('#in-girth-fault');
  await girth.fill('2');
  await expect.poll(() => fault.textContent()).toBe('Got 2\u00a0cm; possible: 3 to 120\u00a0cm.');
  expect(await girth.getAttribute('aria-invalid')).toBe('true');
  expect(await girth.getAttribute('aria-describedby')).toContain('in-girth-fault');
  expect(await panel().getAttribute('data-value')).toBeNull();
  expect(await page.locator('.said').textContent()).toContain('No answer');
  expect(await page.locator('[data-copy="code"]').isDisabled()).toBe(true);

  await girth.fill('wide');
  await expect.poll(() => fault.textContent()).toBe('Got "wide"; possible: 3 to 120\u00a0cm.');
  await girth.fill('');
  await expect.poll(() => fault.textContent()).toBe('Nothing is given; possible: 3 to 120\u00a0cm.');
  await girth.fill('5');
  await page.locator('#in-width').fill('20');
  await page.locator('#in-overlap').fill('0');
  await expect.poll(() => page.locator('.fault:not(:empty)').count()).toBe(1);
  expect(await page.locator('#in-overlap-fault').textContent()).toContain('turns closer together');
  await page.locator('#in-width').fill('4');
  await value();
  expect(await page.locator('[aria-invalid]').count()).toBe(0);
});

test('an address that is wrong says what of it is, and one of another version says that', async () => {
  await open('coverage.helix', '#v1&girth=1cm&width=7.5cm&overlap=50pct&turns=6');
  expect(await page.locator('.unread').textContent()).toContain('turns=6');
  expect(await page.locator('#in-girth-fault').textContent()).toBe(
    'Got 1\u00a0cm; possible: 3 to 120\u00a0cm.',
  );
  await open('coverage.helix', '#v9&girth=20cm');
  expect(await page.locator('.unread').textContent()).toContain('another version');
  expect(await page.locator('#in-width-fault').textContent()).toBe(
    'Nothing is given; possible: 1 to 50\u00a0cm.',
  );
  await open('coverage.helix', '#v1&girth=1cm&width=7.5cm&overlap=50pct&units=in');
  expect(await page.locator('#in-girth-fault').textContent()).toBe(
    'Got 0.393701\u00a0in; possible: 1.1811 to 47.2441\u00a0in.',
  );
});

test('lists grow and shrink, parts come and go, and the focus stays', async () => {
  await open('coverage.layer-map');
  await page.locator('[data-add="stations"]').click();
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('in-stations-3-at');
  await page.keyboard.type('25');
  await page.locator('#in-stations-3-girth').fill('28');
  await expect.poll(hash).toContain('(25cm,28cm)');
  await page.locator('[data-remove="stations.3"]').click();
  await expect.poll(hash).not.toContain('(25cm,28cm)');
  expect(await page.evaluate(() => document.activeElement?.getAttribute('data-add'))).toBe('stations');
  await page.locator('#in-stations-2-at').fill('5');
  await expect
    .poll(() => page.locator('#in-stations-fault').textContent())
    .toContain('station 3 at 50\u00a0mm');

  await open('setting.temperature-history');
  await page.locator('#in-overwrap-given').check();
  await expect
    .poll(() => page.locator('#in-overwrap-layers-fault').textContent())
    .toContain('Nothing is given');
  await page.locator('#in-overwrap-after').fill('20');
  await page.locator('#in-overwrap-layers').fill('3');
  await expect.poll(hash).toContain('overwrap=20min,3');
  await page.locator('#in-body-kind').selectOption('tube');
  await expect.poll(() => page.locator('#in-body-wall').count()).toBe(1);
  await page.locator('.units input[value="F"]').check();
  expect(Number(await page.locator('#in-dip').inputValue())).toBeCloseTo(75.2, 6);
});

test('code, JSON, a row and the address can be copied; the figure and its numbers can be saved', async () => {
  await open('coverage.helix', '#v1&girth=20cm&width=3in&overlap=60pct');
  const copied = async (what: string): Promise<string> => {
    const button = page.locator(`[data-copy="${what}"]`);
    await button.click();
    const says = (await button.textContent())?.trim();
    await expect.poll(() => page.locator('.said.seen').textContent()).toBe(`Copied: ${says}.`);
    return page.evaluate(() => navigator.clipboard.readText());
  };
  expect(await copied('code')).toBe(
    "import { helix, cm, inch, percent } from 'swathe';\n\nhelix({ girth: cm(20), width: inch(3), overlap: percent(60) });\n",
  );
  const wire = JSON.parse(await copied('json'));
  expect(disagreement(helix.fromJson(wire).value, await value())).toBeUndefined();
  const [row] = csvParse(await copied('csv'));
  expect(row?.['girth [cm]']).toBe('20');
  expect(Number(row?.['value.advance [mm]'])).toBeCloseTo(helix.fromJson(wire).value.advance, 9);
  expect(JSON.parse(await copied('record'))).toEqual(asJson(helix.fromJson(wire)));
  expect(await copied('link')).toBe(await page.evaluate(() => location.href));

  const saved = async (what: string): Promise<string> => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.locator(`[data-save="${what}"]`).click(),
    ]);
    expect(download.suggestedFilename()).toBe(`coverage-helix.${what}`);
    const parts: Buffer[] = [];
    for await (const part of await download.createReadStream()) parts.push(part as Buffer);
    return Buffer.concat(parts).toString('utf8');
  };
  const svg = await saved('svg');
  expect(svg).toContain('<desc>The skin rolled out flat');
  const alone = await context.newPage();
  await alone.goto(`data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}`);
  const fill = await alone.evaluate(() => getComputedStyle(document.querySelector('.strip') as Element).fill);
  expect(fill).toBe('rgb(150, 67, 31)');
  await alone.close();
  expect(csvParse(await saved('csv'))).toHaveLength(6);
  expect(complaints).toEqual([]);
});

test('an answer that a later question has overtaken is not shown', async () => {
  await open('setting.temperature-band');
  await value();
  const shown = await page.evaluate(async () => {
    const panel = document.querySelector('try-formula') as HTMLElement;
    const field = document.querySelector('#in-room') as HTMLInputElement;
    let count = 0;
    await new Promise<void>((resolve) => {
      new MutationObserver(() => {
        if (panel.dataset['value'] === undefined) return;
        count += 1;
        if (location.hash.includes('room=26C')) resolve();
      }).observe(panel, { attributeFilter: ['data-value'] });
      for (const degrees of ['24', '25', '26']) {
        field.value = degrees;
        field.dispatchEvent(new Event('input', { bubbles: true }));
      }
    });
    return count;
  });
  expect(shown).toBe(1);
});

test('a worker that does not load is said, and the old answer is plainly old', async () => {
  await page.route('**/worker-*.js', (route) => route.abort());
  await open('coverage.helix', '#v1&girth=20cm&width=3in&overlap=60pct', false);
  await expect.poll(() => page.locator('.said').textContent()).toContain('could not be worked out');
  expect(await panel().getAttribute('class')).toContain('stale');
  await page.unroute('**/worker-*.js');
});

test('on paper the controls are gone, and the checks that are folded on a screen are open', async () => {
  await open('coverage.helix');
  const row = page.locator('.fold .checks tbody tr').first();
  const shown = () => row.evaluate((tr) => tr.checkVisibility());
  expect(await shown()).toBe(false);
  await page.emulateMedia({ media: 'print' });
  expect(await shown()).toBe(true);
  expect(await page.locator('[data-copy="code"]').isVisible()).toBe(false);
  expect(await page.locator('#in-girth').isVisible()).toBe(true);
  await page.emulateMedia({ media: null });
});

describe.each(['light', 'dark'] as const)('used, in the %s theme', (colorScheme) => {
  test.each([
    ['coverage.helix', '#v1&girth=1cm&width=7.5cm&overlap=60pct&units=in'],
    ['coverage.layer-map', '#v1&stations=(0cm,17cm),(10cm,)&from=0cm&to=20cm'],
    ['setting.heat-caution', ''],
    ['roll.cutting-plan', ''],
  ])('%s has no fault that axe knows, and targets large enough to hit', async (id, fragment) => {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width: 390, height: 900 });
    await open(id, fragment);
    const { violations } = await new AxeBuilder({ page }).setLegacyMode().include('.try').analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    const small = await panel()
      .locator('input, select, button')
      .evaluateAll((all) =>
        all
          .map((control) => ({ name: control.outerHTML.slice(0, 80), box: control.getBoundingClientRect() }))
          .filter(({ box }) => box.width < 24 || box.height < 24)
          .map(({ name }) => name),
      );
    expect(small).toEqual([]);
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
    ).toBeLessThanOrEqual(0);
  });
});
