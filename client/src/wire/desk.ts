/* The server, and whether its desk is open. */
import type { Millis } from "./table";

export type DeskState = "open" | "locked" | "entered" | "unset";

export interface Health {
  version: string;
  build: string;
  now_ms: Millis;
  lan: boolean;
  desk: DeskState;
}
