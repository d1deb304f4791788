// Weighing a bowl again. What these functions compute is defined by the program,
// in its package mix; both are run on the same vectors in a test.

import { add, cmp, floor, mul, one, quo, round, sub, zero } from "./exact.js";

export const total = (weights) => weights.reduce(add, zero);

// split rounds weights to multiples of step so that they still add up: the total
// is rounded once, every part is rounded down, and the missing steps go to the
// parts with the largest remainders, the first of equals.
export function split(weights, step) {
  const out = weights.map((w) => floor(w, step));
  const rest = weights.map((w, i) => sub(w, out[i]));
  let missing = sub(round(total(weights), step), total(out));
  const order = weights.map((w, i) => i).sort((a, b) => cmp(rest[b], rest[a]) || a - b);
  for (const i of order) {
    if (cmp(missing, zero) <= 0) break;
    out[i] = add(out[i], step);
    missing = sub(missing, step);
  }
  return out;
}

// scale multiplies all parts of a bowl and weighs them anew.
export function scale(bowl, factor) {
  const exact = bowl.weights.map((w) => mul(w, factor));
  return { ...bowl, weights: exact, weighed: split(exact, bowl.step) };
}

const colour = (bowl) => total(bowl.weights.filter((w, i) => bowl.kinds[i] === "colour"));

// toColour returns the bowl with the given weight of colour.
export const toColour = (bowl, weight) => scale(bowl, quo(weight, colour(bowl)));

// toPart returns the bowl that uses up the given weight of one part.
export const toPart = (bowl, part, left) => scale(bowl, quo(left, bowl.weights[part]));

// rescue returns the smallest bowl of the same formula that holds everything
// poured so far, and what is still to add of each part. A part is over where more of
// it was poured than the plan says to weigh; nothing is ever taken out of a bowl.
export function rescue(bowl, poured) {
  let factor = one;
  bowl.weights.forEach((w, i) => {
    if (cmp(poured[i], bowl.weighed[i]) <= 0) return;
    const f = quo(poured[i], w);
    if (cmp(f, factor) > 0) factor = f;
  });
  const larger = scale(bowl, factor);
  const weighed = larger.weighed.map((w, i) => (cmp(w, poured[i]) > 0 ? w : poured[i]));
  return { bowl: { ...larger, weighed }, add: weighed.map((w, i) => sub(w, poured[i])) };
}
