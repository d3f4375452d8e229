import { describe, expect, it } from "vitest";
import { linePanels, readAt, stopsOf, type LineRow } from "./lines";

const SIZE = { width: 300, height: 200, left: 40, right: 60, top: 10, bottom: 30 };
const row = (label: string, x: number, estimate: number, group = "", half: number | null = 1): LineRow => ({
  group,
  label,
  x,
  estimate,
  low: half === null ? null : estimate - half,
  high: half === null ? null : estimate + half,
});

describe("lines of a figure", () => {
  it("have a panel for each group, all on the same axes", () => {
    const panels = linePanels([row("A", 0, 1, "Weight"), row("A", 10, 2, "Weight"), row("A", 0, 50, "Length")], null, SIZE);
    expect(panels.map((panel) => panel.group)).toEqual(["Weight", "Length"]);
    expect(panels[0]?.up).toEqual(panels[1]?.up);
  });

  it("run from the first end of the domain to the second, even downwards", () => {
    const [panel] = linePanels([row("A", 40, 1), row("A", 70, 2)], [70, 40], SIZE);
    expect(panel?.lines[0]?.path.startsWith("M40.0,")).toBe(true);
    expect(panel?.lines[0]?.end.x).toBe(240);
  });

  it("have no band where no interval is known", () => {
    const [panel] = linePanels([row("A", 0, 1, "", null), row("A", 10, 2, "", null)], null, SIZE);
    expect(panel?.lines[0]?.band).toBe("");
  });

  it("keep their names a line apart and inside the panel", () => {
    const rows = ["A", "B", "C"].flatMap((label) => [row(label, 0, 1), row(label, 10, 0)]);
    const names = linePanels(rows, null, SIZE)[0]?.lines.map((line) => line.nameY) ?? [];
    const sorted = [...names].sort((a, b) => a - b);
    expect((sorted[1] ?? 0) - (sorted[0] ?? 0)).toBeGreaterThanOrEqual(15);
    expect((sorted[2] ?? 0) - (sorted[1] ?? 0)).toBeGreaterThanOrEqual(15);
    expect(Math.max(...names)).toBeLessThanOrEqual(170);
  });

  it("stop at every x that is known, in the direction of the picture, and are read there", () => {
    const rows = [row("A", 50, 1), row("A", 60, 2), row("B", 60, 3)];
    expect(stopsOf(rows, null)).toEqual([50, 60]);
    expect(stopsOf(rows, [70, 40])).toEqual([60, 50]);
    expect(readAt(rows, 60).map((one) => one.label)).toEqual(["A", "B"]);
  });
});
