// Marking a board: a line on the face and a line on the edge, turned about the arris they share.
// The square snaps to eighths on 12. What is drawn fixes a plane; its gap is what is judged.

/** Every slant the square snaps to: how far along for one across, from the foot to the head. */
const SLANTS = (() => {
  const steep = Array.from({ length: 96 }, (_, n) => n / 8 / 12);
  const flat = Array.from({ length: 89 }, (_, n) => 12 / ((96 - n) / 8));
  const half = [...steep, ...flat];
  return [...half.slice(1).map((slant) => -slant).reverse(), ...half];
})();
const SQUARE = (SLANTS.length - 1) / 2;

class Marking {
  constructor() {
    /** @type {any} */
    this.problem = null;
    this.at = { face: SQUARE, edge: SQUARE };
    this.svg = /** @type {SVGSVGElement} */ (byId("marking-board"));
    this.board = document.createElementNS(SVG, "g");
    this.svg.append(this.board);
    for (const where of /** @type {const} */ (["face", "edge"])) {
      const slider = byId(`marking-${where}`);
      slider.max = String(SLANTS.length - 1);
      slider.addEventListener("input", () => {
        this.at[where] = Number(slider.value);
        this.show();
      });
    }
    /** @type {"face" | "edge" | null} */
    let held = null;
    this.svg.addEventListener("pointerdown", (event) => {
      held = this.spot(event)[1] > this.arris() ? "face" : "edge";
      this.svg.setPointerCapture(event.pointerId);
      this.draw(held, this.spot(event));
    });
    this.svg.addEventListener("pointermove", (event) => {
      if (held) this.draw(held, this.spot(event));
    });
    for (const name of ["pointerup", "pointercancel"]) this.svg.addEventListener(name, () => (held = null));
  }

  /** @param {any} problem */
  begin(problem) {
    this.problem = problem;
    this.at = { face: SQUARE, edge: SQUARE };
    const { scene } = problem;
    const span = scene.board.spans[0];
    this.faceName = span[0][0] < 1e-6 ? "right" : "left";
    this.edgeName = span[1][1] > scene.deep - 1e-6 ? "top" : "bottom";
    // With the edge on top of the picture the head is at the right, of the right face's top edge.
    this.way = (this.faceName === "right" ? 1 : -1) * (this.edgeName === "top" ? 1 : -1);
    byId("marking-face-name").textContent = `${this.faceName} face`;
    byId("marking-edge-name").textContent = `${this.edgeName} edge`;
    this.show();
  }

  /** Where the finger is, in the picture's own measure. @param {PointerEvent} event @returns {Spot} */
  spot(event) {
    const box = this.svg.getBoundingClientRect();
    return [
      ((event.clientX - box.left) / box.width) * 400, ((event.clientY - box.top) / box.height) * 260,
    ];
  }

  scale() {
    const { deep, thick } = this.problem.scene;
    return 220 / (deep + thick);
  }

  /** The arris that face and edge share, from the top of the picture. */
  arris() {
    return 20 + this.problem.scene.thick * this.scale();
  }

  /** Turn a line to where the finger is. @param {"face" | "edge"} where @param {Spot} spot */
  draw(where, spot) {
    const away = Math.abs(spot[1] - this.arris());
    if (away < 6) return;
    const slant = ((spot[0] - 200) / away) * this.signOf(where);
    let best = SQUARE;
    SLANTS.forEach((one, at) => {
      if (Math.abs(Math.atan(one) - Math.atan(slant)) < Math.abs(Math.atan(/** @type {number} */ (SLANTS[best])) - Math.atan(slant))) best = at;
    });
    this.at[where] = best;
    this.show();
  }

  /** +1 where a line that runs to the right, away from the arris, leans to the head there as its
   * own sense counts it: up the face, or to the left face across the edge.
   * @param {"face" | "edge"} where */
  signOf(where) {
    const away = where === "face" ? (this.edgeName === "top" ? -1 : 1) : this.faceName === "right" ? 1 : -1;
    return away * /** @type {number} */ (this.way);
  }

  /** How far along for one up the face, or for one to the left. @param {"face" | "edge"} where */
  slant(where) {
    return /** @type {number} */ (SLANTS[this.at[where]]);
  }

