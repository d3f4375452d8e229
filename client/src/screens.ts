/* Which screen stands at which address. All in one bundle: a screen must open with the server away. */
import type { Component } from "svelte";
import AnalyseScreen from "./analyse/Screen.svelte";
import SeasonScreen from "./analyse/SeasonScreen.svelte";
import CoffeesScreen from "./coffees/Screen.svelte";
import EnterScreen from "./enter/Screen.svelte";
import JoinScreen from "./join/Screen.svelte";
import PlanScreen from "./plan/Screen.svelte";
import PourScreen from "./pour/Screen.svelte";
import ReportScreen from "./report/Screen.svelte";
import DeskRevealScreen from "./reveal/DeskScreen.svelte";
import TasterRevealScreen from "./reveal/TasterScreen.svelte";
import type { RouteName } from "./router";
import TablesScreen from "./tables/Screen.svelte";
import ProgressScreen from "./taste/ProgressScreen.svelte";
import PaperScreen from "./taste/paper/Screen.svelte";
import SeatScreen from "./taste/Screen.svelte";
import WordsScreen from "./words_room/Screen.svelte";

// Every screen is given the `id` of its address; those without a table take no props.
// `any`, because Component is invariant in its props.
type Screen = Component<any>;

/** The host's screens; they stand in the desk's frame. */
export const deskScreens: Partial<Record<RouteName, Screen>> = {
  tables: TablesScreen,
  coffees: CoffeesScreen,
  words: WordsScreen,
  word: WordsScreen,
  planNew: PlanScreen,
  plan: PlanScreen,
  pour: PourScreen,
  taste: ProgressScreen,
  paper: PaperScreen,
  reveal: DeskRevealScreen,
  season: SeasonScreen,
  analyse: AnalyseScreen,
  report: ReportScreen,
  enter: EnterScreen,
};

/** The taster's screens; they fill the phone. */
export const tasterScreens: Partial<Record<RouteName, Screen>> = {
  join: JoinScreen,
  joinCode: JoinScreen,
  seat: SeatScreen,
  seatReveal: TasterRevealScreen,
};
