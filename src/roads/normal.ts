/** The standard normal distribution function, to about 1e-14: Hart's rational approximation as arranged by West (2005). */

/** Coefficients by falling power of |z|. */
const ABOVE: readonly number[] = [
  0.0352624965998911, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871, 221.213596169931,
  220.206867912376,
];
const BELOW: readonly number[] = [
  0.0883883476483184, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674, 637.333633378831,
  793.826512519948, 440.413735824752,
];

const polynomial = (coefficients: readonly number[], x: number): number =>
  coefficients.reduce((sum, coefficient) => sum * x + coefficient, 0);

/** Beyond this the continued fraction is the better one. */
const FAR = 7.07106781186547;

function upperTail(size: number): number {
  if (size > 37) return 0;
  const density = Math.exp((-size * size) / 2);
  if (size < FAR) return (density * polynomial(ABOVE, size)) / polynomial(BELOW, size);
  const fraction = size + 1 / (size + 2 / (size + 3 / (size + 4 / (size + 0.65))));
  return density / fraction / 2.506628274631;
}

/** The chance that a standard normal is at most `z`. */
export const normalBelow = (z: number): number => (z > 0 ? 1 - upperTail(z) : upperTail(-z));
