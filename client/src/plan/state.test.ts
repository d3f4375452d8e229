// @vitest-environment happy-dom
import { beforeEach, describe, expect, it } from "vitest";
import { Problem } from "../wire/problem";
import type { Balance } from "../wire/balance";
import type { Outlook } from "../wire/outlook";
import type { Protocol } from "../wire/protocols";
import type { Brief, Coffee, Plan, Recipe, RunSheet, Sheet, Step, TableView } from "../wire/types";
import { laidCalled } from "../pour/laid.testing";
import { PlanState } from "./state.svelte";

const LAID = laidCalled("eight by two");

const coffee = (id: string): Coffee => ({
  id,
  name: id,
  roaster: "",
  origin: "",
  process: "",
  variety: "",
  roast_date: null,
  published_notes: "",
  grams_left: null,
});

const tableOf = (plan: Plan, step: Step = "plan"): TableView => ({
  id: "t1",
  name: plan.name,
  created: "2026-11-24T09:00:00Z",
  step,
  blinding: plan.blinding,
  plan,
  sheet: { name: "open", version: 1, title: "Open sheet", liking: null, passes: [] },
  codes: ["274", "538"],
  places: ["274", "538"],
  bowls: [
    { place: "274", number: 1 },
    { place: "538", number: 1 },
  ],
  seats: [],
  commitment: step === "plan" ? "" : "ab".repeat(32),
  join_code: "K7MPQ2",
  clock: { started_at: null, pours: [], done: [] },
  placings: {},
});

const UNDRAWN: Balance = {
  sentences: [],
  connected: false,
  cost: 0,
  bound: 0,
  tasters: 0,
  places: [],
  served: [],
  together: [],
  flights: [],
};

const briefOf = (plan: Plan): Brief => ({
  recipe: { dose_g: plan.bowl_ml * 0.055 } as Recipe,
  tasks: [],
  coffees: [],
  warnings: [],
  deviations: [],
  limits: [],
  balance: UNDRAWN,
});

const protocolOf = (name: string, suggested: Record<string, number>): Protocol => ({
  name,
  version: 1,
  title: name,
  about: "",
  own: false,
  brewed: "bowl",
  acts: [],
  asks: [],
  suggested,
  text: "",
});

/** Plans one table and seals it, refusing what has no name, as the server does. */
function server(log: string[] = []) {
  let kept: TableView | null = null;
  const checked = (plan: Plan): Plan => {
    if (plan.name.trim() !== "") return plan;
    throw new Problem({ status: 422, title: "", detail: "The table has no name.", todo: "", where: { column: "name" } });
  };
  const keep = (plan: Plan, act: string) => {
    log.push(act);
    kept = tableOf(checked(plan));
    return kept;
  };
  return {
    coffees: async () => [coffee("a"), coffee("b")],
    sheets: async () => [],
    protocols: async () => [protocolOf("home", { grams_per_litre: 60, bowls_per_sample: 2, unheard_of: 1 })],
    table: async () => kept ?? tableOf({ ...(await draft()) }),
    previewBrief: async (plan: Plan) => briefOf(checked(plan)),
    previewOutlook: async (): Promise<Outlook> => ({ schedule: null, warnings: [], one_more: [] }),
    brief: async () => briefOf(kept!.plan),
    runSheet: async () => ({ schedule: LAID }) as RunSheet,
    planTable: async (plan: Plan) => keep(plan, "plan"),
    replanTable: async (_: string, plan: Plan) => keep(plan, "replan"),
    seal: async () => {
      log.push("seal");
      return tableOf(kept!.plan, "pour");
    },
    removeTable: async () => undefined,
  };
}

const REFUSAL = { status: 422, title: "", detail: "Too many bowls. Plan fewer.", todo: "Plan fewer.", where: null };

const settled = () => new Promise((done) => setTimeout(done, 0));

async function draft(): Promise<Plan> {
  const state = new PlanState(server(), "");
  await state.load();
  state.form.name = "Monday";
  state.form.coffees = ["a"];
  return (await state.save())!.plan;
}

