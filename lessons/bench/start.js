// The page begins: the cut named in the address, or the first of the list; the roof, the board and
// the lesson that the address asks for.

const bench = new Bench();
const drills = new Drills(new Progress());
const claims = new Claims();
const askedFor = new URLSearchParams(location.search);
const named = decodeURIComponent(location.hash.replace(/^#bench-/, ""));
void Promise.all([
  bench.choose(bench.cuts.some((cut) => cut.id === named) ? named : bench.cuts[0].id),
  drills.load(),
  claims.load(),
]).then(() => {
  bench.ask(askedFor);
  drills.ask(askedFor);
  document.documentElement.dataset["ready"] = "yes";
});
