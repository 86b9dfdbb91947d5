// What moves: an answer that follows as one types, and a button that copies it. Everything on
// these pages works without this script too.

const WAIT_MS = 350;

/** The parts of a page that its form changes. */
const FOLLOWS = ["found", "fault"];

/** Whether a field says other than it did when the page came. @param {Element} field */
function changed(field) {
  const typed = field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement;
  if (typed) return field.value !== field.defaultValue;
  if (!(field instanceof HTMLSelectElement)) return false;
  const first = [...field.options].find((option) => option.defaultSelected) ?? field.options[0];
  return field.selectedOptions[0] !== first;
}

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
  const soon = () => {
    clearTimeout(timer);
    timer = window.setTimeout(() => void ask(), WAIT_MS);
  };
  form.addEventListener("input", soon);
  if ([...form.elements].some(changed)) soon(); // typed before this script had come
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

const SLOW = "It is being made. This may take a minute or more: leave this page open.";
const SHOWN_MS = 90_000;

/** Say at the press of what takes time that it is being made; nothing more is said once it came. */
function tell() {
  const said = document.getElementById("working");
  if (!said) return;
  let timer = 0;
  const quiet = () => {
    clearTimeout(timer);
    said.textContent = "";
  };
  const begin = () => {
    said.textContent = SLOW;
    clearTimeout(timer);
    // A file that is only saved leaves the page as it is.
    timer = window.setTimeout(quiet, SHOWN_MS);
  };
  document.addEventListener("click", (event) => {
    if (event.target instanceof Element && event.target.closest("a[data-slow]")) begin();
  });
  document.addEventListener("submit", (event) => {
    if (event.target instanceof Element && event.target.matches("[data-slow]")) begin();
  });
  window.addEventListener("pageshow", quiet);
}

tell();
for (const form of document.querySelectorAll("form[data-follow]")) {
  follow(/** @type {HTMLFormElement} */ (form));
}
dress();
