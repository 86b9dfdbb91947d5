// The square laid on the face and on the edge, by the numbers that were packed.

/** The square laid on the face or on the edge.
 * @param {Sheet} sheet @param {Scene} scene @param {"face" | "edge"} where */
function drawSquare(sheet, scene, where) {
  const face = shownFace(scene);
  const way = face === "right" ? 1 : -1;
  const span = scene.board.spans[0];
  const top = scene.half.rip ? /** @type {Vec} */ (scene.normals[0])[2] > 0 : span[1][1] > scene.deep - 1e-6;
  const [axis, at, wide] = /** @type {[1 | 2, number, number]} */ (
    where === "face" ? [1, face === "right" ? 0 : scene.thick, scene.deep] : [2, top ? scene.deep : 0, scene.thick]
  );
  const name = where === "face" ? face : top ? "top" : "bottom";
  // The head is at the right on the right face; the edge is folded out from the arris they share.
  const out = top ? way : -way;
  const mirrored = where === "edge" && out < 0;
  /** @param {Vec} p @returns {Spot} */
  const flat = (p) => [way * p[0], where === "face" ? p[2] : mirrored ? wide - p[1] : p[1]];
  const mark = scene.half[where];
  const own = span[axis === 1 ? 1 : 0];
  const space = /** @type {Space} */ (spaces(scene, false)[0]);
  const line = markLine(space, axis, at, own[0], own[1]);
  const ends = line ? /** @type {[Spot, Spot]} */ (line.map(flat)) : null;
  const kept = -way * Math.sign(space.normal[0]);
  const laid = ends && mark.numbers ? laidSquare(ends, wide, kept, mark) : null;
  const box = shownBox(scene);
  const sides = [way * box.low[0], way * box.high[0]].sort((a, b) => a - b);
  let [left, right] = /** @type {[number, number]} */ (sides);
  if (laid) {
    const spots = laid.arms.flat();
    left = Math.min(left, ...spots.map((spot) => spot[0]));
    right = Math.max(right, ...spots.map((spot) => spot[0]));
    sheet.begin(bounds([[left, -0.2], [right, wide + 0.2], ...spots]));
  } else sheet.begin([left, -0.4, right, wide + 0.4]);
  sheet.area("board", [[left, 0], [right, 0], [right, wide], [left, wide]], "blank");
  for (const [i, piece] of keptPieces(box, spaces(scene, false), scene.half.point, [0, 0, 1]).entries()) {
    const facet = piece.facets.find((one) => one.name === name);
    if (facet) sheet.area(`kept ${i}`, facet.points.map(flat), "wood plain");
  }
  if (laid) {
    laid.arms.forEach((arm, i) => sheet.area(`arm ${i}`, arm, "steel see-through"));
    const [on, over] = /** @type {[Spot, Spot]} */ (laid.spots);
    sheet.words("on", on, mark.numbers[0], "middle", [0, laid.below ? 15 : -7]);
    sheet.words("over", over, mark.numbers[1], "middle", [0, laid.below ? 15 : -7]);
    sheet.words("arm name", laid.middle, mark.arm, "middle");
  }
  if (ends) sheet.line("mark", ends[0], ends[1], "mark", `${where}-mark`);
  else gauged(sheet, scene, where, at, flat, [box.low[0], box.high[0]]);
  const wrong = scene.wrong && markLine({ normal: scene.wrong, level: dot(scene.wrong, scene.board.points[0]) }, axis, at, own[0], own[1]);
  if (wrong && ends) sheet.line("wrong", flat(wrong[0]), flat(wrong[1]), "wrong", `${where}-wrong`);
  const [lowEnd, highEnd] = [flat([box.low[0], 0, 0])[0], flat([box.high[0], 0, 0])[0]];
  const [side, off] = laid && !laid.below ? [0, 13] : [wide, -4];
  sheet.words("head", [highEnd, side], "HEAD", highEnd > lowEnd ? "end" : "start", [0, off]);
  sheet.words("foot", [lowEnd, side], "FOOT", highEnd > lowEnd ? "start" : "end", [0, off]);
  sheet.end(`The ${name} ${where === "face" ? "face" : "edge"}: ${where} mark ${mark.said} from square across.`);
}

