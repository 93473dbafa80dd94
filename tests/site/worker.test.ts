import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { build } from 'esbuild';
import { type Browser, chromium } from 'playwright-core';
import { catalog } from 'swathe/catalog';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { chromiumPath } from '../chromium.ts';

// The page and the worker have the policy each for itself, since a worker goes by the one that its own script came with.
const policy = "default-src 'none'; script-src 'self'; worker-src 'self'";

const worker = `
  import { cm, inch, InputError, stripLength } from 'swathe';
  import { catalog } from 'swathe/catalog';
  import { jsonSchema } from 'swathe/schema';
  const violations = [];
  addEventListener('securitypolicyviolation', ({ violatedDirective }) => violations.push(violatedDirective));
  const { value } = stripLength({ girth: cm(16.5), advance: inch(1.5), turns: 6 });
  let refused = 0;
  for (const formula of catalog) {
    jsonSchema(formula);
    try { formula.fromJson({}); } catch (error) { refused += error instanceof InputError; }
  }
  setTimeout(() => {
    const before = [...violations];
    let made = 'code from text was made';
    try { new Function('return 1')(); } catch { made = 'none made'; }
    // The policy is at work if what breaks it is told.
    setTimeout(() => postMessage({ value, refused, before, made, after: violations.length }), 100);
  }, 100);
`;
const page = `
  const worker = new Worker('/worker.js', { type: 'module' });
  worker.onmessage = ({ data }) => { window.told = data; };
  worker.onerror = (event) => { window.told = { failed: event.message || 'the worker did not start' }; };
`;

let browser: Browser;
let origin: string;
let close: () => void;

beforeAll(async () => {
  const { outputFiles } = await build({
    stdin: { contents: worker, resolveDir: import.meta.dirname },
    conditions: ['source'],
    bundle: true,
    minify: true,
    format: 'esm',
    write: false,
  });
  const files: Readonly<Record<string, readonly [type: string, text: string]>> = {
    '/': ['text/html', '<!doctype html><title>worker</title><script src="/page.js"></script>'],
    '/page.js': ['text/javascript', page],
    '/worker.js': ['text/javascript', outputFiles[0]?.text ?? ''],
  };
  const server = createServer((request, response) => {
    const [type = 'text/plain', text = ''] = files[request.url ?? ''] ?? [];
    response.writeHead(text ? 200 : 404, { 'content-type': type, 'content-security-policy': policy });
    response.end(text);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  close = () => server.close();
  browser = await chromium.launch({
    executablePath: chromiumPath as string,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update'],
  });
}, 60_000);

afterAll(async () => {
  await browser?.close();
  close?.();
});

test('in a worker under a policy that lets no code be made from text, every formula answers or refuses', async () => {
  const opened = await browser.newPage();
  await opened.goto(origin);
  const told = await opened.waitForFunction(() => (window as { told?: unknown }).told);
  expect(await told.jsonValue()).toEqual({
    value: expect.closeTo(1016.05, 2),
    refused: catalog.length,
    before: [],
    made: 'none made',
    after: 1,
  });
});
