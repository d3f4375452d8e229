import { describe, expect, it } from "vitest";
import { Api, type Fetch } from "./api";
import { Problem } from "./problem";

interface Sent {
  url: string;
  init: RequestInit;
}

function answering(response: () => Response | Promise<Response>): { api: Api; sent: Sent[] } {
  const sent: Sent[] = [];
  const fetcher: Fetch = async (url, init) => {
    sent.push({ url, init: init ?? {} });
    return response();
  };
  return { api: new Api(fetcher), sent };
}

const refusal = {
  type: "/problems/clash",
  title: "It exists already or was changed",
  status: 409,
  detail: "A table is called Monday already. Choose another name.",
  todo: "Choose another name.",
  where: null,
};

describe("the api", () => {
  it("sends JSON and gives back the answer", async () => {
    const { api, sent } = answering(() => Response.json({ now_ms: 5, started_at: 4, cues: [] }));
    const sheet = await api.markAct("t1", "break", 3);
    expect(sheet.now_ms).toBe(5);
    expect(sent[0]?.url).toBe("/api/tables/t1/marks");
    expect(sent[0]?.init.method).toBe("POST");
    expect(JSON.parse(String(sent[0]?.init.body))).toEqual({ kind: "break", bowl: 3 });
  });

  it("sends a file as a form and leaves its boundary to the browser", async () => {
    const { api, sent } = answering(() => Response.json({ added: [], refused: [] }));
    await api.importFile(new File(["name\n"], "shelf.csv"));
    expect(sent[0]?.init.body).toBeInstanceOf(FormData);
    expect(sent[0]?.init.headers).toBeUndefined();
  });

  it("turns a refusal into a problem with the server's own sentence", async () => {
    const { api } = answering(() => Response.json(refusal, { status: 409 }));
    const problem = await api.tables().catch((error: unknown) => error);
    expect(problem).toBeInstanceOf(Problem);
    expect((problem as Problem).status).toBe(409);
    expect((problem as Problem).what).toBe("A table is called Monday already.");
  });

  it("says that the program does not answer when the network fails", async () => {
    const { api } = answering(() => Promise.reject(new TypeError("failed to fetch")));
    const problem = (await api.health().catch((error: unknown) => error)) as Problem;
    expect(problem.unreachable).toBe(true);
  });

  it("tells the door when the server no longer knows this browser", async () => {
    const { api } = answering(() => Response.json({ ...refusal, status: 401 }, { status: 401 }));
    let told = 0;
    api.onNotKnown = () => (told += 1);
    await expect(api.coffees()).rejects.toBeInstanceOf(Problem);
    expect(told).toBe(1);
  });

  it("survives an error page that is no problem document", async () => {
    const { api } = answering(() => new Response("<h1>Bad gateway</h1>", { status: 502 }));
    const problem = (await api.tables().catch((error: unknown) => error)) as Problem;
    expect(problem.status).toBe(502);
    expect(problem.detail).toContain("502");
  });

  it("takes an empty answer for done", async () => {
    const { api, sent } = answering(() => new Response(null, { status: 204 }));
    await expect(api.removeTable("t1", "Monday & co")).resolves.toBeUndefined();
    expect(sent[0]?.url).toBe("/api/tables/t1?name=Monday%20%26%20co");
  });
});
