// The bench's pictures. Each is the kept wood seen by a camera; no mark or setting is worked out
// here: lines are where the packed plane meets the board.

/** @typedef {{right: Vec, up: Vec, toward: Vec}} Camera */
/**
 * @typedef {object} Scene what all pictures of one moment are drawn from
 * @property {any} half the packed hand of the step
 * @property {any} board the packed board of the step
 * @property {number} thick @property {number} deep
 * @property {Vec[]} axes the board's axes as rows, in the world
 * @property {Vec[]} normals the joint's planes
 * @property {Vec | null} wrong the plane that a mistake cuts, in place of the first
 * @property {string} price @property {Vec} eye
 */

/** @param {Scene} scene @param {Vec} world @returns {Vec} */
const toBoard = (scene, world) => /** @type {Vec} */ (scene.axes.map((row) => dot(row, world)));

/** @param {Scene} scene @param {boolean} asMade @returns {Space[]} */
function spaces(scene, asMade) {
  return scene.normals.map((normal, i) => {
    const used = asMade && i === 0 && scene.wrong ? scene.wrong : normal;
    return { normal: used, level: dot(used, scene.board.points[i]) };
  });
}

/** The length of board that is shown. @param {Scene} scene @returns {Box} */
function shownBox(scene) {
  const { thick, deep, normals, board, half, wrong } = scene;
  if (half.rip) return { low: [0, 0, 0], high: [2.2 * deep, thick, deep] };
  const reach = normals.flatMap((normal, i) =>
    cutCorners(normal, board.points[i], board.spans[i]).map((corner) => corner[0]),
  );
  let [least, most] = [Math.min(...reach), Math.max(...reach)];
  // A wrong cut that runs farther is shown as far as it leaves the picture readable.
  const off = wrong ? cutCorners(wrong, board.points[0], board.spans[0]).map((corner) => corner[0]) : [];
  least = Math.min(least, Math.max(least - 2 * deep, Math.min(least, ...off)));
  most = Math.max(most, Math.min(most + 2 * deep, Math.max(most, ...off)));
  const [kept, waste] = [1.4 * deep + 2, 0.3 * deep + 0.5];
  const ends = normals.map((normal) => Math.sign(normal[0]));
  const notch = !half.point && ends.includes(1) && ends.includes(-1);
  return {
    low: [least - (notch || ends[0] === 1 ? kept : waste), 0, 0],
    high: [most + (notch || ends[0] === -1 ? kept : waste), thick, deep],
  };
}

/** @param {Scene} scene @param {Vec} world @returns {Camera} */
function worldCamera(scene, world) {
  const toward = toBoard(scene, world);
  const plumb = toBoard(scene, [0, 0, 1]);
  const up = unit(plus(plumb, times(toward, -dot(plumb, toward))));
  return { right: cross(up, toward), up, toward };
}

/** From straight above, the board's length running to the right. @param {Scene} scene @returns {Camera} */
function planCamera(scene) {
  const toward = toBoard(scene, [0, 0, 1]);
  const along = Math.abs(toward[0]) < 0.97 ? /** @type {Vec} */ ([1, 0, 0]) : /** @type {Vec} */ ([0, 1, 0]);
  const right = unit(plus(along, times(toward, -dot(along, toward))));
  return { right, up: cross(toward, right), toward };
}

/** The face that the marks are shown on. @param {Scene} scene */
function shownFace(scene) {
  const span = scene.board.spans[0];
  if (scene.half.rip && span[0][1] - span[0][0] > scene.thick - 1e-6) {
    const left = /** @type {Vec} */ (scene.normals[0])[1] > 0;
    return left ? "left" : "right";
  }
  return span[0][0] < 1e-6 ? "right" : "left";
}

/** Along the face mark, the shown face on top and the waste at the right.
 * @param {Scene} scene @param {Vec} normal @returns {Camera} */
function markCamera(scene, normal) {
  const up = /** @type {Vec} */ (shownFace(scene) === "right" ? [0, -1, 0] : [0, 1, 0]);
  const right = unit(plus(normal, times(up, -dot(normal, up))));
  return { right, up, toward: cross(right, up) };
}

/** @param {Camera} camera @param {Vec} point @returns {Spot} */
const seen = (camera, point) => [dot(camera.right, point), dot(camera.up, point)];

/** @param {Spot[]} spots @param {number} [least] @returns {[number, number, number, number]} */
function bounds(spots, least = 0.5) {
  const [xs, ys] = [spots.map((spot) => spot[0]), spots.map((spot) => spot[1])];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [bottom, top] = [Math.min(...ys), Math.max(...ys)];
  return [left, bottom, Math.max(right, left + least), Math.max(top, bottom + least)];
}

