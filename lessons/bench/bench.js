// The bench: choose a cut, move the sliders, turn the board. Numbers and words are always those
// of a packed step; between two steps only the pictures move.

const MOVE_MS = 160;
const SLIDERS = /** @type {const} */ (["pitch", "other", "corner"]);

/** @param {string} id @returns {any} */
const byId = (id) => document.getElementById(id);

/** What is packed in the page. @param {string} id @returns {any} */
const packed = (id) => JSON.parse(byId(id).textContent);

/** @param {string} text @returns {Promise<any>} */
async function inflated(text) {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  return JSON.parse(await new Response(stream).text());
}

class Bench {
  constructor() {
    const all = packed("packed-cuts");
    /** @type {any[]} */
    this.cuts = all.cuts;
    /** @type {any[]} */
    this.mistakes = all.mistakes;
    /** @type {Map<string, any>} */
    this.open = new Map();
    /** @type {any} */
    this.cut = null;
    this.slider = "pitch";
    this.at = { pitch: 0, other: 0, corner: 0 };
    this.hand = "left";
    this.boardAt = 0;
    /** @type {number | null} */
    this.mistake = null;
    /** @type {Vec} */
    this.eye = [0.5, -0.7, 0.5];
    /** @type {Scene | null} */
    this.scene = null;
    this.frame = 0;
    this.offered = "";
    this.still = matchMedia("(prefers-reduced-motion: reduce)");
    this.sheets = {
      board: new Sheet("board", "The board in the roof. Drag to turn it."),
      along: new Sheet("along", "Seen along the face mark"),
      plan: new Sheet("plan", "From straight above"),
      face: new Sheet("face", "The square on the face"),
      edge: new Sheet("edge", "The square on the edge"),
      saw: new Sheet("saw", "The saw, seen along its cut"),
      gap: new Sheet("gap", "The test cut, against its mate"),
    };
    byId("pictures").append(...Object.values(this.sheets).map((sheet) => sheet.figure));
    this.listen();
  }

  listen() {
    byId("cut").addEventListener("change", () => this.choose(byId("cut").value));
    for (const name of SLIDERS) {
      byId(name).addEventListener("input", () => {
        this.slider = name;
        this.at[name] = Number(byId(name).value);
        this.show();
      });
    }
    byId("hands").addEventListener("change", (/** @type {any} */ event) => {
      this.hand = event.target.value;
      this.eye = this.cut.eyes[this.hand];
      this.show();
    });
    byId("stock").addEventListener("change", () => {
      this.boardAt = Number(byId("stock").value);
      this.show();
    });
    byId("setting").addEventListener("change", () => {
      const value = byId("setting").value;
      this.mistake = value === "right" ? null : Number(value);
      this.show();
    });
    const svg = this.sheets.board.svg;
    svg.setAttribute("tabindex", "0");
    /** @type {Spot | null} */
    let held = null;
    svg.addEventListener("pointerdown", (event) => {
      held = [event.clientX, event.clientY];
      svg.setPointerCapture(event.pointerId);
    });
    svg.addEventListener("pointermove", (event) => {
      if (!held) return;
      this.turn((held[0] - event.clientX) * 0.01, (event.clientY - held[1]) * 0.01);
      held = [event.clientX, event.clientY];
    });
    for (const name of ["pointerup", "pointercancel"]) svg.addEventListener(name, () => (held = null));
    svg.addEventListener("keydown", (event) => {
      const turns = { ArrowLeft: [0.15, 0], ArrowRight: [-0.15, 0], ArrowUp: [0, 0.15], ArrowDown: [0, -0.15] };
      const turn = /** @type {any} */ (turns)[event.key];
      if (!turn) return;
      event.preventDefault();
      this.turn(turn[0], turn[1]);
    });
  }

  /** @param {number} about @param {number} over */
  turn(about, over) {
    const [x, y, z] = this.eye;
    const round = Math.atan2(y, x) + about;
    const height = Math.max(-1.4, Math.min(1.4, Math.asin(Math.max(-1, Math.min(1, z))) + over));
    this.eye = [Math.cos(round) * Math.cos(height), Math.sin(round) * Math.cos(height), Math.sin(height)];
    if (!this.scene) return;
    this.scene = { ...this.scene, eye: this.eye };
    this.paint(() => drawPictorial(this.sheets.board, /** @type {Scene} */ (this.scene)));
  }

