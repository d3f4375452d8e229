import { describe, expect, it } from "vitest";
import type { Report, ReportFigure } from "../wire/report";
import type { TableView } from "../wire/types";
import { cellText, intervalPanels, lineRows, roundRows, spotRows, swatchRows } from "./cells";
import { ReportState } from "./state.svelte";

const figure = (part: Partial<ReportFigure>): ReportFigure => ({
  block: "figure",
  kind: "dots",
  rows: [],
  alt: "",
  caption: "",
  x_title: "",
  y_title: "",
  name: "",
  domain: null,
  ...part,
});

describe("a cell of a report", () => {
  it("shows a number with the decimals of its column and thousands apart", () => {
    expect(cellText(1234.567, { title: "", digits: 1, align: "right" })).toBe("1,234.6");
    expect(cellText(3, { title: "", digits: null, align: "right" })).toBe("3");
  });

  it("shows what is not there as a dash, and text as it is", () => {
    expect(cellText(null, undefined)).toBe("–");
    expect(cellText("washed", undefined)).toBe("washed");
  });
});

describe("a figure of a report", () => {
  it("has lines with what is known of their bands, and spots with their corners", () => {
    const line = { group: "Acidity", label: "A", x: 60, estimate: 5, low: null, high: null };
    expect(lineRows(figure({ kind: "lines", rows: [line, { label: "A", x: 50 }] }))).toEqual([line]);
    const spots = [{ label: "A", x: 1, y: 2, role: "coffee" }, { label: "A", x: 1, y: 3, role: "region", ring: 1 }];
    expect(spotRows(figure({ kind: "map", rows: spots })).map((row) => row.ring)).toEqual([0, 1]);
  });

  it("has a panel for each group in their order", () => {
    const rows = [
      { label: "A", estimate: 1, low: 0, high: 2, group: "Weight" },
      { label: "A", estimate: 5, low: null, high: null, group: "Length" },
      { label: "B", estimate: 2, low: 1, high: 3, group: "Weight" },
    ];
    const panels = intervalPanels(figure({ kind: "intervals", rows }));
    expect(panels.map((panel) => [panel.group, panel.rows.length])).toEqual([["Weight", 2], ["Length", 1]]);
  });

  it("is drawn in rounds only where every line counts people", () => {
    expect(roundRows(figure({ rows: [{ label: "tea", value: 2, of: 3 }] }))).toEqual([{ label: "tea", value: 2, of: 3 }]);
    expect(roundRows(figure({ rows: [{ label: "tea", value: 20, low: 10, high: 30 }] }))).toBeNull();
  });

  it("names the taster of every colour", () => {
    const rows = [{ group: "Quiet Ridge", label: "Ada", colour: "#aa7744" }];
    expect(swatchRows(figure({ kind: "swatches", rows }))).toEqual(rows);
  });
});

describe("the report's screen", () => {
  it("does not ask for a report before the key is open", async () => {
    let asked = 0;
    const api = { table: async () => ({ step: "pour" }) as TableView, report: async () => ((asked += 1), {} as Report) };
    const state = new ReportState(api, "t1");
    await state.load();
    expect(asked).toBe(0);
  });
});
