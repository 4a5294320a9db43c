import { alongPath } from "./alongPath.js";
import { type Area, areasOverlap, type Point } from "./area.js";
import { clamp } from "./scale.js";
import { textWidth } from "./textWidth.js";

export interface PointLabel {
  readonly at: Point;
  readonly text: string;
}

/** Where a label goes. */
export interface PlacedLabel extends PointLabel {
  readonly box: Area;
  /** From the point to the box, where that stands so far off that a line between them helps. */
  readonly leader?: readonly [from: Point, to: Point];
}

const LINE = 15;
const DISTANCES = [9, 22, 38, 56, 78, 104];
const DIRECTIONS: readonly Point[] = [
  [1, 0],
  [-1, 0],
  [0.7, -0.7],
  [0.7, 0.7],
  [-0.7, -0.7],
  [-0.7, 0.7],
  [0, -1],
  [0, 1],
];

/**
 * Penalties of a place: outside the area the highest, then over another label, then over data; distance breaks ties.
 */
const COST = Object.freeze({ outside: 1000, label: 200, data: 30 });

/**
 * A place beside its point for each label in turn: the nearest of 48 that stays inside the area, covers neither data
 * nor earlier labels and leaders, and whose own leader crosses neither; where there is none, the one with the least
 * fault.
 */
export function placeLabels(
  labels: readonly PointLabel[],
  data: readonly Point[],
  area: Area,
): readonly PlacedLabel[] {
  const placed: PlacedLabel[] = [];
  for (const label of labels) {
    const candidates = DISTANCES.flatMap((distance) =>
      DIRECTIONS.map((direction) => candidate(label, direction, distance)),
    );
    const leaders = placed.flatMap(({ leader }) => (leader ? alongPath(leader) : []));
    const faults = ({ box, leader = [label.at, label.at] }: PlacedLabel) =>
      (isInside(box, area) ? 0 : COST.outside) +
      COST.label * placed.filter((other) => areasOverlap(box, other.box)).length +
      COST.data * [...data, ...leaders].filter((point) => areasOverlap(box, around(point))).length +
      COST.data * data.filter((point) => passes(leader, point)).length +
      COST.data *
        alongPath(leader).filter((p) => placed.some((other) => areasOverlap(around(p), other.box))).length;
    const costs = candidates.map((place, i) => faults(place) + DISTANCES[Math.floor(i / DIRECTIONS.length)]);
    placed.push(candidates[costs.indexOf(Math.min(...costs))]);
  }
  return placed;
}

function candidate(label: PointLabel, direction: Point, distance: number): PlacedLabel {
  const box = boxAt(label, direction, distance);
  if (distance === DISTANCES[0]) return { ...label, box };
  const [x, y] = label.at;
  const end: Point = [
    clamp(x, [box.left - 2, box.left + box.width + 2]),
    clamp(y, [box.top + 2, box.top + box.height - 2]),
  ];
  return { ...label, box, leader: [label.at, end] };
}

/** Whether a leader comes near a point that is not its own. */
function passes([from, to]: readonly [Point, Point], [x, y]: Point): boolean {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  if (Math.hypot(x - from[0], y - from[1]) < 1) return false;
  const share = clamp(((x - from[0]) * dx + (y - from[1]) * dy) / Math.max(1, dx * dx + dy * dy), [0, 1]);
  return Math.hypot(from[0] + share * dx - x, from[1] + share * dy - y) < 5;
}

function boxAt({ at: [x, y], text }: PointLabel, [dx, dy]: Point, distance: number): Area {
  const width = textWidth(text);
  const leftOf = dx > 0 ? 0 : dx < 0 ? width : width / 2;
  return {
    left: x + dx * distance - leftOf,
    top: y + dy * distance - LINE / 2 + (dy * LINE) / 2,
    width,
    height: LINE,
  };
}

function around([x, y]: Point): Area {
  return { left: x - 4, top: y - 4, width: 8, height: 8 };
}

function isInside(box: Area, { left, top, width, height }: Area): boolean {
  return (
    box.left >= left &&
    box.top >= top &&
    box.left + box.width <= left + width &&
    box.top + box.height <= top + height
  );
}
