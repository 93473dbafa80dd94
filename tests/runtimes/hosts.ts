import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium } from 'playwright-core';

/** Runs the bundle somewhere and gives the report that it makes there. */
export type Host = (program: string, folder: string) => Promise<string> | string;

const printed = (
  command: string,
  args: readonly string[],
  errors: 'inherit' | 'ignore' = 'inherit',
): string =>
  execFileSync(command, args, { encoding: 'utf8', maxBuffer: 2 ** 26, stdio: ['ignore', 'pipe', errors] });

/** What it says of its version, or nothing where it does not start. */
export function versionOf(command: string): string | undefined {
  try {
    return printed(command, ['--version'], 'ignore').split('\n')[0];
  } catch {
    return undefined;
  }
}

/** A command that runs a script and prints: Node, Deno, Bun. */
export const script =
  (command: string, ...args: string[]): Host =>
  (program, folder) => {
    const file = join(folder, 'numbers.cjs');
    writeFileSync(file, `${program}\nconsole.log(numbers.text().trimEnd());\n`);
    return printed(command, [...args, file]);
  };

/** Node with every object of the language frozen, the program in a compartment that is given arrays of numbers alone. */
export const hardened =
  (command: string, ses: string): Host =>
  (program, folder) => {
    const [file, code] = [join(folder, 'hardened.mjs'), join(folder, 'numbers.txt')];
    writeFileSync(code, `${program}\nnumbers.text()`);
    writeFileSync(
      file,
      `import { readFileSync } from 'node:fs';
      import ${JSON.stringify(ses)};
      lockdown();
      const text = new Compartment({ Float64Array }).evaluate(readFileSync(${JSON.stringify(code)}, 'utf8'));
      console.log(text.trimEnd());`,
    );
    return printed(command, [file]);
  };

/** A page of a browser. */
export const browser =
  (executablePath: string): Host =>
  async (program) => {
    const opened = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
    try {
      const page = await opened.newPage();
      await page.addScriptTag({ content: program });
      return await page.evaluate<string>('numbers.text()');
    } finally {
      await opened.close();
    }
  };

/** A worker that answers a request over HTTP. */
export const worker =
  (command: string, port = 8899): Host =>
  async (program, folder) => {
    mkdirSync(folder, { recursive: true });
    const config = join(folder, 'worker.capnp');
    writeFileSync(
      join(folder, 'worker.js'),
      `${program}\nexport default { fetch: () => new Response(numbers.text()) };\n`,
    );
    writeFileSync(
      config,
      `using Workerd = import "/workerd/workerd.capnp";
      const config :Workerd.Config = (
        services = [(name = "main", worker = (
          modules = [(name = "worker.js", esModule = embed "worker.js")], compatibilityDate = "2026-01-01"))],
        sockets = [(name = "http", address = "127.0.0.1:${port}", http = (), service = "main")]);`,
    );
    const server = spawn(command, ['serve', config], { stdio: ['ignore', 'ignore', 'inherit'] });
    try {
      for (let attempt = 0; ; attempt++) {
        try {
          return await (await fetch(`http://127.0.0.1:${port}/`)).text();
        } catch (error) {
          if (attempt === 20 || server.exitCode !== null) throw error;
          await pause(250);
        }
      }
    } finally {
      server.kill();
      if (server.exitCode === null) await once(server, 'exit');
    }
  };
