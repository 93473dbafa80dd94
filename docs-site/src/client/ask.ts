import type { Answered, Asked } from './worker.ts';

/**
 * The page's worker, and how to ask it: some answers take a moment, and typing must not wait for them. While it is busy
 * only the latest question waits, and an answer that a later question has overtaken is dropped.
 */
export function asking(told: (answered: Answered) => void): (asked: Asked) => void {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  let busy = false;
  let waiting: Asked | undefined;
  const ask = (asked: Asked): void => {
    if (busy) waiting = asked;
    else worker.postMessage(asked);
    busy = true;
  };
  const heard = (answered: Answered): void => {
    busy = false;
    const next = waiting;
    waiting = undefined;
    if (next) ask(next);
    else told(answered);
  };
  worker.addEventListener('message', ({ data }: MessageEvent<Answered>) => heard(data));
  worker.addEventListener('error', () => heard({ failed: true }));
  return ask;
}
