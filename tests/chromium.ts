import { existsSync } from 'node:fs';

const wanted = process.env['CHROMIUM_PATH'];
const usual = '/usr/bin/chromium';

/** Where Chromium is, if anywhere. A path that was asked for and is not there is not replaced by another. */
export const chromiumPath: string | undefined = [wanted ?? usual].find((path) => existsSync(path));

export const noChromium = `Site tests NOT RUN: no Chromium found at ${
  wanted === undefined ? `${usual} (set CHROMIUM_PATH if it is elsewhere)` : `${wanted} (from CHROMIUM_PATH)`
}`;
