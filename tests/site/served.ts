import { readdirSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { chromiumPath } from '../chromium.ts';

export const dist = join(import.meta.dirname, '../../docs-site/dist');

const types: Readonly<Record<string, string>> = {
  '.css': 'text/css',
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};

/** Address of every built page. */
export const addresses: readonly string[] = readdirSync(dist, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.html'))
  .map((file) => `/${file.replace(/index\.html$/, '')}`)
  .sort();

/** Serves the built site as any plain host would, and the 404 page where there is nothing. */
export async function serve(): Promise<{ readonly origin: string; close(): void }> {
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    const file = join(dist, path.endsWith('/') ? `${path}index.html` : path);
    const found = statSync(file, { throwIfNoEntry: false })?.isFile();
    response.writeHead(found ? 200 : 404, { 'content-type': types[extname(found ? file : '.html')] ?? '' });
    response.end(readFileSync(found ? file : join(dist, '404.html')));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return { origin: `http://127.0.0.1:${port}`, close: () => server.close() };
}

export const launch = (): Promise<Browser> =>
  chromium.launch({
    executablePath: chromiumPath as string,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update'],
  });

/** How far things jumped while a page loaded, once it has all it asked for and has been painted with it. */
export async function shiftOf(page: Page): Promise<number> {
  await page.waitForLoadState('networkidle');
  return page.evaluate(async () => {
    await document.fonts.ready;
    for (let n = 0; n < 2; n++) await new Promise(requestAnimationFrame);
    let sum = 0;
    const add = (entries: PerformanceEntryList): void => {
      for (const entry of entries) sum += (entry as unknown as { value: number }).value;
    };
    const observer = new PerformanceObserver((list) => add(list.getEntries()));
    observer.observe({ type: 'layout-shift', buffered: true });
    // What is buffered comes in a task of its own.
    await new Promise((resolve) => setTimeout(resolve, 50));
    add(observer.takeRecords());
    return sum;
  });
}
