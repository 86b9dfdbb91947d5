// An answer as a carpenter writes it, read and held against packed values. The words that are said
// of it are packed too.

/** Stands in a packed sentence for the answer as it was read. */
const SAID = "\ue000";
const ROUNDING = 1e-9;
/** @type {Record<string, string>} */
const VULGAR = { "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8" };

/** @typedef {{value: number | string, said: string}} Answered */
/** @typedef {{answered: Answered, right: boolean, wrongs: any[]}} Graded */

/** A number such as 8 1/2, 8-1/2, 17/2 or 8.5; null for anything else. @param {string} text */
function readNumber(text) {
  const plain = text.replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign]}`).replace("⁄", "/").trim();
  if (/^(\d+(\.\d*)?|\.\d+)$/.test(plain)) return Number(plain);
  const parts = /^(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*\/\s*(\d+)$/.exec(plain);
  if (!parts || Number(parts[3]) === 0) return null;
  return Number(parts[1] ?? 0) + Number(parts[2]) / Number(parts[3]);
}

/** @param {number} value @param {number} parts */
function fraction(value, parts) {
  const ticks = Math.floor(Math.abs(value) * parts + 0.5);
  const whole = Math.floor(ticks / parts);
  let [top, bottom] = [ticks % parts, parts];
  if (top === 0) return String(whole);
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return whole ? `${whole} ${top}/${bottom}` : `${top}/${bottom}`;
}

/** A value in inches as it is said back. @param {number} value */
function inches(value) {
  if (Math.abs(value * 64 - Math.round(value * 64)) < 64 * ROUNDING) return fraction(value, 64);
  return `${Number(value.toPrecision(4))} (nearest ${fraction(value, 16)})`;
}

/** @param {number} value */
const degrees = (value) => `${Number(value.toFixed(2))}°`;

/**
 * Read what was written as an answer to a problem; null for what cannot be one.
 * @param {any} problem @param {string} text @returns {Answered | null}
 */
function readAnswer(problem, text) {
  const plain = text.trim().replace(/\s+/g, " ");
  if (problem.layout) {
    const letter = plain.toUpperCase().replace(/^LINE /, "").replace(/\.$/, "");
    return problem.layout.letters.includes(letter) ? { value: letter, said: `line ${letter}` } : null;
  }
  const { kind, name, choices } = problem.sought;
  if (kind === "word") {
    const word = choices.find((/** @type {string} */ one) => one.toLowerCase() === plain.toLowerCase());
    return word ? { value: word, said: word } : null;
  }
  if (kind === "angle") {
    const value = readNumber(plain.replace(/\s*(°|deg(rees?)?)$/i, ""));
    return value === null || value >= 180 ? null : { value, said: degrees(value) };
  }
  const pair = /^(.+?)\s+(?:on|over|to)\s+(.+)$/.exec(plain);
  if (pair && (kind !== "number" || name !== "edge_number")) return null;
  const on = pair ? readNumber(/** @type {string} */ (pair[2])) : 12;
  const bare = (pair ? /** @type {string} */ (pair[1]) : plain).replace(/\s*(in\.?|inch(es)?|"|″)$/i, "");
  const number = readNumber(bare);
  if (number === null || !on) return null;
  const value = (number * 12) / on;
  return { value, said: kind === "length" ? `${inches(value)} in` : inches(value) };
}

/** Hold an answer against the right value and the known wrong ones. @param {any} problem
 * @param {Answered} answered @returns {Graded} */
function grade(problem, answered) {
  if (problem.layout) {
    return { answered, right: problem.layout.faulty.includes(answered.value), wrongs: [] };
  }
  const { value, tolerance } = problem.sought;
  if (typeof answered.value === "string") {
    const right = answered.value === value;
    const wrongs = problem.wrongs.filter((/** @type {any} */ one) => one.value === answered.value);
    return { answered, right, wrongs: right ? [] : wrongs };
  }
  /** @param {any} other */
  const off = (other) => Math.abs(Number(answered.value) - Number(other));
  const right = off(value) <= tolerance + ROUNDING;
  if (right) return { answered, right, wrongs: [] };
  for (const known of [problem.wrongs, problem.pairs]) {
    const near = known.filter((/** @type {any} */ one) => off(one.value) <= tolerance + ROUNDING);
    if (near.length === 0) continue;
    near.sort((/** @type {any} */ a, /** @type {any} */ b) => off(a.value) - off(b.value));
    // One name is told once, for the nearest of its values.
    const byName = new Map(near.reverse().map((/** @type {any} */ one) => [one.name, one]));
    return { answered, right, wrongs: [...byName.values()].reverse() };
  }
  return { answered, right, wrongs: [] };
}

/** What is said of a wrong answer that no mistake explains. @param {any} problem @param {Graded} graded */
function unexplained(problem, graded) {
  const { answered } = graded;
  const close = problem.close && Math.abs(Number(answered.value) - problem.sought.value) <= problem.sought.near;
  return (close ? problem.close : problem.far).replaceAll(SAID, String(answered.value));
}
