import { applicationPlan, type Fault, InputError, type Plan } from 'swathe';

/** What the page asks, and what it is told: heat takes a moment, and typing must not wait for it. */
export interface Asked {
  readonly turn: number;
  readonly order: unknown;
}
export interface Answered {
  readonly turn: number;
  readonly plan?: Plan;
  readonly faults?: readonly Fault[];
}

self.addEventListener('message', ({ data: { turn, order } }: MessageEvent<Asked>) => {
  let answered: Answered;
  try {
    answered = { turn, plan: applicationPlan.fromJson(order) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    answered = { turn, faults: error.faults };
  }
  self.postMessage(answered);
});
