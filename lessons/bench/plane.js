// Two things about planes, and no other: where one meets a box, and the gap between two of them.
// A reader's own plane is a mix of two directions that were packed.
// Board axes in inches: x to the head, y from the right face to the left, z up the depth. A cut is
// {normal, level}: wood is kept where normal . p <= level.

/** @typedef {[number, number, number]} Vec */
/** @typedef {{normal: Vec, level: number}} Space */
/** @typedef {{low: Vec, high: Vec}} Box */
/** @typedef {{name: string, normal: Vec, points: Vec[]}} Facet */
/** @typedef {{facets: Facet[]}} Piece */

const EPS = 1e-9;
/** A plane that leans farther than this runs along the board: there is no end to draw. */
const LEAST_ALONG = 0.02;

/** @param {Vec} a @param {Vec} b */
const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** @param {Vec} a @param {Vec} b @returns {Vec} */
const cross = (a, b) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** @param {Vec} a @param {number} by @returns {Vec} */
const times = (a, by) => [a[0] * by, a[1] * by, a[2] * by];

/** @param {Vec} a @param {Vec} b @returns {Vec} */
const plus = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

/** @param {Vec} a @returns {Vec} */
const unit = (a) => times(a, 1 / Math.sqrt(dot(a, a)));

/**
 * A direction between two, for the eye alone.
 * @param {Vec} a @param {Vec} b @param {number} part @returns {Vec}
 */
function between(a, b, part) {
  const mixed = plus(times(a, 1 - part), times(b, part));
  return dot(mixed, mixed) < EPS ? b : unit(mixed);
}

/**
 * The wood of a box behind every one of the planes, as flat facets; null where none is left.
 * @param {Box} box @param {{name: string, space: Space}[]} cuts @returns {Piece | null}
 */
function clipped(box, cuts) {
  /** @type {Piece | null} */
  let piece = { facets: boxFacets(box) };
  for (const { name, space } of cuts) piece = piece && cutOff(piece, name, space);
  return piece;
}

/**
 * What is left of a piece behind one more plane, which becomes a facet of it; null for nothing.
 * @param {Piece} piece @param {string} name @param {Space} space @returns {Piece | null}
 */
function cutOff(piece, name, space) {
  /** @type {Vec[]} */
  const rim = [];
  const facets = piece.facets
    .map((facet) => ({ ...facet, points: behind(facet.points, space, rim) }))
    .filter((facet) => facet.points.length > 2);
  const cap = hull(rim, space.normal);
  if (cap.length > 2) facets.push({ name, normal: space.normal, points: cap });
  return facets.length < 4 ? null : { facets };
}

/** @param {Box} box @returns {Facet[]} */
function boxFacets({ low, high }) {
  const [a, b, c] = low;
  const [x, y, z] = high;
  return [
    { name: "foot", normal: [-1, 0, 0], points: [[a, b, c], [a, b, z], [a, y, z], [a, y, c]] },
    { name: "head", normal: [1, 0, 0], points: [[x, b, c], [x, y, c], [x, y, z], [x, b, z]] },
    { name: "right", normal: [0, -1, 0], points: [[a, b, c], [x, b, c], [x, b, z], [a, b, z]] },
    { name: "left", normal: [0, 1, 0], points: [[a, y, c], [a, y, z], [x, y, z], [x, y, c]] },
    { name: "bottom", normal: [0, 0, -1], points: [[a, b, c], [a, y, c], [x, y, c], [x, b, c]] },
    { name: "top", normal: [0, 0, 1], points: [[a, b, z], [x, b, z], [x, y, z], [a, y, z]] },
  ];
}

/**
 * The part of a flat polygon behind a plane; the points on the plane go into the rim too.
 * @param {Vec[]} points @param {Space} space @param {Vec[]} rim @returns {Vec[]}
 */
function behind(points, space, rim) {
  const far = points.map((point) => dot(space.normal, point) - space.level);
  /** @type {Vec[]} */
  const kept = [];
  points.forEach((point, i) => {
    const j = (i + 1) % points.length;
    const [here, there] = [/** @type {number} */ (far[i]), /** @type {number} */ (far[j])];
    if (here <= EPS) kept.push(point);
    if (Math.abs(here) <= EPS) rim.push(point);
    if ((here < -EPS && there > EPS) || (here > EPS && there < -EPS)) {
      const next = /** @type {Vec} */ (points[j]);
      const met = plus(point, times(plus(next, times(point, -1)), here / (here - there)));
      kept.push(met);
      rim.push(met);
    }
  });
  return kept;
}

/**
 * Points of one flat, each once, in order round their middle.
 * @param {Vec[]} points @param {Vec} normal @returns {Vec[]}
 */
