/* The report of a table, as it travels: the document that paper and page are made of. */

export type Cell = string | number | null;

export interface ReportColumn {
  title: string;
  digits: number | null;
  align: "left" | "right";
}

/** Keys by kind. intervals: label, estimate, low, high, group. dots: label, value, low and high or of.
    swatches: group, label, colour. map: label, x, y, role, ring. lines: group, label, x, estimate, low, high. */
export interface ReportFigure {
  block: "figure";
  kind: "intervals" | "dots" | "swatches" | "map" | "lines";
  rows: Record<string, Cell>[];
  alt: string;
  caption: string;
  x_title: string;
  y_title: string;
  name: string;
  domain: [number, number] | null;
}

export interface ReportTable {
  block: "table";
  columns: ReportColumn[];
  rows: Cell[][];
  caption: string;
  name: string;
}

export type ReportBlock =
  | { block: "heading"; text: string; level: number }
  | { block: "paragraph"; text: string; lead: string }
  | { block: "caveat"; text: string }
  | ReportTable
  | ReportFigure;

export interface Report {
  format: string;
  version: number;
  title: string;
  subtitle: string;
  facts: { label: string; value: string }[];
  blocks: ReportBlock[];
}
