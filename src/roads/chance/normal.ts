/** The standard normal distribution function, to about 1e-14: Hart's rational approximation as arranged by West (2005). */

/** Horner's rule written out: this runs thousands of times before anything is compiled. */
const above = (x: number): number =>
  (((((0.0352624965998911 * x + 0.700383064443688) * x + 6.37396220353165) * x + 33.912866078383) * x +
    112.079291497871) *
    x +
    221.213596169931) *
    x +
  220.206867912376;

const below = (x: number): number =>
  ((((((0.0883883476483184 * x + 1.75566716318264) * x + 16.064177579207) * x + 86.7807322029461) * x +
    296.564248779674) *
    x +
    637.333633378831) *
    x +
    793.826512519948) *
    x +
  440.413735824752;

/** Beyond this the continued fraction is the better one. */
const FAR = 7.07106781186547;

function upperTail(size: number): number {
  if (size > 37) return 0;
  const density = Math.exp((-size * size) / 2);
  if (size < FAR) return (density * above(size)) / below(size);
  const fraction = size + 1 / (size + 2 / (size + 3 / (size + 4 / (size + 0.65))));
  return density / fraction / 2.506628274631;
}

/** The chance that a standard normal is at most `z`. */
export const normalBelow = (z: number): number => (z > 0 ? 1 - upperTail(z) : upperTail(-z));