describe("a plan in the making", () => {
  beforeEach(() => localStorage.clear());

  it("shows what it would need before it has a name", async () => {
    const state = new PlanState(server(), "");
    await state.load();
    state.toggle("a");
    await state.preview();
    expect(state.brief?.recipe.dose_g).toBeCloseTo(11);
    expect(state.cups).toHaveLength(1);
  });

  it("takes over what a protocol asks, and nothing that a plan does not have", async () => {
    const state = new PlanState(server(), "");
    await state.load();
    state.goBy("home");

    expect(state.form).toMatchObject({ protocol: "home", grams_per_litre: 60, bowls_per_sample: 2, bowl_ml: 200 });
    expect(state.form).not.toHaveProperty("unheard_of");
    expect(state.dirty).toBe(true);
  });

  it("survives a closed tab until it is saved", async () => {
    const first = new PlanState(server(), "");
    await first.load();
    first.form.name = "Half a pl";
    first.toggle("b");

    const second = new PlanState(server(), "");
    await second.load();
    expect(second.form.name).toBe("Half a pl");
    expect(second.form.coffees).toEqual(["b"]);
    await second.save();

    const third = new PlanState(server(), "");
    await third.load();
    expect(third.form.name).toBe("");
  });

  it("drops from a kept draft a coffee that left the shelf", async () => {
    localStorage.setItem("cupwright.draft.plan/new", JSON.stringify({ name: "Old", coffees: ["a", "gone"] }));
    const state = new PlanState(server(), "");
    await state.load();
    expect(state.form.coffees).toEqual(["a"]);
    expect(state.form.bowl_ml).toBe(200);
  });

  it("keeps the form when the server refuses and puts the complaint at its field", async () => {
    const state = new PlanState(server(), "");
    await state.load();
    state.toggle("a");
    expect(await state.save()).toBeUndefined();
    expect(state.complaint("name")).toBe("The table has no name.");
    expect(state.form.coffees).toEqual(["a"]);
  });

  it("saves what is unsaved before it seals", async () => {
    const log: string[] = [];
    const state = new PlanState(server(log), "");
    await state.load();
    state.form.name = "Monday";
    state.toggle("a");
    expect(await state.seal()).toBe(true);
    expect(log).toEqual(["plan", "seal"]);
    expect(state.sealed).toBe(true);
    expect(state.table?.commitment).toHaveLength(64);
  });

  it("shows the drawn codes once saved, and plain places after a change", async () => {
    const state = new PlanState(server(), "");
    await state.load();
    state.form.name = "Monday";
    state.form.coffees = ["a", "b"];
    await state.save();
    expect(state.cups.map((cup) => cup.place)).toEqual(["274", "538"]);
    state.toggle("b");
    expect(state.cups.map((cup) => cup.place)).toEqual(["1"]);
  });

  it("does not let a slow answer replace a newer one", async () => {
    const waiting: ((brief: Brief) => void)[] = [];
    const state = new PlanState({ ...server(), previewBrief: () => new Promise((done) => waiting.push(done)) }, "");
    state.form.coffees = ["a"];
    const old = state.preview();
    const fresh = state.preview();
    waiting[1]?.({ recipe: { dose_g: 2 } as Recipe, tasks: [], coffees: [], warnings: [], deviations: [], limits: [], balance: UNDRAWN });
    await fresh;
    waiting[0]?.({ recipe: { dose_g: 1 } as Recipe, tasks: [], coffees: [], warnings: [], deviations: [], limits: [], balance: UNDRAWN });
    await old;
    expect(state.brief?.recipe.dose_g).toBe(2);
  });

  it("asks for one schedule at a time, and then for the plan as it stands by then", async () => {
    const asked: number[] = [];
    const waiting: ((outlook: Outlook) => void)[] = [];
    const previewOutlook = (plan: Plan) => {
      asked.push(plan.bowl_ml);
      return new Promise<Outlook>((done) => waiting.push(done));
    };
    const state = new PlanState({ ...server(), previewOutlook }, "");
    state.form.coffees = ["a"];
    for (const ml of [200, 210, 220]) {
      state.form.bowl_ml = ml;
      await state.preview();
    }
    expect(asked).toEqual([200]);

    waiting[0]?.({ schedule: null, warnings: ["old"], one_more: [] });
    await settled();
    expect(asked).toEqual([200, 220]);
    expect(state.outlook).toBeNull();
    expect(state.updating).toBe(true);

    waiting[1]?.({ schedule: null, warnings: ["new"], one_more: [] });
    await settled();
    expect(state.outlook?.warnings).toEqual(["new"]);
    expect(state.updating).toBe(false);
  });

  it("keeps the last good picture when a field is refused, and says so at the field", async () => {
    const previewBrief = async (plan: Plan) => {
      if (plan.bowls_per_sample <= 10) return briefOf(plan);
      throw new Problem({ ...REFUSAL, about: "bowls_per_sample" });
    };
    const state = new PlanState({ ...server(), previewBrief }, "");
    state.toggle("a");
    state.form.bowls_per_sample = 2;
    state.changed();
    await state.preview();

    state.form.bowls_per_sample = 100;
    state.changed();
    await state.preview();

    expect(state.cups).toHaveLength(2);
    expect(state.brief?.recipe.dose_g).toBeCloseTo(11);
    expect(state.complaint("bowls_per_sample")).toBe("Too many bowls. Plan fewer.");
    expect(state.fieldRefused).toBe(true);
  });

  it("tells a refusal beside the table where no field shows it", async () => {
    const refused = new Problem({ ...REFUSAL, about: "protocol" });
    const state = new PlanState({ ...server(), previewBrief: () => Promise.reject(refused) }, "");
    state.toggle("a");
    await state.preview();

    expect(state.fieldRefused).toBe(false);
    expect(state.previewing.problem).toBe(refused);
  });

  it("stands a coffee under a second code until the coffee is taken away", async () => {
    const state = new PlanState(server(), "");
    await state.load();
    state.toggle("a");
    state.toggleTwice("a");
    expect(state.cups).toHaveLength(2);

    state.toggle("a");
    expect(state.form.duplicates).toEqual([]);
  });

  it("looks a sealed table up as it was laid", async () => {
    const state = new PlanState(server(), "");
    await state.load();
    state.form.name = "Monday";
    state.toggle("a");
    await state.seal();
    await settled();

    expect(state.outlook?.schedule).toEqual(LAID);
    expect(state.outlook?.one_more).toEqual([]);
  });
});

