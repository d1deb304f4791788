// Rational numbers that never round, the same arithmetic as the program's own. A
// number is {n, d}: whole numbers of any size in lowest terms, d above zero.

const ZERO = BigInt(0), ONE = BigInt(1), TWO = BigInt(2), TEN = BigInt(10);

function gcd(a, b) {
  if (a < ZERO) a = -a;
  while (b) [a, b] = [b, a % b];
  return a;
}

function make(n, d) {
  if (d < ZERO) [n, d] = [-n, -d];
  const g = gcd(n, d);
  return { n: n / g, d: d / g };
}

export const zero = { n: ZERO, d: ONE };
export const one = { n: ONE, d: ONE };

export const add = (a, b) => make(a.n * b.d + b.n * a.d, a.d * b.d);
export const sub = (a, b) => make(a.n * b.d - b.n * a.d, a.d * b.d);
export const mul = (a, b) => make(a.n * b.n, a.d * b.d);
export const quo = (a, b) => make(a.n * b.d, a.d * b.n);

export function cmp(a, b) {
  const x = a.n * b.d, y = b.n * a.d;
  return x < y ? -1 : x > y ? 1 : 0;
}

// floor returns the largest multiple of step that is not above a.
export function floor(a, step) {
  const q = quo(a, step);
  let whole = q.n / q.d;
  if (q.n < ZERO && whole * q.d !== q.n) whole -= ONE;
  return mul(step, { n: whole, d: ONE });
}

// round returns the multiple of step nearest to a, halves away from zero; a is
// not below zero.
export const round = (a, step) => floor(add(a, quo(step, { n: TWO, d: ONE })), step);

// parse reads "20", "1.5" or "20/3"; null for anything else. A reader may type a
// decimal comma.
export function parse(text) {
  const m = /^(\d+)(?:[.,](\d+)|\/(\d+))?$/.exec(text.trim());
  if (!m) return null;
  if (m[3]) return BigInt(m[3]) ? make(BigInt(m[1]), BigInt(m[3])) : null;
  const places = m[2] || "";
  return make(BigInt(m[1] + places), TEN ** BigInt(places.length));
}

// decimal prints a, not below zero, with at most two places and no zeros at the
// end.
export function decimal(a) {
  const hundredths = (a.n * BigInt(200) + a.d) / (a.d * TWO);
  const text = hundredths.toString().padStart(3, "0");
  return (text.slice(0, -2) + "." + text.slice(-2)).replace(/\.?0+$/, "");
}
