/* Whether this browser may run the desk. On a network it asks for a passphrase; on this machine alone it is open. */
import { api, type Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { DeskState, Health } from "../wire/types";

export class Door {
  state = $state<DeskState | "unknown">("unknown");
  build = $state("");
  /** whether it was asked once, whatever came of it: before that no room is shown */
  checked = $state(false);
  asking = new Asking();
  #api: Pick<Api, "health" | "enterDesk" | "leaveDesk">;

  constructor(from: Pick<Api, "health" | "enterDesk" | "leaveDesk">) {
    this.#api = from;
  }

  get shut(): boolean {
    return this.state === "locked" || this.state === "unset";
  }

  /** Whether the desk's pages are open to this browser; false as long as nothing is known. */
  get entered(): boolean {
    return this.state === "open" || this.state === "entered";
  }

  /** Ask how things stand. A server that does not answer leaves the door as it was. */
  check = async (): Promise<void> => {
    const health = await this.#api.health().catch(() => null);
    if (health !== null) this.#took(health);
    this.checked = true;
  };

  /** Enter, or set the passphrase for the first time with the one-time word. Whether it worked. */
  async enter(passphrase: string, word: string): Promise<boolean> {
    const health = await this.asking.run(() => this.#api.enterDesk(passphrase, word));
    if (health !== undefined) this.#took(health);
    return health !== undefined;
  }

  async leave(): Promise<void> {
    await this.asking.run(() => this.#api.leaveDesk());
    await this.check();
  }

  #took(health: Health): void {
    this.state = health.desk;
    this.build = health.build;
  }
}

export const door = new Door(api);
api.onNotKnown = () => void door.check();
