// What a learner has answered on this page. It is kept on this device alone, and leaves it only
// when the learner saves or copies it.

const KEPT = "square-and-saw answers";
/** Answers that were given before a name was. */
const UNNAMED = "learner";
const COLUMNS = [
  "learner", "when", "lesson", "drill", "kind", "right", "tries", "hints", "shown", "answered", "mistakes", "given",
];

class Progress {
  constructor() {
    /** @type {Record<string, Record<string, string>[]>} */
    this.learners = {};
    try {
      const kept = JSON.parse(localStorage.getItem(KEPT) ?? "{}");
      if (kept && typeof kept === "object" && !Array.isArray(kept)) this.learners = kept;
    } catch {
      this.learners = {};
    }
    this.name = byId("learner");
    this.name.value = Object.keys(this.learners).find((name) => name !== UNNAMED) ?? "";
    this.name.addEventListener("input", () => this.show());
    byId("take-unnamed").addEventListener("click", () => {
      this.learners[this.learner()] = [...this.rows(), ...this.unnamed()];
      delete this.learners[UNNAMED];
      this.keep();
    });
    byId("save-csv").addEventListener("click", () => this.save());
    byId("copy-csv").addEventListener("click", () => void this.copy());
    byId("forget").addEventListener("click", () => {
      delete this.learners[this.learner()];
      this.keep();
    });
    this.show();
  }

  learner() {
    return this.name.value.trim().slice(0, 60) || UNNAMED;
  }

  rows() {
    return this.of(this.learner());
  }

  /** @param {string} learner @returns {Record<string, string>[]} */
  of(learner) {
    const rows = Object.hasOwn(this.learners, learner) ? this.learners[learner] : [];
    return Array.isArray(rows) ? rows : [];
  }

  /** What was answered before the name that stands there now. */
  unnamed() {
    return this.learner() === UNNAMED ? [] : this.of(UNNAMED);
  }

  /** @param {Record<string, string>} row */
  add(row) {
    this.learners[this.learner()] = [...this.rows(), row];
    this.keep();
    const learner = this.name.value.trim().slice(0, 60);
    document.dispatchEvent(new CustomEvent("answered", { detail: { ...row, learner } }));
  }

  keep() {
    let kept = true;
    try {
      localStorage.setItem(KEPT, JSON.stringify(this.learners));
    } catch {
      kept = false;
    }
    byId("not-kept").hidden = kept;
    this.show();
  }

  show() {
    const rows = this.rows();
    const right = rows.filter((row) => row["right"] === "True").length;
    byId("tally").textContent = `${rows.length} answered, ${right} right`;
    const before = this.unnamed().length;
    byId("unnamed").hidden = before === 0;
    byId("unnamed-said").textContent = `${before} answered before there was a name here.`;
    byId("saved").textContent = "";
  }

  csv() {
    /** @param {unknown} value */
    const cell = (value) => {
      const text = String(value ?? "");
      return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
    };
    // A name that a spreadsheet would take for a formula is told to be a text.
    const learner = this.learner().replace(/^(?=[=+\-@])/, "'");
    const rows = this.rows().map((row) =>
      COLUMNS.map((name) => cell(name === "learner" ? learner : row[name])).join(","),
    );
    return `${[COLUMNS.join(","), ...rows].join("\n")}\n`;
  }

  /** Whether there is nothing to hand out, which is said. */
  nothing() {
    const none = this.rows().length === 0;
    byId("saved").textContent = none ? `There is no answer of ${this.learner()} to save.` : "";
    return none;
  }

  save() {
    if (this.nothing()) return;
    const link = made("a");
    link.href = URL.createObjectURL(new Blob([this.csv()], { type: "text/csv" }));
    link.download = `${this.learner().replace(/[^\p{L}\p{N}]+/gu, "-")}.csv`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  }

  async copy() {
    if (this.nothing()) return;
    const box = byId("csv");
    box.hidden = false;
    box.value = this.csv();
    box.select();
    try {
      await navigator.clipboard.writeText(this.csv());
    } catch {
      document.execCommand("copy");
    }
  }
}

/** The local time with its offset, as progress files keep it. */
function now() {
  const date = new Date();
  const off = -date.getTimezoneOffset();
  /** @param {number} value */
  const two = (value) => String(Math.floor(Math.abs(value))).padStart(2, "0");
  const local = new Date(date.getTime() + off * 60000).toISOString().slice(0, 19);
  return `${local}${off < 0 ? "-" : "+"}${two(off / 60)}:${two(off % 60)}`;
}
