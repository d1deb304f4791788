// SHA-256 (FIPS 180-4) of a text as UTF-8, in hexadecimal. The browser's own is not
// there on pages that came over plain http.

const turned = (x, n) => (x >>> n) | (x << (32 - n));

// The constants of the standard: the first 32 bits behind the point of the square and
// cube roots of the first primes.
const starts = [], rounds = [];
for (let n = 2; rounds.length < 64; n++) {
  let prime = true;
  for (let d = 2; d * d <= n; d++) prime = prime && n % d > 0;
  if (!prime) continue;
  if (starts.length < 8) starts.push((n ** 0.5 * 2 ** 32) | 0);
  rounds.push((n ** (1 / 3) * 2 ** 32) | 0);
}

export function sha256(text) {
  const bytes = new TextEncoder().encode(text);
  const padded = new Uint8Array(((bytes.length + 72) >> 6) << 6);
  padded.set(bytes);
  padded[bytes.length] = 128;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(padded.length - 4, bytes.length << 3);
  const hash = [...starts], w = [];
  for (let at = 0; at < padded.length; at += 64) {
    for (let i = 0; i < 64; i++) {
      if (i < 16) w[i] = view.getInt32(at + 4 * i);
      else {
        const x = w[i - 15], y = w[i - 2];
        w[i] = (w[i - 16] + w[i - 7] + (turned(x, 7) ^ turned(x, 18) ^ (x >>> 3)) + (turned(y, 17) ^ turned(y, 19) ^ (y >>> 10))) | 0;
      }
    }
    let [a, b, c, d, e, f, g, h] = hash;
    for (let i = 0; i < 64; i++) {
      const t = h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + rounds[i] + w[i];
      const s = (turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
      [a, b, c, d, e, f, g, h] = [(t + s) | 0, a, b, c, (d + t) | 0, e, f, g];
    }
    [a, b, c, d, e, f, g, h].forEach((x, i) => (hash[i] = (hash[i] + x) | 0));
  }
  return hash.map((x) => (x >>> 0).toString(16).padStart(8, "0")).join("");
}