/** The lines of a bevel that runs along the board.
 * @param {Sheet} sheet @param {Scene} scene @param {"face" | "edge"} where @param {number} at
 * @param {(p: Vec) => Spot} flat @param {[number, number]} length */
function gauged(sheet, scene, where, at, flat, length) {
  spaces(scene, false).forEach(({ normal, level }, i) => {
    const [, ny, nz] = normal;
    const own = scene.board.spans[i][where === "face" ? 0 : 1];
    if (at < own[0] - 1e-6 || at > own[1] + 1e-6) return; // the other plane lies on this surface
    const other = where === "face" ? (level - ny * at) / nz : (level - nz * at) / ny;
    const most = where === "face" ? scene.deep : scene.thick;
    if (!(other > -1e-6 && other < most + 1e-6)) return;
    /** @param {number} x @returns {Vec} */
    const end = (x) => (where === "face" ? [x, at, other] : [x, other, at]);
    sheet.line(`gauge ${i}`, flat(end(length[0])), flat(end(length[1])), "mark", `${where}-gauge`);
  });
}

const ARM = { blade: { long: 24, wide: 2 }, tongue: { long: 16, wide: 1.5 } };

/** Where the square lies: from the arris on whose kept side its other arm falls.
 * @param {[Spot, Spot]} ends @param {number} wide @param {number} kept @param {any} mark */
function laidSquare(ends, wide, kept, mark) {
  const [a, b] = ends;
  const steep = Math.hypot(b[0] - a[0], b[1] - a[1]);
  /** @type {Spot} */
  const up = [(b[0] - a[0]) / steep, (b[1] - a[1]) / steep];
  /** @param {number} v @returns {Spot} */
  const onArris = (v) => [a[0] + (up[0] / up[1]) * (v - a[1]), v];
  const below = up[0] * kept >= 0;
  const spot = onArris(below ? 0 : wide);
  /** @type {Spot} */
  const into = below ? up : [-up[0], -up[1]];
  const far = Math.hypot(mark.on, mark.over);
  /** @type {Spot} */
  const beside = [spot[0] + Math.sign(into[0] || kept) * far, spot[1]];
  /** @type {Spot} */
  const heel = [spot[0] + into[0] * mark.on, spot[1] + into[1] * mark.on];
  /** @type {Spot} */
  const other = [(beside[0] - heel[0]) / (mark.over || 1), (beside[1] - heel[1]) / (mark.over || 1)];
  /** @type {Spot} */
  const along = [-into[0], -into[1]];
  const [one, two] = mark.arm === "blade" ? [ARM.blade, ARM.tongue] : [ARM.tongue, ARM.blade];
  return {
    arms: [
      arm(heel, along, other, Math.min(mark.on + 1.7, one.long), one.wide),
      arm(heel, other, along, Math.min(mark.over + 1.7, two.long), two.wide),
    ],
    spots: [spot, beside],
    middle: /** @type {Spot} */ ([
      heel[0] + along[0] * mark.on * 0.5 + other[0] * one.wide * 0.5,
      heel[1] + along[1] * mark.on * 0.5 + other[1] * one.wide * 0.5,
    ]),
    below,
  };
}

/** @param {Spot} heel @param {Spot} way @param {Spot} inner @param {number} long @param {number} wide
 * @returns {Spot[]} */
const arm = (heel, way, inner, long, wide) => [
  heel,
  [heel[0] + way[0] * long, heel[1] + way[1] * long],
  [heel[0] + way[0] * long + inner[0] * wide, heel[1] + way[1] * long + inner[1] * wide],
  [heel[0] + inner[0] * wide, heel[1] + inner[1] * wide],
];
