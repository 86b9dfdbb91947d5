// SVG that is made once and then only moved: a frame changes attributes of the nodes that are
// there.

const SVG = "http://www.w3.org/2000/svg";

/** What lies under what, by the beginnings of its names. */
const LAYERS = [["ghost", "board"], ["wood", "edges", "section", "kept"], ["arm", "mate body", "gap"], ["disk"]];

/** @typedef {[number, number]} Spot */

/** A picture: lines and areas in inches, fitted to its frame. */
class Sheet {
  /** @param {string} id @param {string} name */
  constructor(id, name) {
    this.id = id;
    this.figure = made("figure", "panel");
    this.svg = /** @type {SVGSVGElement} */ (document.createElementNS(SVG, "svg"));
    this.svg.setAttribute("role", "img");
    this.svg.setAttribute("id", id);
    this.svg.setAttribute("viewBox", "0 0 320 240");
    this.caption = made("figcaption");
    this.title = made("strong");
    this.title.textContent = name;
    this.note = made("span");
    this.caption.append(this.title, this.note);
    this.figure.append(this.svg, this.caption);
    // Wood lies under tools, tools under marks, and words over everything, whichever came first.
    this.layers = Array.from({ length: LAYERS.length + 2 }, () => {
      const layer = document.createElementNS(SVG, "g");
      this.svg.append(layer);
      return layer;
    });
    /** @type {Map<string, SVGElement>} */
    this.nodes = new Map();
    /** @type {Map<string, string>} */
    this.set = new Map();
    this.used = new Set();
    /** @type {[number, number, number, number] | null} */
    this.window = null;
    this.scale = 1;
  }

  /** Begin a frame; the window is what is to be seen: left, bottom, right, top [in].
   * @param {[number, number, number, number]} window */
  begin(window) {
    this.used.clear();
    const [left, bottom, right, top] = window;
    const margin = 26;
    this.scale = Math.min((320 - 2 * margin) / (right - left), (240 - 2 * margin) / (top - bottom));
    this.middle = [(left + right) / 2, (bottom + top) / 2];
    this.window = window;
  }

  /** @param {Spot} spot @returns {Spot} */
  at(spot) {
    const [x, y] = /** @type {Spot} */ (this.middle);
    return [160 + (spot[0] - x) * this.scale, 120 - (spot[1] - y) * this.scale];
  }

  /** @param {string} key @param {Spot[]} spots @param {string} kind */
  area(key, spots, kind) {
    const points = spots.map((spot) => this.at(spot).map(short).join(",")).join(" ");
    this.put(key, "polygon", { points, class: kind });
  }

  /** @param {string} key @param {Spot} from @param {Spot} to @param {string} kind @param {string} [mark] */
  line(key, from, to, kind, mark) {
    const [[x1, y1], [x2, y2]] = [this.at(from), this.at(to)];
    /** @type {Record<string, string>} */
    const set = { x1: exact(x1), y1: exact(y1), x2: exact(x2), y2: exact(y2), class: kind };
    if (mark) set["data-mark"] = mark;
    this.put(key, "line", set);
  }

  /** @param {string} key @param {Spot} spot @param {string} text @param {string} [anchor]
   * @param {Spot} [off] how far from the spot [px of the frame] */
  words(key, spot, text, anchor = "middle", off = [0, 0]) {
    const [x, y] = this.at(spot);
    const half = anchor === "middle" ? 4 * text.length : 4;
    const set = {
      x: short(Math.min(Math.max(x + off[0], half), 320 - half)),
      y: short(Math.min(Math.max(y + off[1], 12), 232)),
      "text-anchor": anchor, class: "words",
    };
    const node = this.put(key, "text", set);
    if (node.textContent !== text) node.textContent = text;
  }

  /** Hide what this frame did not draw. @param {string} name what it shows, in words */
  end(name) {
    for (const [key, node] of this.nodes) {
      if (!this.used.has(key)) this.attribute(key, node, "display", "none");
    }
    this.attribute("svg", this.svg, "aria-label", name);
  }

  /** @param {string} key @param {string} tag @param {Record<string, string>} set */
  put(key, tag, set) {
    let node = this.nodes.get(key);
    if (!node) {
      node = document.createElementNS(SVG, tag);
      this.nodes.set(key, node);
      const layer = LAYERS.findIndex((names) => names.some((name) => key.startsWith(name)));
      const at = tag === "text" ? LAYERS.length + 1 : layer < 0 ? LAYERS.length : layer;
      /** @type {SVGElement} */ (this.layers[at]).append(node);
    }
    this.used.add(key);
    this.attribute(key, node, "display", "");
    for (const [name, text] of Object.entries(set)) this.attribute(key, node, name, text);
    return node;
  }

  /** @param {string} key @param {Element} node @param {string} name @param {string} text */
  attribute(key, node, name, text) {
    const known = `${key} ${name}`;
    if (this.set.get(known) === text) return;
    this.set.set(known, text);
    if (text === "") node.removeAttribute(name);
    else node.setAttribute(name, text);
  }
}

/** @param {number} value */
const short = (value) => value.toFixed(1);
/** @param {number} value */
const exact = (value) => value.toFixed(4);

/**
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag @param {string} [kind] @param {string} [text] @returns {HTMLElementTagNameMap[Tag]}
 */
function made(tag, kind = "", text = "") {
  const node = document.createElement(tag);
  if (kind) node.className = kind;
  if (text) node.textContent = text;
  return node;
}
