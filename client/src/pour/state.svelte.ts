/* Around the pour: the brief, who may sit down, and the list that only the pourer sees. */
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { Brief, JoinView, Joined, PourLine } from "../wire/types";

type Pouring = Pick<Api, "brief" | "join" | "pourList" | "takeSeat" | "freeSeat">;

export class PourState {
  id: string;
  brief = $state<Brief | null>(null);
  join = $state<JoinView | null>(null);
  list = $state<PourLine[] | null>(null);
  newName = $state("");
  loading = new Asking();
  showing = new Asking();
  seating = new Asking();
  #api: Pouring;
  #sit: (joined: Joined) => Promise<void>;

  /** `sit` takes a seat into this device's own notebook. */
  constructor(api: Pouring, id: string, sit: (joined: Joined) => Promise<void>) {
    this.#api = api;
    this.#sit = sit;
    this.id = id;
  }

  /** Whether the join address leads here from another device: a loopback name leads to that device itself. */
  get phonesReach(): boolean {
    return this.join !== null && !/^https?:\/\/(localhost|127\.[\d.]+|\[::1\])[:/]/.test(this.join.url);
  }

  async load(): Promise<void> {
    const found = await this.loading.run(() => Promise.all([this.#api.brief(this.id), this.#api.join(this.id)]));
    if (found !== undefined) [this.brief, this.join] = found;
  }

  /** Seeing the list is recorded, so it is asked for only when somebody says they are the pourer. */
  async showList(): Promise<void> {
    this.list = (await this.showing.run(() => this.#api.pourList(this.id))) ?? null;
  }

  hideList(): void {
    this.list = null;
  }

  /** Whether somebody now sits on this machine under that name. */
  async takeSeat(name: string): Promise<boolean> {
    const joined = await this.seating.run(async () => {
      const taken = await this.#api.takeSeat(this.id, name);
      await this.#sit(taken);
      return taken;
    });
    if (joined !== undefined) this.newName = "";
    return joined !== undefined;
  }

  async freeSeat(seat: string): Promise<void> {
    await this.seating.run(() => this.#api.freeSeat(this.id, seat));
  }
}