function hull(points, normal) {
  /** @type {Vec[]} */
  const once = [];
  for (const point of points) {
    if (!once.some((other) => Math.hypot(...plus(point, times(other, -1))) < 1e-7)) once.push(point);
  }
  if (once.length < 3) return once;
  const middle = times(once.reduce(plus, [0, 0, 0]), 1 / once.length);
  const u = unit(cross(normal, Math.abs(normal[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const v = cross(normal, u);
  /** @param {Vec} point */
  const turn = (point) => {
    const out = plus(point, times(middle, -1));
    return Math.atan2(dot(out, v), dot(out, u));
  };
  return once.sort((a, b) => turn(a) - turn(b));
}

/**
 * The kept wood as pieces, the one nearer the eye last. An end that is hollow is two pieces: the
 * wood behind the first plane, and what lies beyond that but behind the second.
 * @param {Box} box @param {Space[]} spaces @param {boolean} point @param {Vec} toward
 * @returns {Piece[]}
 */
function keptPieces(box, spaces, point, toward) {
  const named = spaces.map((space, i) => ({ name: `cut ${i}`, space }));
  if (point || named.length < 2) {
    const whole = clipped(box, named);
    return whole ? [whole] : [];
  }
  const [first, second] = /** @type {[typeof named[0], typeof named[0]]} */ (named);
  const turned = { normal: times(first.space.normal, -1), level: -first.space.level };
  const pieces = [
    clipped(box, [first]),
    clipped(box, [{ name: "inside", space: turned }, second]),
  ];
  if (dot(first.space.normal, toward) < 0) pieces.reverse();
  return pieces.filter((piece) => piece !== null);
}

/**
 * The gaps at the corners of a cut that is stood against the mate of another [in].
 * The board slides along its length, or a rip square to its mate, until the cut first touches.
 * @param {Vec} right the plane of the joint @param {Vec} made the plane that was cut
 * @param {Vec} point where the planes cross the section
 * @param {[[number, number], [number, number]]} span the part of the section that is shaped
 */
function gaps(right, made, point, span) {
  const reach = cutCorners(made, point, span).map((corner) => dot(right, corner));
  const contact = Math.max(...reach);
  return reach.map((here) => contact - here);
}

/**
 * The plane that a typed answer leads to; null where it no longer crosses the board as it should.
 * @param {{how: string, first: Vec, second: Vec}} swing @param {number} value @returns {Vec | null}
 */
function swung({ how, first, second }, value) {
  const angle = (value * Math.PI) / 180;
  const [one, two] = how === "turned" ? [Math.cos(angle), Math.sin(angle)] : [1, value];
  const normal = plus(times(first, one), times(second, two));
  const size = Math.hypot(...normal);
  if (!(size > EPS) || !Number.isFinite(size)) return null;
  const along = first[0] || second[0];
  return along && !((normal[0] / size) * along > LEAST_ALONG) ? null : times(normal, 1 / size);
}

/**
 * The corners of a cut's surface, in the order (y0, z0), (y1, z0), (y1, z1), (y0, z1); those of a
 * rip are the edges of its strip at x = 0 and x = 1.
 * @param {Vec} normal @param {Vec} point @param {[[number, number], [number, number]]} span
 * @returns {Vec[]}
 */
function cutCorners(normal, point, span) {
  const [[y0, y1], [z0, z1]] = span;
  const level = dot(normal, point);
  const [nx, ny, nz] = normal;
  if (Math.abs(nx) > EPS) {
    /** @type {[number, number][]} */
    const section = [[y0, z0], [y1, z0], [y1, z1], [y0, z1]];
    return section.map(([y, z]) => [(level - ny * y - nz * z) / nx, y, z]);
  }
  /** @type {[number, number, number][]} */
  const strip = [[0, y0, z0], [1, y0, z0], [1, y1, z1], [0, y1, z1]];
  if (Math.abs(nz) > EPS) return strip.map(([x, y]) => [x, y, (level - ny * y) / nz]);
  return [[0, y0, z0], [1, y1, z0], [1, y1, z1], [0, y0, z1]].map(([x, , z]) => [
    /** @type {number} */ (x), level / ny, /** @type {number} */ (z),
  ]);
}

/**
 * The line in which a plane meets a flat of the board, between two levels of its own axis.
 * `axis` 1 is a face at y = `at`, `axis` 2 an edge at z = `at`; the ends lie at the least and
 * the most of the other axis.
 * @param {Space} space @param {1 | 2} axis @param {number} at @param {number} least
 * @param {number} most @returns {[Vec, Vec] | null}
 */
function markLine(space, axis, at, least, most) {
  const [nx, ny, nz] = space.normal;
  if (Math.abs(nx) <= EPS) return null;
  /** @param {number} other @returns {Vec} */
  const end = (other) => {
    const [y, z] = axis === 1 ? [at, other] : [other, at];
    return [(space.level - ny * y - nz * z) / nx, y, z];
  };
  return [end(least), end(most)];
}