/**
 * The kept wood, nearest facet last, each as an area and its real edges.
 * @param {Sheet} sheet @param {Scene} scene @param {Camera} camera @param {boolean} asMade
 * @param {Vec} [step] how far the board is moved
 */
function drawWood(sheet, scene, camera, asMade, step = [0, 0, 0]) {
  const cuts = spaces(scene, asMade);
  const pieces = keptPieces(shownBox(scene), cuts, scene.half.point, camera.toward);
  let slot = 0;
  for (const piece of pieces) {
    const beyond = piece.facets.some((facet) => facet.name === "inside");
    for (const facet of piece.facets) {
      if (facet.name === "inside" || dot(facet.normal, camera.toward) < 1e-6) continue;
      const kind = facet.name.startsWith("cut") ? (asMade && scene.wrong ? "made" : "cut") : facet.name;
      const spots = facet.points.map((point) => seen(camera, plus(point, step)));
      sheet.area(`wood ${slot}`, spots, `wood ${kind}`);
      const edges = realEdges(facet, cuts, pieces.length > 1, beyond);
      const d = edges.map((edge) => {
        const [a, b] = edge.map((end) => sheet.at(seen(camera, plus(end, step))).map(short).join(" "));
        return `M${a}L${b}`;
      });
      sheet.put(`edges ${slot}`, "path", { d: d.join("") || "M0 0", class: "edge" });
      slot += 1;
    }
  }
}

/** Edges of a facet that are edges of the wood, not the joint between two pieces of it.
 * @param {Facet} facet @param {Space[]} cuts @param {boolean} two @param {boolean} beyond
 * @returns {[Vec, Vec][]} */
function realEdges(facet, cuts, two, beyond) {
  /** @type {[Vec, Vec][]} */
  const edges = facet.points.map((point, i) => [
    point, /** @type {Vec} */ (facet.points[(i + 1) % facet.points.length]),
  ]);
  const [first, second] = cuts;
  if (!two || !first || !second) return edges;
  /** @param {Space} space @param {Vec} point */
  const off = (space, point) => dot(space.normal, point) - space.level;
  return edges.flatMap(([a, b]) => {
    const joined = Math.abs(off(first, a)) < 1e-6 && Math.abs(off(first, b)) < 1e-6;
    if (!joined) return [/** @type {[Vec, Vec]} */ ([a, b])];
    const [here, there] = [off(second, a), off(second, b)];
    if (beyond) return Math.abs(here) < 1e-6 && Math.abs(there) < 1e-6 ? [[a, b]] : [];
    if (here < 1e-6 && there < 1e-6) return Math.max(here, there) > -1e-6 ? [[a, b]] : [];
    const met = plus(a, times(plus(b, times(a, -1)), here / (here - there)));
    return [/** @type {[Vec, Vec]} */ (here > 1e-6 && there > 1e-6 ? [a, b] : here > 0 ? [a, met] : [met, b])];
  });
}

/** The whole board before it is cut, dashed. @param {Sheet} sheet @param {Scene} scene @param {Camera} camera */
function drawGhost(sheet, scene, camera) {
  const d = boxFacets(shownBox(scene)).map((facet) => {
    const spots = facet.points.map((point) => sheet.at(seen(camera, point)).map(short).join(" "));
    return `M${spots.join("L")}Z`;
  });
  sheet.put("ghost", "path", { d: d.join(""), class: "ghost" });
}

/** @param {Scene} scene @param {Camera} camera */
function boxWindow(scene, camera) {
  return bounds(boxFacets(shownBox(scene)).flatMap((facet) => facet.points.map((p) => seen(camera, p))));
}

/** @param {Sheet} sheet @param {Scene} scene */
function drawPictorial(sheet, scene) {
  const camera = worldCamera(scene, scene.eye);
  sheet.begin(boxWindow(scene, camera));
  drawGhost(sheet, scene, camera);
  drawWood(sheet, scene, camera, true);
  nameEnds(sheet, scene, camera);
  sheet.end(`The board in the roof, ${scene.wrong ? "cut by the mistake" : "cut right"}. Turn it with the arrow keys.`);
}

