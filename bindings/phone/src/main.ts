/** Opens the core, mounts the app, and watches for a new version, which is taken only when the person says so. */
import { mount } from "svelte";
import { openCore } from "#core";
import App from "./App.svelte";
import { Desk } from "./desk.svelte";
import { secrets } from "./field/key";
import type { Opened } from "./core/calls";
import "./look/tokens.css";
import "./look/base.css";
import "./look/plan.css";
import "./look/section.css";
import { watchForUpdate } from "./update.svelte";

/** A place without a database keeps no key, so no record either: the app says so and help still works. */
async function open(atRest: () => boolean): Promise<Opened> {
  try {
    return openCore({ ...(await secrets()), mayLetGo: atRest });
  } catch (error) {
    const why = String(error);
    const calls = new Proxy({}, { get: () => () => Promise.reject(new Error(why)) }) as Opened["calls"];
    return { calls, takeOver: () => {}, onStanding: (listener) => queueMicrotask(() => listener({ is: "refused", why })) };
  }
}

const target = document.getElementById("app");
if (target) {
  let desk: Desk | undefined;
  desk = new Desk(await open(() => desk?.atRest() ?? true));
  mount(App, { target, props: { desk, update: watchForUpdate() } });
}
