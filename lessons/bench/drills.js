// Problems one at a time: asked, answered, judged, explained, with the gap that the answer leaves.

class Drills {
  /** @param {Progress} progress */
  constructor(progress) {
    this.progress = progress;
    const all = packed("packed-drills");
    this.seed = all.seed;
    this.packed = all.data;
    /** @type {any[]} */
    this.lessons = [];
    /** @type {any} */
    this.problem = null;
    this.tries = 0;
    this.hints = 0;
    this.done = false;
    this.sheet = new Sheet("drill-gap", byId("gap-title").textContent ?? "");
    byId("drill-picture").append(this.sheet.figure);
    this.marking = new Marking();
    byId("drill-lesson").addEventListener("change", () => this.choose());
    byId("drill-number").addEventListener("change", () => this.put());
    byId("drill-form").addEventListener("submit", (/** @type {Event} */ event) => {
      event.preventDefault();
      this.answer(byId("drill-answer").value);
    });
    byId("drill-hint").addEventListener("click", () => this.hint());
    byId("drill-show").addEventListener("click", () => this.showAnswer());
    byId("drill-next").addEventListener("click", () => this.next());
    byId("drill-check").addEventListener("click", () => this.judgeMarks());
  }

  async load() {
    this.lessons = await inflated(this.packed);
    for (const [at, lesson] of this.lessons.entries()) {
      const option = made("option", "", `${lesson.number}. ${lesson.title}`);
      option.value = String(at);
      byId("drill-lesson").append(option);
    }
    byId("drill-seed").textContent = String(this.seed);
    byId("drills").hidden = this.lessons.length === 0;
    if (this.lessons.length === 0) return;
    this.choose();
  }

  /** Begin with the lesson that the page's address names. @param {URLSearchParams} asked */
  ask(asked) {
    const at = this.lessons.findIndex((lesson) => lesson.name === asked.get("lesson"));
    if (at < 0) return;
    byId("drill-lesson").value = String(at);
    this.choose();
  }

  lesson() {
    return this.lessons[Number(byId("drill-lesson").value)];
  }

  choose() {
    byId("drill-number").replaceChildren(
      ...this.lesson().problems.map((/** @type {any} */ _, /** @type {number} */ at) => {
        const option = made("option", "", String(at + 1));
        option.value = String(at);
        return option;
      }),
    );
    this.put();
  }

  next() {
    const list = byId("drill-number");
    list.value = String((Number(list.value) + 1) % this.lesson().problems.length);
    this.put();
    byId("drill-asked").focus();
  }

  put() {
    const problem = this.lesson().problems[Number(byId("drill-number").value)];
    this.problem = problem;
    this.tries = this.hints = 0;
    this.done = false;
    byId("drill-asked").replaceChildren(...problem.asked.flatMap(block));
    byId("drill-tolerance").textContent = problem.tolerance;
    byId("drill-said").replaceChildren();
    byId("drill-hints").replaceChildren();
    byId("drill-picture").hidden = true;
    byId("drill-answer").value = "";
    const words = problem.layout?.letters ?? problem.sought?.choices ?? [];
    const { drawn } = problem;
    byId("drill-form").hidden = words.length > 0 || drawn;
    byId("drill-tolerance").hidden = drawn;
    byId("marking").hidden = !drawn;
    byId("drill-words").replaceChildren(
      ...words.map((/** @type {string} */ word) => {
        const button = made("button", "", word);
        button.type = "button";
        button.addEventListener("click", () => this.answer(word));
        return button;
      }),
    );
    if (drawn) this.marking.begin(problem);
  }

  /** @param {string} text */
  answer(text) {
    const answered = readAnswer(this.problem, text);
    if (!answered) {
      this.say([this.problem.tolerance]);
      return;
    }
    this.tries += 1;
    this.judged(grade(this.problem, answered));
  }

  /** @param {Graded} graded */
  judged(graded) {
    const problem = this.problem;
    const said = `Read as ${graded.answered.said}.`;
    if (graded.right) {
      this.keep(true, graded);
      this.say([`${said} Right.`, problem.reason]);
      this.picture(problem.layout ?? this.own(graded));
      return;
    }
    if (graded.wrongs.length > 1) {
      this.which(said, graded);
      return;
    }
    this.explain(said, graded);
  }

