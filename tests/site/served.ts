import { readdirSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';

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