  show() {
    const { deep, thick } = this.problem.scene;
    const [scale, arris] = [this.scale(), this.arris()];
    const ends = /** @type {Record<"face" | "edge", Spot>} */ ({
      face: [200 + this.slant("face") * this.signOf("face") * deep * scale, arris + deep * scale],
      edge: [200 + this.slant("edge") * this.signOf("edge") * thick * scale, 20],
    });
    /** @type {SVGElement[]} */
    const nodes = [];
    /** @param {string} tag @param {Record<string, string | number>} set @param {string} [text] */
    const put = (tag, set, text) => {
      const node = /** @type {SVGElement} */ (document.createElementNS(SVG, tag));
      for (const [name, value] of Object.entries(set)) node.setAttribute(name, String(value));
      if (text) node.textContent = text;
      nodes.push(node);
    };
    put("rect", { x: 10, y: 20, width: 380, height: thick * scale, class: "wood top edge-line" });
    put("rect", { x: 10, y: arris, width: 380, height: deep * scale, class: "wood edge-line" });
    put("text", { x: 16, y: 34, class: "words" }, `${this.edgeName} edge`);
    put("text", { x: 16, y: arris + deep * scale - 8, class: "words" }, `${this.faceName} face`);
    const [left, right] = this.way === 1 ? ["FOOT", "HEAD"] : ["HEAD", "FOOT"];
    put("text", { x: 14, y: arris + 16, class: "words" }, left);
    put("text", { x: 386, y: arris + 16, class: "words", "text-anchor": "end" }, right);
    for (const where of /** @type {const} */ (["edge", "face"])) {
      const [x, y] = ends[where];
      put("line", { x1: 200, y1: arris, x2: x, y2: y, class: "mark", "data-mark": `drawn-${where}` });
      put("circle", { cx: x, cy: y, r: 8, class: "handle" });
    }
    this.board.replaceChildren(...nodes);
    for (const where of /** @type {const} */ (["face", "edge"])) {
      const slider = byId(`marking-${where}`);
      slider.value = String(this.at[where]);
      const said = this.said(where);
      slider.setAttribute("aria-valuetext", said);
      byId(`marking-${where}-said`).textContent = said;
    }
  }

  /** @param {"face" | "edge"} where */
  said(where) {
    const slant = this.slant(where);
    const end = slant > 0 ? "head" : "foot";
    const size = Math.abs(slant);
    if (size < 1e-9) return "square across";
    const pair = size <= 1 ? [fraction(size * 12, 8), "12"] : ["12", fraction(12 / size, 8)];
    const far = where === "face" ? "top" : "left end";
    return `marked along ${pair[0]}, with ${pair[1]} held; the ${far} leans toward the ${end}`;
  }

  /** The plane through both lines, and the gap it leaves. */
  judged() {
    const { half, board } = this.problem.scene;
    const right = /** @type {Vec} */ (half.normals[0]);
    const [up, across] = [this.slant("face"), this.slant("edge")];
    const normal = unit(times([1, -across, -up], Math.sign(right[0])));
    const gap = Math.max(...gaps(right, normal, board.points[0], board.spans[0]));
    const gapSaid = gapWords(gap);
    const lines = /** @type {const} */ (["face", "edge"]).map((where) => {
      const own = where === "face" ? up : across;
      const true_ = where === "face" ? -right[2] / right[0] : -right[1] / right[0];
      const name = where === "face" ? "face mark" : "edge mark";
      /** @param {number} a @param {number} b */
      const off = (a, b) => Math.abs(Math.atan(a) - Math.atan(b)) * (180 / Math.PI);
      if (off(own, true_) <= 0.5) return `The ${name} is right.`;
      if (off(-own, true_) <= 0.5) return `The ${name} has the right angle, but leans the other way.`;
      return `The ${name} is ${degrees(off(own, true_))} off.`;
    });
    const verdict = gap <= 1 / 32 ? "It fits" : "It leaves a gap";
    return {
      normal, gap, gapSaid,
      lines: [`${verdict}: ${gapSaid}.`, ...lines],
      said: `face ${this.said("face")}; edge ${this.said("edge")}`,
    };
  }
}
