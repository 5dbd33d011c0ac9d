/**
 * Sums of two independent quantities on a grid. Short ones by the definition; long ones by the fast Fourier transform (Cooley
 * and Tukey 1965), so that drives of days cost not much more than drives of hours. The transform is exact to about 1e-15 of the
 * greatest mass.
 */

/** Products of lengths up to here are added up one by one. */
const FEW_PRODUCTS = 4_000_000;

/** The distribution of x + y: `result[n]` is the sum over k of `x[n - k]` times `y[k]`. */
export const convolved = (x: Float64Array, y: Float64Array): Float64Array =>
  x.length * y.length <= FEW_PRODUCTS ? byDefinition(x, y) : byTransform(x, y);

function byDefinition(x: Float64Array, y: Float64Array): Float64Array {
  const sum = new Float64Array(x.length + y.length - 1);
  for (let k = 0; k < y.length; k++) {
    const weight = y[k] ?? 0;
    if (weight === 0) continue;
    for (let i = 0; i < x.length; i++) sum[i + k] = (sum[i + k] ?? 0) + weight * (x[i] ?? 0);
  }
  return sum;
}

/** Both in one transform: x is the real part and y the imaginary one. */
function byTransform(x: Float64Array, y: Float64Array): Float64Array {
  const length = x.length + y.length - 1;
  const size = 2 ** Math.ceil(Math.log2(length));
  const [re, im] = [new Float64Array(size), new Float64Array(size)];
  re.set(x);
  im.set(y);
  transform(re, im);
  // With Z the transform, that of x times that of y is (Z(k)² - conj(Z(-k))²) / 4i.
  const [productRe, productIm] = [new Float64Array(size), new Float64Array(size)];
  for (let k = 0; k < size; k++) {
    const other = (size - k) % size;
    const a = re[k] ?? 0;
    const b = im[k] ?? 0;
    const c = re[other] ?? 0;
    const d = -(im[other] ?? 0);
    productRe[k] = (a * b - c * d) / 2;
    // The inverse is the transform of the conjugate, here of the product.
    productIm[k] = (a * a - b * b - c * c + d * d) / 4;
  }
  transform(productRe, productIm);
  return productRe.slice(0, length).map((sum) => Math.max(0, sum / size));
}

/** In place: the sum over n of z[n] times e^(-2πikn / size); `size` is a power of two. */
function transform(re: Float64Array, im: Float64Array): void {
  const size = re.length;
  inBitOrder(re, im);
  for (let half = 1; half < size; half *= 2) {
    const cosines = Float64Array.from({ length: half }, (_, k) => Math.cos((Math.PI * k) / half));
    const sines = Float64Array.from({ length: half }, (_, k) => -Math.sin((Math.PI * k) / half));
    for (let block = 0; block < size; block += 2 * half)
      for (let k = 0; k < half; k++) {
        const low = block + k;
        const high = low + half;
        const cosine = cosines[k] ?? 0;
        const sine = sines[k] ?? 0;
        const turnedRe = (re[high] ?? 0) * cosine - (im[high] ?? 0) * sine;
        const turnedIm = (re[high] ?? 0) * sine + (im[high] ?? 0) * cosine;
        re[high] = (re[low] ?? 0) - turnedRe;
        im[high] = (im[low] ?? 0) - turnedIm;
        re[low] = (re[low] ?? 0) + turnedRe;
        im[low] = (im[low] ?? 0) + turnedIm;
      }
  }
}

/** Exchanges each index with the one whose binary digits are its own from behind. */
function inBitOrder(re: Float64Array, im: Float64Array): void {
  const size = re.length;
  for (let n = 1, mirror = 0; n < size; n++) {
    let bit = size >> 1;
    for (; (mirror & bit) !== 0; bit >>= 1) mirror ^= bit;
    mirror ^= bit;
    if (n >= mirror) continue;
    [re[n], re[mirror]] = [re[mirror] ?? 0, re[n] ?? 0];
    [im[n], im[mirror]] = [im[mirror] ?? 0, im[n] ?? 0];
  }
}
