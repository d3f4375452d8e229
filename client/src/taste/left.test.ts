// @vitest-environment happy-dom
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Left } from "./left";

let told: boolean[];
let left: Left;

beforeEach(() => {
  vi.useFakeTimers();
  told = [];
  left = new Left((gone) => told.push(gone));
});
afterEach(() => void vi.useRealTimers());

it("tells that a field was left a moment after, not at once", () => {
  left.gone();
  vi.advanceTimersByTime(300);
  expect(told).toEqual([]);
  vi.advanceTimersByTime(100);
  expect(told).toEqual([true]);
});

it("tells at once that somebody writes again, and forgets that it was left", () => {
  left.gone();
  left.back();
  vi.advanceTimersByTime(1000);
  expect(told).toEqual([false]);
});

it("tells nothing of a field that is no more", () => {
  left.gone();
  left.stop();
  vi.advanceTimersByTime(1000);
  expect(told).toEqual([]);
});
