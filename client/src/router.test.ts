import { describe, expect, it } from "vitest";
import { hashOf, routeOf } from "./router";

describe("the router", () => {
  it("opens the list of tables at the bare address", () => {
    expect(routeOf("")).toEqual({ name: "tables", id: "" });
    expect(routeOf("#/")).toEqual({ name: "tables", id: "" });
  });

  it("does not take the word new for a table's id", () => {
    expect(routeOf("#/plan/new")).toEqual({ name: "planNew", id: "" });
    expect(routeOf("#/plan/0192")).toEqual({ name: "plan", id: "0192" });
  });

  it("keeps the join code of a link from a QR code", () => {
    expect(routeOf("#/join/K7MPQ2")).toEqual({ name: "joinCode", id: "K7MPQ2" });
  });

  it("opens the season without a table", () => {
    expect(routeOf("#/season")).toEqual({ name: "season", id: "" });
  });

  it("tells the seat from the seat's reveal", () => {
    expect(routeOf("#/seat")).toEqual({ name: "seat", id: "" });
    expect(routeOf("#/seat/reveal")).toEqual({ name: "seatReveal", id: "" });
  });

  it("calls an address it does not know unknown, and survives a broken escape", () => {
    expect(routeOf("#/cellar").name).toBe("unknown");
    expect(routeOf("#/pour/a/b").name).toBe("unknown");
    expect(routeOf("#/pour/%E0%A4")).toEqual({ name: "pour", id: "%E0%A4" });
  });

  it("goes there and back with an id that needs escaping", () => {
    expect(routeOf(hashOf("report", "a b/c"))).toEqual({ name: "report", id: "a b/c" });
  });
});
