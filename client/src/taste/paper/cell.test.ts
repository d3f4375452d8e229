// @vitest-environment happy-dom
import { flushSync, mount, unmount } from "svelte";
import { afterEach, expect, test, vi } from "vitest";
import PaperCell from "./PaperCell.svelte";

let shown: ReturnType<typeof mount> | null = null;
afterEach(() => {
  if (shown) void unmount(shown);
  document.body.replaceChildren();
});

function cell(onkeep: (text: string) => Promise<string>, onmove = vi.fn()): { input: HTMLInputElement; onmove: typeof onmove } {
  shown = mount(PaperCell, { target: document.body, props: { label: "Flavour, 204", value: "", wide: false, disabled: false, onkeep, onmove } });
  flushSync();
  return { input: document.querySelector("input")!, onmove };
}

async function leave(input: HTMLInputElement, text: string): Promise<void> {
  input.focus();
  input.value = text;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  input.dispatchEvent(new Event("blur"));
  await new Promise((resolve) => setTimeout(resolve));
  flushSync();
}

test("what does not fit stays in the cell with the reason", async () => {
  const { input } = cell(async () => "6 to 10");

  await leave(input, "7.3");

  expect(input.value).toBe("7.3");
  expect(input.getAttribute("aria-invalid")).toBe("true");
  expect(document.querySelector("[role=alert]")?.textContent).toBe("6 to 10");
});

test("what fits is kept as it was typed", async () => {
  const kept: string[] = [];
  const { input } = cell(async (text) => (kept.push(text), ""));

  await leave(input, "7.25");

  expect(kept).toEqual(["7.25"]);
  expect(input.getAttribute("aria-invalid")).toBeNull();
});

test("Enter goes on, Shift with Enter back, up and down to the neighbours; left and right only from the ends of the text", () => {
  const { input, onmove } = cell(async () => "");
  input.value = "12";
  const press = (key: string, shiftKey = false) => input.dispatchEvent(new KeyboardEvent("keydown", { key, shiftKey, bubbles: true, cancelable: true }));
  input.setSelectionRange(1, 1);
  for (const key of ["Enter", "ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "a"]) press(key);
  press("Enter", true);
  input.setSelectionRange(2, 2);
  press("ArrowRight");

  expect(onmove.mock.calls).toEqual([[0, 1], [-1, 0], [1, 0], [0, -1], [0, 1]]);
});
