/* A map: named spots in two dimensions and their regions, in pixels; one unit is as long across as up. */
import { placeLabels, type Placed } from "./labels";

export interface SpotRow {
  label: string;
  x: number;
  y: number;
  /** "coffee", "word", "taster", or "region": a corner of the label's region */
  role: string;
  ring: number;
}

export interface DrawnSpot {
  label: string;
  role: string;
  x: number;
  y: number;
}

export interface DrawnMap {
  width: number;
  height: number;
  spots: DrawnSpot[];
  regions: { label: string; path: string }[];
  labels: Placed[];
  /** where both axes are nought */
  nought: { x: number; y: number };
}

const EDGE = 28;
const LETTERS = 13;
const TALLEST = 1;
const FLATTEST = 0.45;

/** Everything in a picture that is `width` wide; how high, the spots decide, within reason. */
export function drawnMap(rows: readonly SpotRow[], width: number): DrawnMap {
  const [left, right] = ends(rows.map((row) => row.x));
  const [low, high] = ends(rows.map((row) => row.y));
  const shape = Math.min(TALLEST, Math.max(FLATTEST, (high - low) / (right - left)));
  const height = Math.round(EDGE * 2 + (width - EDGE * 2) * shape);
  const unit = Math.min((width - 2 * EDGE) / (right - left), (height - 2 * EDGE) / (high - low));
  const x = (value: number) => width / 2 + (value - (left + right) / 2) * unit;
  const y = (value: number) => height / 2 - (value - (low + high) / 2) * unit;
  const spots = rows.filter((row) => row.role !== "region").map((row) => ({ label: row.label, role: row.role, x: x(row.x), y: y(row.y) }));
  const weight = (spot: DrawnSpot) => (spot.role === "coffee" ? 0 : 1);
  const named = [...spots].sort((a, b) => weight(a) - weight(b)).map((spot) => ({ ...spot, id: `${spot.role}/${spot.label}` }));
  return {
    width,
    height,
    spots,
    regions: regionsOf(rows).map(({ label, ring }) => ({
      label,
      path: `M${ring.map((corner) => `${x(corner.x).toFixed(1)},${y(corner.y).toFixed(1)}`).join("L")}Z`,
    })),
    labels: placeLabels(named, { width, height, size: LETTERS, gap: 9 }, spots),
    nought: { x: x(0), y: y(0) },
  };
}

function regionsOf(rows: readonly SpotRow[]): { label: string; ring: SpotRow[] }[] {
  const corners = rows.filter((row) => row.role === "region");
  return [...new Set(corners.map((row) => row.label))].map((label) => ({
    label,
    ring: corners.filter((row) => row.label === label).sort((a, b) => a.ring - b.ring),
  }));
}

function ends(values: readonly number[]): [number, number] {
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)];
  return low === high ? [low - 1, high + 1] : [low, high];
}
