/** How a value came to us. `read` is never said of what was not. */
export type Status =
  | 'read'
  | 'abstract-only'
  | 'read-secondary'
  | 'derived'
  | 'computed-from-data'
  | 'assumed'
  | 'calibrated-on'
  | 'from-memory'
  | 'common-practice';

/** A value as one source gives it. A fact of the trade has no source: its status is `common-practice`. */
export interface Published<T> {
  readonly value: T;
  /** Id in references/sources.json. */
  readonly source?: string;
  /** Where in the source: page, table, step. */
  readonly at?: string;
  readonly status: Status;
  readonly note?: string;
}

/** A value that is used, why, and everything published that it was chosen from. */
export interface Choice<T, P = T> {
  readonly used: T;
  readonly because: string;
  readonly published: readonly Published<P>[];
}
