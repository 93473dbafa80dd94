declare module 'virtual:formulas' {
  import type { AnyFormula } from 'swathe';

  /** Loads one formula of the library, by its id. */
  export const load: Readonly<Record<string, () => Promise<{ readonly formula: AnyFormula }>>>;
}
