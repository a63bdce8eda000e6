/** How a value is brought to a multiple of a place: a tie to the even one, a tie away from zero, or cut off. */
export type Rounding = 'half-even' | 'half-away' | 'down';

const TENS: bigint[] = [1n];
const MOST_KEPT = 400;

/** top / bottom as a whole number, brought there as `mode` says; bottom is positive. */
export function roundedQuotient(top: bigint, bottom: bigint, mode: Rounding): bigint {
  const size = top < 0n ? -top : top;
  let whole = size / bottom;
  const twice = (size - whole * bottom) * 2n;
  if (
    mode !== 'down' &&
    (twice > bottom || (twice === bottom && (mode === 'half-away' || (whole & 1n) === 1n)))
  ) {
    whole += 1n;
  }
  return top < 0n ? -whole : whole;
}

/** top / bottom in units of the last decimal place kept, a tie to the even one where nothing else is said; places may be negative. */
export function roundedUnits(
  top: bigint,
  bottom: bigint,
  places: number,
  mode: Rounding = 'half-even',
): bigint {
  return places >= 0
    ? roundedQuotient(top * tenTo(places), bottom, mode)
    : roundedQuotient(top, bottom * tenTo(-places), mode);
}

/** The power of ten of the first digit of size / bottom, both positive. */
export function firstDigitPower(size: bigint, bottom: bigint): number {
  // Binary digits tell the power of ten to within one, and are quick to count.
  let power = Math.floor((bitLength(size) - bitLength(bottom) - 1) * Math.LOG10E * Math.LN2);
  while (power + 1 >= 0 ? size >= bottom * tenTo(power + 1) : size * tenTo(-power - 1) >= bottom) power += 1;
  return power;
}

/** The greatest whole number not above top / bottom; bottom is positive. */
export function floorDivision(top: bigint, bottom: bigint): bigint {
  const quotient = top / bottom;
  return top < 0n && quotient * bottom !== top ? quotient - 1n : quotient;
}

/** So many units of the last place as a decimal in fixed notation; nought has no sign. */
export function decimalText(units: bigint, places: number): string {
  const digits = (units < 0n ? -units : units).toString();
  const minus = units < 0n ? '-' : '';
  if (places <= 0) return units === 0n ? '0' : `${minus}${digits}${'0'.repeat(-places)}`;
  const padded = digits.padStart(places + 1, '0');
  return `${minus}${padded.slice(0, -places)}.${padded.slice(-places)}`;
}

/** units / 10^places in lowest terms, units from 0 up: only twos and fives can cancel. */
export function decimalTerms(units: bigint, places: number): [bigint, bigint] {
  let size = units;
  let bottom = tenTo(places);
  for (let twos = places; twos > 0 && (size & 1n) === 0n; twos -= 1) {
    size >>= 1n;
    bottom >>= 1n;
  }
  for (let fives = places; fives > 0 && size % 5n === 0n; fives -= 1) {
    size /= 5n;
    bottom /= 5n;
  }
  return [size, bottom];
}

/** Ten to a power from 0 up; the usual ones are kept. */
export function tenTo(exponent: number): bigint {
  if (exponent > MOST_KEPT) return 10n ** BigInt(exponent);
  for (let i = TENS.length; i <= exponent; i += 1) TENS.push((TENS[i - 1] ?? 1n) * 10n);
  return TENS[exponent] ?? 1n;
}

/** The largest whole number whose n-th power is not above a; by Newton's rule, from above. */
export function integerRoot(a: bigint, n: bigint): bigint {
  if (a < 2n || n === 1n) return a;
  const bits = BigInt(bitLength(a));
  if (bits <= n) return 1n;
  let root = 1n << (bits / n + 1n);
  for (;;) {
    const next = ((n - 1n) * root + a / root ** (n - 1n)) / n;
    if (next >= root) return root;
    root = next;
  }
}

/** How many binary digits a whole number from 0 up has. */
export function bitLength(a: bigint): number {
  const hex = a.toString(16);
  return a === 0n ? 0 : hex.length * 4 - Math.clz32(Number.parseInt(hex.charAt(0), 16)) + 28;
}

const SMALL = BigInt(Number.MAX_SAFE_INTEGER);

/** The greatest common divisor of two whole numbers from nought up; with ordinary numbers where both fit. */
export function commonDivisor(a: bigint, b: bigint): bigint {
  return a <= SMALL && b <= SMALL ? smallCommonDivisor(Number(a), Number(b)) : bigCommonDivisor(a, b);
}

/** Whole numbers that JavaScript counts exactly; no rounding can come in. */
function smallCommonDivisor(a: number, b: number): bigint {
  let x = a;
  let y = b;
  while (y !== 0) {
    const rest = x % y;
    x = y;
    y = rest;
  }
  return x === 1 ? 1n : BigInt(x);
}

function bigCommonDivisor(a: bigint, b: bigint): bigint {
  let x = a;
  let y = b;
  while (y !== 0n) {
    // What is left is soon small.
    if (x <= SMALL && y <= SMALL) return smallCommonDivisor(Number(x), Number(y));
    const rest = x % y;
    x = y;
    y = rest;
  }
  return x;
}
