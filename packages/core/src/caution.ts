/** What a person is told to heed. Never an instruction, never a verdict: the treating clinician and local protocol decide. */
export interface Caution {
  /** Permanent name, to filter or translate by. */
  readonly code: string;
  /** `info`: good to know. `warning`: look before going on. Nothing here is ever `critical`. */
  readonly level: 'info' | 'warning';
  readonly says: string;
  /** The values and limits that led to it. */
  readonly because: string;
  /** Ids in references/sources.json; none where it is common practice. */
  readonly sources: readonly string[];
}

/** The words that stand with every plan and every page. */
export const defers =
  "Estimates only. The treating clinician's order, the material's own instructions and local protocol decide. " +
  'Check circulation, movement and sensation before and after. Stop and take it off on pain, burning or numbness.';

/** What is said where no caution fired: it is not a statement that nothing can go wrong. */
export const noTrigger = 'no trigger met';
