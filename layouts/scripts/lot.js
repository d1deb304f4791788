// Draws lots as the program does (package lot): PCG32 of a seed, and the shuffle of
// Fisher and Yates, stopped after n steps. Both run on the same vectors in tests.

import { sha256 } from "./sha256.js";

const word = (x) => BigInt.asUintN(64, x);

export function lots(seed) {
  const increment = (0x706c616974n << 1n) | 1n;
  let state = 0n;
  const next = () => {
    const old = state;
    state = word(old * 6364136223846793005n + increment);
    const bits = Number(BigInt.asUintN(32, ((old >> 18n) ^ old) >> 27n));
    const turn = Number(old >> 59n);
    return ((bits >>> turn) | (bits << (-turn & 31))) >>> 0;
  };
  next();
  state = word(state + seed);
  next();
  // What lies below the threshold is drawn again, so that no remainder has a better
  // chance than the others.
  const below = (n) => {
    const threshold = 0x100000000 % n;
    for (;;) {
      const r = next();
      if (r >= threshold) return r % n;
    }
  };
  return {
    below,
    draw(n, of) {
      const pool = Array.from({ length: of }, (_, i) => i);
      for (let i = 0; i < n; i++) {
        const j = i + below(of - i);
        [pool[i], pool[j]] = [pool[j], pool[i]];
      }
      return pool.slice(0, n);
    },
  };
}

// seed is the first 64 bits of the SHA-256 of words, each followed by a line end.
export const seed = (...words) => BigInt("0x" + sha256(words.join("\n") + "\n").slice(0, 16));
