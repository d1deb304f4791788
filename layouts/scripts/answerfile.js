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

// plain brings a name to one form: composed letters, single spaces.
export const plain = (name) => name.normalize("NFC").replace(/\s+/g, " ").trim();
