// What moves: an answer that follows as one types, and a button that copies it. Everything on
// these pages works without this script too.

const WAIT_MS = 350;

/** The parts of a page that its form changes. */
const FOLLOWS = ["found", "fault"];

/** @param {HTMLFormElement} form */
function follow(form) {
  let timer = 0;
  let asked = 0;
  const ask = async () => {
    asked += 1;
    const here = asked;
    const filled = new URLSearchParams();
    for (const [name, value] of new FormData(form)) {
      if (typeof value === "string" && (form.id === "job" || value.trim())) filled.append(name, value);
    }
    const address = `${form.action.split("?")[0]}?${filled}`;
    const answer = await fetch(address, { credentials: "same-origin" }).catch(() => null);
    if (!answer || here !== asked) return;
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    for (const id of FOLLOWS) {
      const [old, fresh] = [document.getElementById(id), page.getElementById(id)];
      if (old && fresh) old.replaceWith(document.adoptNode(fresh));
    }
    // What is wrong with a job is said beside its field.
    for (const said of document.querySelectorAll(".wrong-here")) {
      said.textContent = page.getElementById(said.id)?.textContent ?? "";
    }
    history.replaceState(null, "", address);
    dress();
  };
  form.addEventListener("input", () => {
    clearTimeout(timer);
    timer = window.setTimeout(() => void ask(), WAIT_MS);
  });
}

/** Buttons that only a script can serve are shown by it. */
function dress() {
  for (const button of document.querySelectorAll("button[data-copy]")) {
    const copy = /** @type {HTMLButtonElement} */ (button);
    if (!copy.hidden) continue;
    copy.hidden = false;
    copy.addEventListener("click", () => {
      const from = document.getElementById(copy.dataset["copy"] ?? "");
      void navigator.clipboard.writeText(from?.textContent ?? "").then(() => {
        const told = document.getElementById("copied");
        if (told) told.textContent = "Copied.";
      });
    });
  }
}

for (const form of document.querySelectorAll("form[data-follow]")) {
  follow(/** @type {HTMLFormElement} */ (form));
}
dress();
