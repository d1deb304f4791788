// Reading and judging what a learner types. What these functions accept is defined by
// the program, in its package answer; both are run on the same vectors in a test.

import { add, cmp, mul, parse, quo, sub, zero } from "./exact.js";

const SAME = { level: "level levels", g: "g gr gram grams gramme grammes", "%": "% percent", vol: "vol vols vol. volume volumes", min: "min mins min. minute minutes", h: "h hour hours", cm: "cm centimetre centimetres", "cm²": "cm2 cm^2", "°": "° degree degrees deg", packs: "pack packs tube tubes bottle bottles tub tubs" };
const OTHER = { "%": { "per cent": "1" }, g: { kg: "1000" }, min: { h: "60", hour: "60", hours: "60" }, h: { min: "1/60", minutes: "1/60" }, cm: { mm: "1/10" }, "cm²": { "sq cm": "1" } };

// worth is how many of a unit one of a spelling is; null for a spelling of another.
function worth(unit, word) {
  if ((SAME[unit] || "").split(" ").includes(word) && word) return parse("1");
  const others = OTHER[unit] || {};
  return Object.hasOwn(others, word) ? parse(others[word]) : null;
}

const FRACTIONS = { "½": " 1/2", "⅓": " 1/3", "¼": " 1/4", "⅔": " 2/3", "¾": " 3/4" };

const tidy = (text) =>
  text
    .replace(/[½⅓¼⅔¾]/g, (c) => FRACTIONS[c])
    .replace(/[\u00a0\u202f\u2009\t=≈]/g, " ")
    .replace(/−/g, "-")
    .replace(/²/g, "2")
    .replace(/[A-Z]/g, (c) => c.toLowerCase())
    .replace(/ +/g, " ")
    .replace(/^ | $/g, "")
    .replace(/^- /, "-");

const NUMBER = "(\\d{1,9})(?:[.,](\\d{1,6})| ?/ ?(\\d{1,9})| (\\d{1,9})/(\\d{1,9}))?";
const NUMBER_FORM = new RegExp(`^(?:level )?(-?)${NUMBER} ?(.*)$`);
const RATIO_FORM = new RegExp(`^${NUMBER} ?(?::|to) ?${NUMBER}$`);
const MOMENT_FORM = /^(\d{1,2})[:.h](\d{2}) ?(am|pm)?$/;

// number makes a number of the parts a form found; null where it divides by nothing.
function number([whole, places, below, top, bottom]) {
  if (places) return parse(`${whole}.${places}`);
  if (below) return parse(`${whole}/${below}`);
  if (!top) return parse(whole);
  const part = parse(`${top}/${bottom}`);
  return part && add(parse(whole), part);
}

function readRatio(s) {
  const m = RATIO_FORM.exec(s);
  const colour = m && number(m.slice(1, 6)), developer = m && number(m.slice(6, 11));
  return colour && developer && cmp(colour, zero) ? quo(developer, colour) : null;
}

function readMoment(s) {
  const m = MOMENT_FORM.exec(s);
  if (!m) return null;
  let hour = Number(m[1]);
  if (hour > 23 || Number(m[2]) > 59 || (m[3] && (hour < 1 || hour > 12))) return null;
  if (m[3]) hour = (hour % 12) + (m[3] === "pm" ? 12 : 0);
  return parse(String(hour * 60 + Number(m[2])));
}

// read returns the value of an answer that is asked for in a unit, null for one that
// cannot be understood.
export function read(text, unit) {
  if (new TextEncoder().encode(text).length > 80) return null;
  const s = tidy(text);
  if (unit === "ratio") return readRatio(s);
  if (unit === "clock") return readMoment(s);
  const m = NUMBER_FORM.exec(s);
  let n = m && number(m.slice(2, 7));
  if (!n) return null;
  if (m[1]) n = sub(zero, n);
  if (!m[7]) return n;
  const times = worth(unit, m[7]);
  return times && mul(n, times);
}

const distance = (a, b) => (cmp(a, b) < 0 ? sub(b, a) : sub(a, b));

// near reports whether two values, written exactly, are no further apart than a third.
export const near = (value, truth, within) => cmp(distance(value, exactly(truth)), exactly(within)) <= 0;

// exactly reads a number as the program writes it: "20", "-1.5", "70/3".
export const exactly = (text) => (text[0] === "-" ? sub(zero, parse(text.slice(1))) : parse(text));

// accepts judges an answer: true, false, or null where it cannot be understood.
export function accepts({ unit, value, near: within }, text) {
  const v = read(text, unit);
  return v && near(v, value, within);
}
