import { csvParseRows } from 'd3-dsv';

/** What a table's companion file says of it. */
interface Companion {
  readonly table: string;
  readonly source: string;
  readonly says: string;
  readonly licence: string;
  readonly made: string;
  readonly sha256: string;
}

export interface Table {
  readonly name: string;
  readonly csv: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly companion: Companion | undefined;
  /** The program that wrote it, where one did. */
  readonly program: string | undefined;
}

const folder = '../../../references/tables/';
const raw = import.meta.glob<string>('../../../references/tables/*.{csv,py}', {
  query: '?raw',
  import: 'default',
  eager: true,
});
const companions = import.meta.glob<Companion>('../../../references/tables/*.json', {
  import: 'default',
  eager: true,
});

/** Every table of data that stands beside the check rows. */
export const tables: readonly Table[] = Object.entries(raw)
  .filter(([path]) => path.endsWith('.csv'))
  .map(([path, csv]) => {
    const [columns = [], ...rows] = csvParseRows(csv);
    const name = path.slice(folder.length, -'.csv'.length);
    return {
      name,
      csv,
      columns,
      rows,
      companion: companions[`${folder}${name}.json`],
      program: raw[`${folder}${name}.py`],
    };
  });
