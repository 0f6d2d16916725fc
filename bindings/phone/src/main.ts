/** Opens the core, mounts the app, and watches for a new version, which is taken only when the person says so. */
import { mount } from "svelte";
import { openCore } from "#core";
import App from "./App.svelte";
import { Desk } from "./desk.svelte";
import "./look/tokens.css";
import "./look/base.css";
import "./look/plan.css";
import "./look/section.css";
import { watchForUpdate } from "./update.svelte";

const target = document.getElementById("app");
if (target) {
  let desk: Desk | undefined;
  desk = new Desk(openCore({ mayLetGo: () => desk?.atRest() ?? true }));
  mount(App, { target, props: { desk, update: watchForUpdate() } });
}
