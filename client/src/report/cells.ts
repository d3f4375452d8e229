/* A document's cells and figures as the screen draws them. Numbers come in full; here they are cut to be read. */
import type { IntervalRow } from "../kit/figures/axis";
import type { LineRow } from "../kit/figures/lines";
import type { SpotRow } from "../kit/figures/spots";
import type { Cell, ReportColumn, ReportFigure } from "../wire/report";

const NOTHING = "–";
const MOST_DIGITS = 6;

/** A cell in words: numbers with the column's decimals, thousands apart, nothing as a dash. */
export function cellText(cell: Cell, column: ReportColumn | undefined): string {
  if (cell === null || cell === "") return NOTHING;
  if (typeof cell === "string") return cell;
  const digits = column?.digits ?? null;
  const said = cell.toLocaleString("en-GB", {
    minimumFractionDigits: digits ?? 0,
    maximumFractionDigits: digits ?? MOST_DIGITS,
  });
  return said.replace("-", "−");
}

const textOf = (cell: Cell | undefined): string => (cell === null || cell === undefined ? "" : String(cell));
const numberOf = (cell: Cell | undefined): number | null => (typeof cell === "number" ? cell : null);

/** One panel of intervals for each group, in the order in which groups come. */
export function intervalPanels(figure: ReportFigure): { group: string; rows: IntervalRow[] }[] {
  const panels: { group: string; rows: IntervalRow[] }[] = [];
  for (const row of figure.rows) {
    const group = textOf(row["group"]);
    let panel = panels.find((one) => one.group === group);
    if (panel === undefined) panels.push((panel = { group, rows: [] }));
    panel.rows.push({
      label: textOf(row["label"]),
      estimate: numberOf(row["estimate"] ?? row["value"]),
      low: numberOf(row["low"]),
      high: numberOf(row["high"]),
    });
  }
  return panels;
}

/** Rows of rounds, or null if the dots are shares with intervals. */
export function roundRows(figure: ReportFigure): { label: string; value: number; of: number }[] | null {
  if (!figure.rows.every((row) => typeof row["of"] === "number")) return null;
  return figure.rows.map((row) => ({
    label: textOf(row["label"]),
    value: numberOf(row["value"]) ?? 0,
    of: numberOf(row["of"]) ?? 0,
  }));
}

export function swatchRows(figure: ReportFigure): { group: string; label: string; colour: string }[] {
  return figure.rows.map((row) => ({
    group: textOf(row["group"]),
    label: textOf(row["label"]),
    colour: textOf(row["colour"]),
  }));
}

/** The points of lines; one without its place or its number is not drawn. */
export function lineRows(figure: ReportFigure): LineRow[] {
  return figure.rows.flatMap((row) => {
    const [x, estimate] = [numberOf(row["x"]), numberOf(row["estimate"])];
    if (x === null || estimate === null) return [];
    return [{ group: textOf(row["group"]), label: textOf(row["label"]), x, estimate, low: numberOf(row["low"]), high: numberOf(row["high"]) }];
  });
}

export function spotRows(figure: ReportFigure): SpotRow[] {
  return figure.rows.map((row) => ({
    label: textOf(row["label"]),
    x: numberOf(row["x"]) ?? 0,
    y: numberOf(row["y"]) ?? 0,
    role: textOf(row["role"]),
    ring: numberOf(row["ring"]) ?? 0,
  }));
}
