import "@fontsource-variable/atkinson-hyperlegible-next";
import { mount } from "svelte";
import App from "./App.svelte";
import { applyTheme, themeChoice } from "./kit/theme.svelte";
import "./style/tokens.css";
import "./style/roles.css";
import "./style/base.css";

const target = document.getElementById("app");
if (target === null) throw new Error("index.html has no element #app to mount on");

applyTheme(themeChoice.now);

export default mount(App, { target });
