// Two carpenters, two of the listed claims, and the finding that `settle` made of them.

class Claims {
  constructor() {
    this.packed = packed("packed-claims").data;
    /** @type {any[]} */
    this.lessons = [];
    this.sheet = new Sheet("claim-gap", byId("gap-title").textContent ?? "");
    byId("claim-picture").append(this.sheet.figure);
    byId("claim-lesson").addEventListener("change", () => this.choose());
    byId("claim-roof").addEventListener("change", () => this.roofChosen());
    byId("claim-one").addEventListener("change", () => this.show());
    byId("claim-two").addEventListener("change", () => this.show());
  }

  async load() {
    this.lessons = await inflated(this.packed);
    byId("settle").hidden = this.lessons.length === 0;
    if (this.lessons.length === 0) return;
    this.fill("claim-lesson", this.lessons.map((one) => one.title));
    this.choose();
  }

  /** @param {string} id @param {string[]} texts @param {number} [at] */
  fill(id, texts, at = 0) {
    const options = texts.map((text, i) => {
      const option = made("option", "", text);
      option.value = String(i);
      return option;
    });
    byId(id).replaceChildren(...options);
    byId(id).value = String(at);
  }

  lesson() {
    return this.lessons[Number(byId("claim-lesson").value)];
  }

  roof() {
    return this.lesson().roofs[Number(byId("claim-roof").value)];
  }

  choose() {
    this.fill("claim-roof", this.lesson().roofs.map((/** @type {any} */ one) => one.said));
    this.roofChosen();
  }

  roofChosen() {
    const said = this.roof().claims.map((/** @type {any} */ one) => one.said);
    this.fill("claim-one", said);
    this.fill("claim-two", said, Math.min(2, said.length - 1));
    this.show();
  }

  show() {
    const { claims, pairs, scene } = this.roof();
    const [one, two] = [Number(byId("claim-one").value), Number(byId("claim-two").value)];
    const [low, high] = [Math.min(one, two), Math.max(one, two)];
    const before = (low * (2 * claims.length - low - 1)) / 2;
    const found = low === high ? claims[low].found : pairs[before + (high - low - 1)];
    byId("claim-found").replaceChildren(...found.map(sentence));
    const wrong = [claims[one], claims[two]].find((claim) => claim.verdict === "wrong");
    const { half, board, thick, deep } = scene;
    drawGap(this.sheet, {
      half, board, thick, deep, axes: half.axes, normals: half.normals, eye: [0, 0, 1],
      wrong: wrong ? wrong.normal : null,
      price: wrong ? `${wrong.said}: ${wrong.gap}` : byId("no-gap").textContent,
    });
  }
}
