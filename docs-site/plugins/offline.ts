import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { AstroIntegration } from 'astro';

/** The worker that answers from what is kept; `kept` and `name` are written in front of it. */
const worker = `
self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(name).then((cache) => cache.addAll(kept)));
});
self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((all) => Promise.all(all.filter((one) => one.startsWith('swathe-') && one !== name).map((one) => caches.delete(one))))
      .then(() => self.clients.claim()),
  );
});
self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  const fromKept = () => caches.match(request, { ignoreSearch: true, ignoreVary: true });
  // A page is fetched anew where there is a network, so that a correction is seen at once.
  event.respondWith(
    request.mode === 'navigate'
      ? fetch(request).catch(async () => (await fromKept()) ?? Response.error())
      : fromKept().then((found) => found ?? fetch(request)),
  );
});
`;

/** Writes `offline.js`, which keeps every file of the built site on the device of whoever opens the planning page. */
export function offline(base: string): AstroIntegration {
  return {
    name: 'offline',
    hooks: {
      'astro:build:done': ({ dir }) => {
        const root = fileURLToPath(dir);
        const files = readdirSync(root, { recursive: true, withFileTypes: true })
          .filter((entry) => entry.isFile() && entry.name !== 'offline.js')
          .map((entry) => `${entry.parentPath}/${entry.name}`.replaceAll('//', '/').slice(root.length))
          .sort();
        const hash = createHash('sha256');
        for (const file of files) hash.update(file).update(readFileSync(root + file));
        const under = base.replace(/\/?$/, '/');
        const kept = files.map((file) => under + file.replace(/(^|\/)index\.html$/, '$1'));
        const name = `swathe-${hash.digest('hex').slice(0, 16)}`;
        const head = `const name = ${JSON.stringify(name)};\nconst kept = ${JSON.stringify(kept)};\n`;
        writeFileSync(`${root}offline.js`, head + worker.trimStart());
      },
    },
  };
}