/** FOOT and HEAD at the board's ends. @param {Sheet} sheet @param {Scene} scene @param {Camera} camera */
function nameEnds(sheet, scene, camera) {
  const { low, high } = shownBox(scene);
  const middle = /** @type {[number, number]} */ ([scene.thick / 2, scene.deep / 2]);
  const foot = seen(camera, [low[0], ...middle]);
  const head = seen(camera, [high[0], ...middle]);
  const away = Math.hypot(head[0] - foot[0], head[1] - foot[1]) || 1;
  const off = /** @type {Spot} */ ([((head[0] - foot[0]) / away) * 14, (-(head[1] - foot[1]) / away) * 14 + 4]);
  sheet.words("head", head, "HEAD", "middle", off);
  sheet.words("foot", foot, "FOOT", "middle", [-off[0], 8 - off[1]]);
}

/** @param {Sheet} sheet @param {Scene} scene */
function drawPlan(sheet, scene) {
  const camera = planCamera(scene);
  const window = boxWindow(scene, camera);
  sheet.begin(window);
  drawGhost(sheet, scene, camera);
  drawWood(sheet, scene, camera, true, toContact(scene));
  const normal = /** @type {Vec} */ (scene.normals[0]);
  if (Math.abs(dot(normal, camera.toward)) < 1e-6) {
    const way = /** @type {Spot} */ (seen(camera, cross(normal, camera.toward)));
    const [x, y] = seen(camera, scene.board.points[0]);
    const far = 3 * (window[3] - window[1]);
    sheet.line("mate", [x - way[0] * far, y - way[1] * far], [x + way[0] * far, y + way[1] * far], "mate", "mate");
  }
  nameEnds(sheet, scene, camera);
  sheet.end(`The board from straight above, against the ${scene.half.mate}.`);
}

/** How far a board with a wrong cut slides until it touches its mate. @param {Scene} scene @returns {Vec} */
function toContact(scene) {
  const right = /** @type {Vec} */ (scene.normals[0]);
  if (!scene.wrong) return [0, 0, 0];
  const reach = Math.max(
    ...cutCorners(scene.wrong, scene.board.points[0], scene.board.spans[0]).map((p) => dot(right, p)),
  );
  const far = reach - dot(right, scene.board.points[0]);
  return scene.half.rip ? times(right, -far) : [-far / right[0], 0, 0];
}

/** @param {Sheet} sheet @param {Scene} scene @param {boolean} withSaw */
function drawAlong(sheet, scene, withSaw) {
  const right = /** @type {Vec} */ (scene.normals[0]);
  const normal = withSaw && scene.wrong ? scene.wrong : right;
  const camera = markCamera(scene, normal);
  const face = shownFace(scene);
  const start = markStart(scene);
  const depth = scene.thick;
  sheet.begin(withSaw ? [-4.6, -depth - 1.2, 4.6, 3.4] : [-3.2, -depth - 0.9, 3.2, 0.9]);
  drawSection(sheet, scene, camera, withSaw, start);
  const way = bladeWay(camera, normal);
  const deep = depth / Math.max(0.2, -way[1]) + 0.25;
  sheet.line("plumb", [0, 0.3], [0, -depth - 0.7], "center", "square-to-face");
  if (withSaw) drawSaw(sheet, way, deep);
  else if (scene.wrong) {
    const wrongWay = bladeWay(camera, scene.wrong);
    sheet.line("wrong", [0, 0], [wrongWay[0] * deep, wrongWay[1] * deep], "wrong", "wrong-plane");
  }
  sheet.line("blade", [0, 0], [way[0] * deep, way[1] * deep], withSaw && scene.wrong ? "wrong" : "mark", "tilt");
  const said = withSaw && scene.wrong ? "" : `tilt ${scene.half.tilt}`;
  sheet.words("tilt", [way[0] * deep, way[1] * deep], said, "middle", [0, 14]);
  sheet.words("waste", [2.4, -depth / 2], "WASTE", "middle", [0, 4]);
  sheet.words("kept", [-2.4, -depth / 2], "KEPT", "middle", [0, 4]);
  const named = withSaw ? `shoe on the ${face} face` : `${face} face`;
  if (withSaw) sheet.words("face", [-4.4, -depth - 1.1], named, "start", [0, 12]);
  else sheet.words("face", [-3, 0], named, "start", [0, -6]);
  sheet.end(`Seen along the face mark, the ${face} face on top: tilt ${scene.half.tilt}.`);
}

/** The wood where a flat square to the mark meets it.
 * @param {Sheet} sheet @param {Scene} scene @param {Camera} camera @param {boolean} asMade
 * @param {Vec} start */
function drawSection(sheet, scene, camera, asMade, start) {
  const flat = { normal: camera.toward, level: dot(camera.toward, start) };
  const pieces = keptPieces(shownBox(scene), spaces(scene, asMade), scene.half.point, camera.toward);
  pieces.forEach((piece, i) => {
    const facet = cutOff(piece, "section", flat)?.facets.find((one) => one.name === "section");
    if (facet) sheet.area(`section ${i}`, facet.points.map((p) => seen(camera, plus(p, times(start, -1)))), "wood section");
  });
}

