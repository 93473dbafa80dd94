/** One thing that the search finds. */
export interface Found {
  readonly kind: string;
  readonly title: string;
  readonly text: string;
  /** Address, base path and anchor included. */
  readonly to: string;
}
