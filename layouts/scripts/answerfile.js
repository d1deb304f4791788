// Answer files: what a learner hands in, and its digest. The program reads the same
// (package answerfile).

import { sha256 } from "./sha256.js";

// canonical writes a value as RFC 8785 has it. JSON.stringify does all of it but the
// order of members.
function canonical(value) {
  if (Array.isArray(value)) return "[" + value.map(canonical).join(",") + "]";
  if (!value || typeof value !== "object") return JSON.stringify(value);
  const members = Object.keys(value).sort().map((key) => JSON.stringify(key) + ":" + canonical(value[key]));
  return "{" + members.join(",") + "}";
}

// digest is the SHA-256 of a file without its own digest.
export function digest(file) {
  const { digest: _, ...content } = file;
  return sha256(canonical(content));
}

// write returns the text of an answer file.
export const write = (content) => JSON.stringify({ ...content, digest: digest(content) }, null, 1) + "\n";

// plain brings a text to one form: composed letters, single spaces, and nothing that cannot be
// seen, which a text that is pasted can bring and a reader of answer files refuses.
export const plain = (text) => text.normalize("NFC").replace(/\s+/g, " ").replace(/[\p{Cc}\p{Bidi_Control}\ufffd]/gu, "").trim();

const isText = (value) => typeof value === "string";
const isList = (value, each) => Array.isArray(value) && value.every((one) => one && each(one));

// isContent reports whether something is the content of an answer file, with all that a page
// goes through.
export const isContent = (c) =>
  c && c.version === 1 && c.learner && [c.course, c.paper, c.text, c.started, c.saved, c.learner.name, c.learner.class].every(isText) &&
  /^[0-9a-f]{16}$/.test(c.seed) &&
  isList(c.answers, (a) => isText(a.question) && isText(a.given) && Number.isInteger(a.figures)) &&
  isList(c.practicals, (p) => [p.practical, p.assessor, p.date, p.outcome].every(isText) && Array.isArray(p.shown));