  /** One repaint a frame. @param {() => void} draw */
  paint(draw) {
    cancelAnimationFrame(this.frame);
    this.frame = requestAnimationFrame(draw);
  }

  /** @param {string} id */
  async choose(id) {
    const listed = this.cuts.find((cut) => cut.id === id) ?? this.cuts[0];
    let cut = this.open.get(listed.id);
    if (!cut) {
      cut = { ...listed, ...(await inflated(listed.data)) };
      this.open.set(listed.id, cut);
    }
    this.cut = cut;
    byId("cut").value = cut.id;
    this.slider = "pitch";
    this.boardAt = 0;
    if (!cut.hands.includes(this.hand)) this.hand = cut.hands[0];
    this.eye = cut.eyes[this.hand];
    for (const name of SLIDERS) {
      const steps = cut.sliders[name];
      byId(`${name}-row`).hidden = !steps;
      if (!steps) continue;
      byId(name).max = steps.length - 1;
      this.at[name] = steps.findIndex((/** @type {any} */ step) => step.said === cut.usual[name]);
    }
    byId("hands").hidden = cut.hands.length < 2;
    for (const radio of byId("hands").querySelectorAll("input")) radio.checked = radio.value === this.hand;
    byId("stock").replaceChildren(
      ...cut.boards.map((/** @type {any} */ board, /** @type {number} */ i) => {
        const option = made("option", "", board.name);
        option.value = String(i);
        return option;
      }),
    );
    const first = this.mistakes.findIndex((one) => one.name === "side-number-as-tilt");
    if (this.mistake !== null) this.mistake = first;
    this.scene = null;
    document.dispatchEvent(new CustomEvent("cut-chosen", { detail: cut }));
    this.show();
  }

  /** Put what the page's address asks for, as far as a step has it. @param {URLSearchParams} asked */
  ask(asked) {
    const { sliders, boards, hands, eyes } = this.cut;
    const pitch = sliders.pitch.findIndex((/** @type {any} */ step) => step.said === asked.get("pitch"));
    const board = boards.findIndex((/** @type {any} */ one) => one.name === asked.get("stock"));
    if (pitch >= 0) this.at.pitch = pitch;
    if (board >= 0) this.boardAt = board;
    if (hands.includes(asked.get("hand"))) {
      this.hand = /** @type {string} */ (asked.get("hand"));
      this.eye = eyes[this.hand];
      for (const radio of byId("hands").querySelectorAll("input")) radio.checked = radio.value === this.hand;
    }
    this.scene = null;
    this.show();
  }

  /** The packed step that is shown. */
  step() {
    const name = /** @type {"pitch" | "other" | "corner"} */ (this.slider);
    return this.cut.sliders[name][this.at[name]];
  }

  /** Put everything on the screen: words at once, pictures on their way. */
  show() {
    for (const name of SLIDERS) {
      const steps = this.cut.sliders[name];
      if (!steps) continue;
      if (name !== this.slider) {
        const usual = steps.findIndex((/** @type {any} */ step) => step.said === this.cut.usual[name]);
        this.at[name] = name === "other" && this.slider === "pitch" ? this.at.pitch : usual;
      }
      byId(name).value = String(this.at[name]);
      byId(name).setAttribute("aria-valuetext", steps[this.at[name]].said);
      byId(`${name}-said`).textContent = steps[this.at[name]].said;
    }
    if (this.slider !== "pitch") this.boardAt = 0;
    byId("stock").value = String(this.boardAt);
    byId("stock").disabled = this.slider !== "pitch";
    byId("stock-waits").hidden = this.slider === "pitch";
    const half = this.step()[this.hand];
    const board = half.boards?.[this.boardAt];
    const refused = half.refused ?? board.refused ?? "";
    byId("refused").textContent = refused;
    byId("shown").hidden = Boolean(refused);
    if (refused) return;
    const size = this.cut.boards[this.boardAt];
    this.offer(board);
    const fault = board.made.find((/** @type {any} */ one) => one.which === this.mistake) ?? null;
    this.tell(half, board, fault);
    this.move({
      half, board, thick: size.thick, deep: size.deep, axes: half.axes, normals: half.normals,
      wrong: fault ? fault.normal : null, price: fault ? fault.gap : byId("no-gap").textContent, eye: this.eye,
    });
  }

  /** The settings that can be tried here. @param {any} board */
  offer(board) {
    const here = board.made.some((/** @type {any} */ one) => one.which === this.mistake);
    const offered = board.made.map((/** @type {any} */ one) => one.which).join(" ");
    if (offered !== this.offered) this.offerAll(board);
    this.offered = offered;
    byId("setting").value = here ? String(this.mistake) : "right";
  }