describe("sheets and protocols of one's own", () => {
  async function loaded(sheets: string[]) {
    let names = sheets;
    const state = new PlanState({ ...server(), sheets: async () => names.map((name) => ({ name }) as Sheet) }, "");
    await state.load();
    return { state, now: (...found: string[]) => void (names = found) };
  }

  it("chooses one that was kept", async () => {
    const { state, now } = await loaded(["open"]);
    now("open", "house");

    await state.formsChanged("sheet", "house");

    expect(state.sheets.map((one) => one.name)).toEqual(["open", "house"]);
    expect(state.form.sheet).toBe("house");
  });

  it("leaves the plan alone unless the chosen one was put away", async () => {
    const { state, now } = await loaded(["open", "house", "bar"]);
    Object.assign(state, { dirty: false });
    state.form.sheet = "house";
    now("open", "house");
    await state.formsChanged("sheet", "");
    expect([state.form.sheet, state.dirty]).toEqual(["house", false]);

    now("open");
    await state.formsChanged("sheet", "");
    expect([state.form.sheet, state.dirty]).toEqual(["open", true]);
  });

  it("leaves what was typed alone when another protocol is put away", async () => {
    const { state } = await loaded(["open"]);
    state.goBy("home");
    state.form.grams_per_litre = 55;

    await state.formsChanged("protocol", "");

    expect([state.form.protocol, state.form.grams_per_litre]).toEqual(["home", 55]);
  });
});
