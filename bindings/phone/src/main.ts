/**
 * Opens the core, mounts the app, and watches for a new version, which is taken only when the person says so.
 */
import { mount } from "svelte";
import { openCore } from "#core";
import App from "./App.svelte";
import { AppState } from "./state/app.svelte";
import "./look/tokens.css";
import "./look/base.css";
import "./look/paper.css";
import "./look/plan.css";
import "./look/section.css";
import { watchForUpdate } from "./state/update.svelte";

const target = document.getElementById("app");
if (target) {
  const page: { app?: AppState } = {};
  const app = new AppState(openCore({ mayLetGo: () => page.app?.atRest() ?? true }));
  page.app = app;
  // The records are being opened meanwhile.
  await app.language.follow(app.settings);
  mount(App, { target, props: { app, update: watchForUpdate() } });
}
