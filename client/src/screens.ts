/* Which screen stands at which address. All in one bundle: a screen must open with the server away. */
import type { Component } from "svelte";
import type { RouteName } from "./router";

type Screen = Component<{ id: string }>;

/** The host's screens; they stand in the desk's frame. */
export const deskScreens: Partial<Record<RouteName, Screen>> = {};

/** The taster's screens; they fill the phone. */
export const tasterScreens: Partial<Record<RouteName, Screen>> = {};
