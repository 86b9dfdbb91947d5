// Each judged answer of the bench goes to the program that served it, and into the same progress as
// the terminal's drills. Where that fails the answer is still kept on this device.

document.addEventListener("answered", (event) => {
  const row = /** @type {CustomEvent<Record<string, string>>} */ (event).detail;
  void fetch("/progress/answered", {
    method: "POST",
    credentials: "same-origin",
    headers: { "Content-Type": "application/x-www-form-urlencoded" },
    body: new URLSearchParams(row).toString(),
  }).then((reply) => {
    const said = document.getElementById("kept-here");
    if (said) said.hidden = !reply.ok;
  }).catch(() => {});
});
