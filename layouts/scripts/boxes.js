// When a card comes back: Leitner's boxes (S. Leitner, So lernt man lernen, 1972, from
// memory). Five boxes are looked at every 1, 2, 4, 8 and 16 days; a right answer moves a
// card to the next box, a wrong one back to the first.

export const DAYS = [1, 2, 4, 8, 16];
const DAY = 86400;

// place works out, from all reviews of a card, its box from 1 and the second it is due. A
// right answer before the card is due again changes nothing: twice in an hour is once.
export function place(reviews) {
  let box = 1, due = 0;
  for (const r of reviews) {
    const at = Math.floor(r / 2), right = r % 2 === 1;
    if (!right) box = 1;
    else if (!due) box = 2;
    else if (at >= due) box = Math.min(box + 1, DAYS.length);
    else continue;
    due = at + DAYS[box - 1] * DAY;
  }
  return { box, due };
}
