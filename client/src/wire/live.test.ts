import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { watch, type Stream } from "./live";

class FakeStream implements Stream {
  onmessage: Stream["onmessage"] = null;
  onerror: Stream["onerror"] = null;
  readyState = 1;
  closed = false;
  close() {
    this.closed = true;
  }
  say(data: unknown) {
    this.onmessage?.(new MessageEvent("message", { data: JSON.stringify(data) }));
  }
}

describe("live news", () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it("hands on what the stream says about its table", () => {
    const stream = new FakeStream();
    const heard: string[] = [];
    let url = "";
    watch("t1", (news) => heard.push(news.kind), (asked) => ((url = asked), stream));
    stream.say({ table: "t1", kind: "clock" });
    expect(url).toBe("/api/live?table=t1");
    expect(heard).toEqual(["clock"]);
  });

  it("asks every three seconds while the stream is broken, and stops when it speaks again", () => {
    const stream = new FakeStream();
    const heard: string[] = [];
    watch(null, (news) => heard.push(news.kind), () => stream);
    stream.onerror?.(new Event("error"));
    stream.onerror?.(new Event("error"));
    vi.advanceTimersByTime(6100);
    expect(heard).toEqual(["poll", "poll"]);
    stream.say({ table: null, kind: "hello" });
    vi.advanceTimersByTime(10_000);
    expect(heard).toEqual(["poll", "poll", "hello"]);
  });

  it("is silent after it was stopped", () => {
    const stream = new FakeStream();
    const heard: string[] = [];
    const stop = watch("t1", (news) => heard.push(news.kind), () => stream);
    stream.onerror?.(new Event("error"));
    stop();
    vi.advanceTimersByTime(10_000);
    expect(stream.closed).toBe(true);
    expect(heard).toEqual([]);
  });
});
