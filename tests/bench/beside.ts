import type { TestContext } from 'vitest';

type Timed = readonly [name: string, run: () => unknown];

/**
 * Times both in one run and prints how many times longer the peer takes, by medians. A machine's speed drifts: only the
 * ratio is worth quoting.
 */
export async function beside(bench: TestContext['bench'], ours: Timed, peer: Timed): Promise<number> {
  const a = await bench(ours[0], ours[1]).run();
  const b = await bench(peer[0], peer[1]).run();
  const ratio = b.latency.p50 / a.latency.p50;
  console.log(`${peer[0]} takes ${ratio.toPrecision(3)} times as long as ${ours[0]}`);
  return ratio;
}
