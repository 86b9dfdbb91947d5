// An answer as a carpenter writes it, read and held against packed values. The words that are said
// of it are packed too.

/** Stands in a packed sentence for the answer as it was read. */
const SAID = "\ue000";
const ROUNDING = 1e-9;
/** @type {Record<string, string>} */
const VULGAR = { "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8" };

/** @typedef {{value: number | string, said: string, sense?: string}} Answered */
/** @typedef {{answered: Answered, right: boolean, wrongs: any[]}} Graded */

const FIGURES = String.raw`(?:\d+(?:\s+|\s*-\s*)\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+\.\d*|\.\d+|\d+)`;
const METRIC = new RegExp(`^(${FIGURES})\\s*(mm|cm|m)$`);
const FEET = new RegExp(
  `^(?:(${FIGURES})\\s*(?:'|ft\\.?|feet|foot)\\s*(?:-\\s*(?=[\\d.]))?)?` +
    `(?:(${FIGURES})\\s*(?:"|''|in\\.?|inch(?:es)?)?)?$`,
);
/** Inches in a unit. @type {Record<string, number>} */
const UNITS = { mm: 1 / 25.4, cm: 10 / 25.4, m: 1000 / 25.4 };

/** What was typed, with signs that phones put in told in plain ones. @param {string} text */
function plainText(text) {
  const folded = text
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign]}`)
    .replace(/⁄/g, "/").replace(/[′’]/g, "'").replace(/[″”]/g, '"');
  return folded.replace(/\s+/g, " ").trim().toLowerCase();
}

/** A number such as 8 1/2, 8-1/2, 17/2 or 8.5; null for anything else. @param {string} text */
function readNumber(text) {
  const plain = plainText(text);
  if (/^(\d+(\.\d*)?|\.\d+)$/.test(plain)) return Number(plain);
  const parts = /^(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*\/\s*(\d+)$/.exec(plain);
  if (!parts || Number(parts[3]) === 0) return null;
  return Number(parts[1] ?? 0) + Number(parts[2]) / Number(parts[3]);
}

/** A length in inches, such as 8 1/2, 9'-6 1/4" or 38 mm; null for anything else. @param {string} text */
function readLength(text) {
  const plain = plainText(text);
  const metric = METRIC.exec(plain);
  if (metric) {
    const number = readNumber(/** @type {string} */ (metric[1]));
    return number === null ? null : number * /** @type {number} */ (UNITS[metric[2] ?? "mm"]);
  }
  const parts = FEET.exec(plain);
  if (!parts || !(parts[1] || parts[2])) return null;
  const [feet, inches] = [readNumber(parts[1] ?? "0"), readNumber(parts[2] ?? "0")];
  return feet === null || inches === null ? null : 12 * feet + inches;
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

/** A gap to the sixty-fourth. @param {number} gap */
const gapWords = (gap) =>
  gap < ROUNDING ? "no gap" : gap < 1 / 128 ? "under 1/128 in" : `${fraction(gap, 64)} in`;

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
    const bare = plain.toLowerCase().replace(/\.$/, "");
    const word = choices.find((/** @type {string} */ one) => one.toLowerCase() === bare);
    return word ? { value: word, said: word } : null;
  }
  if (kind === "angle") {
    // A part of an inch is no angle: it is asked for again.
    if (/^(\d+\s*\/\s*\d+|[½¼¾⅛⅜⅝⅞])$/.test(plain)) return null;
    const value = readNumber(plain.replace(/\s*(°|deg(rees?)?)$/i, ""));
    return value === null ? null : { value, said: degrees(value) };
  }
  if (problem.sense) return readMeasured(problem.sense.words, plain);
  const pair = /^(.+?)\s+(?:on|over|to)\s+(.+)$/.exec(plain);
  if (pair && (kind !== "number" || name !== "edge_number")) return null;
  const on = pair ? readNumber(/** @type {string} */ (pair[2])) : 12;
  const number = readLength(pair ? /** @type {string} */ (pair[1]) : plain);
  if (number === null || !on) return null;
  const value = (number * 12) / on;
  return { value, said: kind === "length" ? `${inches(value)} in` : inches(value) };
}

/** A length and the way it runs, such as 1/2 left. A length of 0 runs no way. @param {string[]} words @param {string} plain
 * @returns {Answered | null} */
function readMeasured(words, plain) {
  const parts = /^(.+?)[,;]?\s*(?:towards?(?: the)?\s+)?\b([a-z]+)(?: (?:end|face))?\.?$/i.exec(plain);
  const sense = parts?.[2]?.toLowerCase() ?? "";
  const told = words.includes(sense);
  const value = readLength(told ? /** @type {string} */ (parts?.[1]) : plain);
  if (value === null) return null;
  if (value < ROUNDING) return { value, said: `${inches(value)} in`, sense: "" };
  return told ? { value, said: `${inches(value)} in, ${sense}`, sense } : null;
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
  if (right && problem.sense && answered.sense && answered.sense !== problem.sense.right) {
    return { answered, right: false, wrongs: [problem.sense.mirrored] };
  }
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
