// What someone would write in a hurry: reads the table, multiplies, writes it. Nothing is checked.
import { readFileSync, writeFileSync } from 'node:fs';
import { csvFormatRows, csvParseRows } from 'd3-dsv';

const [headings, ...rows] = csvParseRows(readFileSync(process.argv[2], 'utf8'));
const done = rows.map(([girth, advance, turns]) => [
  girth,
  advance,
  turns,
  turns * Math.sqrt((10 * girth) ** 2 + advance ** 2),
]);
writeFileSync(1, csvFormatRows([[...headings, 'length [mm]'], ...done]));
