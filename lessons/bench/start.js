// The page begins: the cut named in the address, or the first of the list.

const bench = new Bench();
/** @param {string} id */
const opened = (id) => bench.choose(id);
const named = decodeURIComponent(location.hash.replace(/^#bench-/, ""));
void opened(bench.cuts.some((cut) => cut.id === named) ? named : bench.cuts[0].id).then(() => {
  document.documentElement.dataset["ready"] = "yes";
});