/** A point of the face mark. @param {Scene} scene @returns {Vec} */
function markStart(scene) {
  const y = shownFace(scene) === "right" ? 0 : scene.thick;
  const [space] = /** @type {[Space]} */ (spaces(scene, false));
  const [[], [z0, z1]] = scene.board.spans[0];
  const [nx, ny, nz] = space.normal;
  if (scene.half.rip) return [1, y, (space.level - ny * y) / nz];
  const z = (z0 + z1) / 2;
  return [(space.level - ny * y - nz * z) / nx, y, z];
}

/** The way of the blade below the shoe, as it is seen along the mark.
 * @param {Camera} camera @param {Vec} normal @returns {Spot} */
function bladeWay(camera, normal) {
  const [across, out] = seen(camera, normal);
  const size = Math.hypot(across, out);
  return [out / size, -across / size];
}

/** @param {Sheet} sheet @param {Spot} way @param {number} deep */
function drawSaw(sheet, way, deep) {
  // The wide side rides over the blade's lower end; of a square blade, on the kept wood at the left.
  const side = way[0] > 1e-9 ? 1 : -1;
  /** @param {number} along @param {number} across @returns {Spot} */
  const spot = (along, across) => [
    -way[0] * along - way[1] * across * side, -way[1] * along + way[0] * across * side,
  ];
  sheet.area("motor", [spot(1.1, 0.35), spot(2.6, 0.35), spot(2.6, 3), spot(1.1, 3)], "steel");
  sheet.area("guard", [spot(0.7, -0.25), spot(4.4, -0.25), spot(4.4, 0.3), spot(0.7, 0.3)], "steel");
  sheet.area("shoe", [[-1.4 * side, 0], [4.2 * side, 0], [4.2 * side, 0.16], [-1.4 * side, 0.16]], "steel");
  sheet.line("disk", spot(4, 0), [way[0] * deep, way[1] * deep], "disk");
  sheet.words("shoe words", [3.4 * side, 0.16], "shoe", "middle", [0, -5]);
}

/** The cut stood against its mate, the gap to scale. @param {Sheet} sheet @param {Scene} scene */
function drawGap(sheet, scene) {
  const right = /** @type {Vec} */ (scene.normals[0]);
  const made = scene.wrong ?? right;
  let line = cross(right, made);
  if (Math.hypot(...line) < 1e-6) line = Math.abs(right[1]) > 0.999 ? [1, 0, 0] : cross(right, [0, 1, 0]);
  line = unit(line);
  let up = cross(line, right);
  if (dot(up, toBoard(scene, [0, 0, 1])) < -1e-9) up = times(up, -1);
  const camera = { right, up, toward: cross(right, up) };
  const step = toContact(scene);
  const { points, spans } = scene.board;
  const level = dot(right, points[0]);
  const home = times(right, -level);
  const corners = cutCorners(made, points[0], spans[0]).map((p) => seen(camera, plus(plus(p, step), home)));
  const [low, high] = [Math.min(...corners.map((c) => c[1])), Math.max(...corners.map((c) => c[1]))];
  const back = Math.min(...corners.map((c) => c[0]));
  sheet.begin([back - 1.6, low - 0.5, 1, high + 0.5]);
  drawWood(sheet, scene, camera, true, plus(step, home));
  sheet.area("mate body", [[0, low - 0.4], [0.8, low - 0.4], [0.8, high + 0.4], [0, high + 0.4]], "mate-body");
  // The cut is seen as a line: its ends are the corners farthest apart along it.
  const [tilted, steep] = seen(camera, made);
  /** @param {Spot} spot */
  const place = (spot) => spot[1] * tilted - spot[0] * steep;
  const order = [...corners].sort((a, b) => place(a) - place(b));
  const [lowest, highest] = [/** @type {Spot} */ (order[0]), /** @type {Spot} */ (order[order.length - 1])];
  sheet.area("gap", [lowest, highest, [0, highest[1]], [0, lowest[1]]], "gap");
  sheet.line("mate face", [0, low - 0.4], [0, high + 0.4], "mark", "mate-face");
  sheet.line("made", lowest, highest, scene.wrong ? "wrong" : "mark", "made-cut");
  sheet.words("mate words", [0.4, high + 0.4], scene.half.mate, "middle", [0, -6]);
  if (sheet.note.textContent !== scene.price) sheet.note.textContent = scene.price;
  sheet.end(`The cut against the ${scene.half.mate}: ${scene.price}`);
}
