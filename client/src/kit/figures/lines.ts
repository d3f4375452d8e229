/* How something moves with a number: where the lines of each panel run, in pixels of a panel of that size. */
import { scaleLinear } from "d3-scale";

export interface LineRow {
  group: string;
  label: string;
  x: number;
  estimate: number;
  low: number | null;
  high: number | null;
}

export interface DrawnLine {
  label: string;
  /** which dash it has, counted over the whole figure */
  dash: number;
  path: string;
  /** empty where no interval is known */
  band: string;
  end: { x: number; y: number };
  /** where its name stands, pushed off the others */
  nameY: number;
}

export interface Tick {
  value: number;
  at: number;
}

export interface LinePanel {
  group: string;
  lines: DrawnLine[];
  across: Tick[];
  up: Tick[];
  /** where a number lies across */
  at: (x: number) => number;
}

export interface PanelSize {
  width: number;
  height: number;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

const NAME_HEIGHT = 15;

/** One panel a group, all on the same axes. `domain` may run downwards, as from hot to cool. */
export function linePanels(rows: readonly LineRow[], domain: readonly [number, number] | null, size: PanelSize): LinePanel[] {
  const x = scaleLinear(domain ?? ends(rows.map((row) => row.x)), [size.left, size.width - size.right]);
  const heights = rows.flatMap((row) => [row.estimate, row.low ?? row.estimate, row.high ?? row.estimate]);
  const y = scaleLinear(ends(heights), [size.height - size.bottom, size.top]).nice(4);
  const labels = [...new Set(rows.map((row) => row.label))];
  const across = x.ticks(4).map((value) => ({ value, at: x(value) }));
  const up = y.ticks(4).map((value) => ({ value, at: y(value) }));
  const at = (px: number, py: number) => `${x(px).toFixed(1)},${y(py).toFixed(1)}`;
  return [...new Set(rows.map((row) => row.group))].map((group) => {
    const own = rows.filter((row) => row.group === group);
    const lines = labels.flatMap((label, dash) => {
      const line = own.filter((row) => row.label === label).sort((a, b) => x(a.x) - x(b.x));
      const last = line.at(-1);
      return last === undefined ? [] : [drawn(label, dash, line, { x: x(last.x), y: y(last.estimate) }, at)];
    });
    return { group, lines: apart(lines, size), across, up, at: x };
  });
}

function drawn(
  label: string,
  dash: number,
  line: readonly LineRow[],
  end: { x: number; y: number },
  at: (px: number, py: number) => string,
): DrawnLine {
  const sure = line.filter((row) => row.low !== null && row.high !== null);
  const upper = sure.map((row) => at(row.x, row.high ?? row.estimate));
  const lower = sure.map((row) => at(row.x, row.low ?? row.estimate)).reverse();
  return {
    label,
    dash,
    path: `M${line.map((row) => at(row.x, row.estimate)).join("L")}`,
    band: sure.length > 1 ? `M${[...upper, ...lower].join("L")}Z` : "",
    end,
    nameY: end.y,
  };
}

/** Names from the top down, each at least a line below the one before, all inside the panel. */
function apart(lines: DrawnLine[], size: PanelSize): DrawnLine[] {
  const ordered = [...lines].sort((a, b) => a.end.y - b.end.y);
  let free = size.top;
  for (const line of ordered) {
    line.nameY = Math.max(line.end.y, free);
    free = line.nameY + NAME_HEIGHT;
  }
  const over = Math.max(0, free - NAME_HEIGHT - (size.height - size.bottom));
  for (const line of ordered) line.nameY -= over;
  return lines;
}

function ends(values: readonly number[]): [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return low === high ? [low - 1, high + 1] : [low, high];
}

/** Every x at which a line is known, in the order in which the picture runs. */
export function stopsOf(rows: readonly LineRow[], domain: readonly [number, number] | null): number[] {
  const stops = [...new Set(rows.map((row) => row.x))].sort((a, b) => a - b);
  return domain !== null && domain[1] < domain[0] ? stops.reverse() : stops;
}

/** What the lines say at one x, in the order of the figure. */
export function readAt(rows: readonly LineRow[], x: number): LineRow[] {
  return rows.filter((row) => row.x === x);
}