  /** @param {any} board */
  offerAll(board) {
    const options = [made("option", "", byId("set-right").textContent)];
    /** @type {HTMLOptionElement} */ (options[0]).value = "right";
    const first = this.mistakes.findIndex((one) => one.name === "side-number-as-tilt");
    const order = [...board.made].sort((a, b) => Number(b.which === first) - Number(a.which === first));
    for (const one of order) {
      const option = made("option", "", this.mistakes[one.which].does);
      option.value = String(one.which);
      options.push(option);
    }
    byId("setting").replaceChildren(...options);
  }

  /** @param {any} half @param {any} board @param {any} fault */
  tell(half, board, fault) {
    const lines = this.cut.lines;
    byId("face-said").textContent = half.face.said;
    byId("edge-said").textContent = half.edge.said;
    byId("tilt-said").textContent = half.tilt;
    // Each cheek may be out of this saw's reach; what is said alike of both is said once.
    const reach = board.said.map((/** @type {number} */ at) => lines[at])
      .filter((/** @type {string} */ line) => line.startsWith("  reach "))
      .map((/** @type {string} */ line) => line.slice("  reach ".length).trim());
    byId("tilt-reach").textContent = [...new Set(reach)].join("; ");
    byId("status").textContent = fault ? lines[fault.says] : lines[half.short];
    // Only lines that change are put anew: sliding stays cheap.
    const words = byId("words");
    board.said.forEach((/** @type {number} */ place, /** @type {number} */ at) => {
      const there = words.children[at];
      const key = `${this.cut.id} ${place}`;
      if (there?.dataset.line === key) return;
      const line = sentence(lines[place]);
      line.dataset["line"] = key;
      if (there) there.replaceWith(line);
      else words.append(line);
    });
    while (words.children.length > board.said.length) words.lastChild.remove();
    byId("fault").hidden = !fault;
    byId("fault-does").textContent = fault ? this.mistakes[fault.which].does : "";
    byId("fault-why").textContent = fault ? this.mistakes[fault.which].why : "";
    byId("fault-says").textContent = fault ? lines[fault.says] : "";
  }

  /** Move the pictures to a new scene. @param {Scene} to */
  move(to) {
    const from = this.scene;
    if (!from || from.normals.length !== to.normals.length || this.still.matches) {
      this.scene = to;
      this.paint(() => this.draw(to));
      return;
    }
    const began = performance.now();
    const run = () => {
      const part = Math.min(1, (performance.now() - began) / MOVE_MS);
      this.scene = part === 1 ? to : blended(from, to, part);
      this.draw(this.scene);
      if (part < 1) this.paint(run);
    };
    this.paint(run);
  }

  /** @param {Scene} scene */
  draw(scene) {
    drawPictorial(this.sheets.board, scene);
    drawAlong(this.sheets.along, scene, false);
    drawPlan(this.sheets.plan, scene);
    drawSquare(this.sheets.face, scene, "face");
    drawSquare(this.sheets.edge, scene, "edge");
    drawAlong(this.sheets.saw, scene, true);
    drawGap(this.sheets.gap, scene);
  }
}

/** A line of `mark`: what stands in its margin, and the rest. @param {string} line */
function sentence(line) {
  const [, indent, margin, rest] = /^(\s*)(\S+(?: \S+)* (?= )|right face|looks like) +(\S.*)$/.exec(line) ?? [];
  if (margin === undefined) return made("p", line.startsWith("      ") ? "deeper" : "", line.trim());
  const said = made("p", indent ? "deeper" : "");
  said.append(made("b", "", margin.trim()), ` ${rest}`);
  return said;
}

/** On the way from one scene to another. @param {Scene} from @param {Scene} to @param {number} part @returns {Scene} */
function blended(from, to, part) {
  const goal = to.wrong ?? /** @type {Vec} */ (to.normals[0]);
  const start = from.wrong ?? /** @type {Vec} */ (from.normals[0]);
  const swings = from.wrong || to.wrong;
  return {
    ...to,
    axes: to.axes.map((row, i) => between(/** @type {Vec} */ (from.axes[i]), row, part)),
    normals: to.normals.map((normal, i) => between(/** @type {Vec} */ (from.normals[i]), normal, part)),
    wrong: swings ? between(start, goal, part) : null,
    eye: between(from.eye, to.eye, part),
  };
}