  /** Several mistakes give this answer: the learner says which. @param {string} said @param {Graded} graded */
  which(said, graded) {
    this.say([said, `More than one way leads to ${graded.answered.said}. Which is nearest to yours?`]);
    const list = made("p", "buttons");
    for (const wrong of [...graded.wrongs, null]) {
      const button = made("button", "", wrong ? wrong.does : "Another way.");
      button.type = "button";
      button.addEventListener("click", () =>
        this.explain(said, { ...graded, wrongs: wrong ? [wrong] : [] }),
      );
      list.append(button);
    }
    byId("drill-said").append(list);
  }

  /** @param {string} said @param {Graded} graded */
  explain(said, graded) {
    const [wrong] = graded.wrongs;
    this.keep(false, graded);
    const why = wrong
      ? wrong.words[graded.answered.sense ?? ""].replaceAll(SAID, graded.answered.said)
      : unexplained(this.problem, graded);
    this.say([said, why]);
    const fault = wrong?.normal ? wrong : this.own(graded);
    if (fault) this.picture(fault);
    else byId("drill-picture").hidden = true;
  }

  /** The plane that the answer itself leads to, with its gap; null where it leads to none.
   * @param {Graded} graded @returns {{normal: Vec, gap: string} | null} */
  own(graded) {
    const { swing, scene } = this.problem;
    const { value, sense } = graded.answered;
    if (!swing || typeof value !== "number" || (sense && sense !== this.problem.sense?.right)) return null;
    const normal = swung(swing, value);
    if (!normal) return null;
    const right = /** @type {Vec} */ (scene.half.normals[0]);
    return { normal, gap: gapWords(Math.max(...gaps(right, normal, scene.board.points[0], scene.board.spans[0]))) };
  }

  judgeMarks() {
    const problem = this.problem;
    const found = this.marking.judged();
    this.tries += 1;
    const fits = found.gap <= 1 / 32;
    const graded = { answered: { value: found.said, said: found.said }, right: fits, wrongs: [] };
    this.keep(fits, graded);
    this.say([...found.lines, ...(fits ? [problem.reason] : [])]);
    this.picture({ normal: found.normal, gap: found.gapSaid });
  }

  /** The cut that an answer leads to, against its mate. @param {{normal: Vec, gap: string} | null} fault */
  picture(fault) {
    const { half, board, thick, deep } = this.problem.scene;
    byId("drill-picture").hidden = false;
    drawGap(this.sheet, {
      half, board, thick, deep, axes: half.axes, normals: half.normals, eye: [0, 0, 1],
      wrong: fault ? fault.normal : null,
      price: fault ? fault.gap : byId("no-gap").textContent,
    });
  }

  hint() {
    const { hints, like } = this.problem;
    const list = byId("drill-hints");
    if (this.hints < hints.length) list.append(made("p", "", hints[this.hints]));
    else if (this.hints === hints.length) list.append(...like.flatMap(block));
    this.hints += 1;
  }

  showAnswer() {
    this.keep(false, null, true);
    this.say([this.problem.answer]);
    this.picture(null);
  }

  /** @param {string[]} lines */
  say(lines) {
    byId("drill-said").replaceChildren(...lines.map((line) => made("p", "", line)));
  }

  /** @param {boolean} right @param {Graded | null} graded @param {boolean} [shown] */
  keep(right, graded, shown = false) {
    const problem = this.problem;
    this.progress.add({
      when: now(), lesson: this.lesson().name, drill: problem.drill, kind: problem.kind,
      right: right ? "True" : "False", tries: String(this.tries + (shown ? 1 : 0)),
      hints: String(this.hints), shown: shown ? "True" : "False",
      answered: graded ? String(graded.answered.value) : "",
      mistakes: graded ? graded.wrongs.map((one) => one.name).join(" ") : "",
      given: problem.given,
    });
  }
}

/** Packed words as elements; nothing of them is ever HTML. @param {any} packedBlock @returns {HTMLElement[]} */
function block(packedBlock) {
  if (!packedBlock.rows) return [made("p", packedBlock.strong ? "strong" : "", packedBlock.text)];
  const list = made("dl", "rows");
  for (const [name, text] of packedBlock.rows) list.append(made("dt", "", name), made("dd", "", text));
  return [list];
}
