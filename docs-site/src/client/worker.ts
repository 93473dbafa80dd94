import { load } from 'virtual:formulas';
import { type Fault, InputError } from 'swathe';

/** What a page asks: the id of a formula, or `plan`, and its inputs as JSON. */
export interface Asked {
  readonly id: string;
  readonly input: unknown;
  /** The same inputs as they are shown, for what is wrong with them to be told so. */
  readonly shown?: unknown;
}
export interface Answered {
  readonly answer?: unknown;
  readonly faults?: readonly Fault[];
  /** That neither came, which is no fault of the inputs. */
  readonly failed?: boolean;
}

interface Reads {
  fromJson(told: unknown): unknown;
}

function answered(formula: Reads, input: unknown): Answered {
  try {
    return { answer: formula.fromJson(input) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { faults: error.faults };
  }
}

async function reply({ id, input, shown }: Asked): Promise<Answered> {
  const found: { formula: Reads } | undefined =
    id === 'plan' ? await import('../plan/formula.ts') : await load[id]?.();
  if (!found) throw new Error(`no formula ${id}`);
  const first = answered(found.formula, input);
  const { faults } = first.faults && shown !== undefined ? answered(found.formula, shown) : first;
  return faults ? { faults } : first;
}

self.addEventListener('message', ({ data }: MessageEvent<Asked>) => {
  reply(data).then((told) => self.postMessage(told), reportError);
});
