/** Standard normal quantile of 95 %: nine in ten lie within this many standard deviations of the mean. */
export const quantile95 = 1.6448536269514722;

/** Beyond this many standard deviations the series would lose digits and the fraction has few left to find. */
const tail = 3;

/**
 * Share of a standard normal distribution that lies below z: by the series φ(z) (z + z³/3 + z⁵/(3·5) + …) near the middle,
 * by the continued fraction φ(z)/(z + 1/(z + 2/(z + 3/(z + …)))) in the tails, where it keeps its digits.
 */
export function normalShare(z: number): number {
  const size = Math.abs(z);
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (size < tail) {
    let [term, sum] = [z, z];
    for (let n = 3; sum + term !== sum; n += 2) {
      term *= (z * z) / n;
      sum += term;
    }
    return 0.5 + density * sum;
  }
  let below = size;
  for (let n = 80; n > 0; n--) below = size + n / below;
  const outside = density / below;
  return z < 0 ? outside : 1 - outside;
}
