// Keeps the parts of a page marked data-live up to date: a hint comes, the page is asked for again, and those parts are
// put in place of the old ones. A person who is typing in a part is not disturbed; without a script the page has a link.
const parts = () => [...document.querySelectorAll("[data-live][id]")];
let waiting = 0, asking = false;

async function refresh() {
  if (asking) { waiting = 1; return; }
  asking = true;
  try {
    // The server put it into the page: with it the audit knows that this is a page and not a person who looks again.
    const token = document.body.dataset.refresh ?? "";
    const answer = await fetch(location.href, { headers: { "farsiding-live": token }, redirect: "error", cache: "no-store" });
    if (answer.status === 401) { location.reload(); return; } // signed out: nothing is left on the screen
    if (!answer.ok) return;
    const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
    document.body.dataset.refresh = fresh.body.dataset.refresh ?? "";
    for (const part of parts()) {
      const next = fresh.getElementById(part.id);
      if (!next || next.innerHTML === part.innerHTML) continue;
      const busy = part.contains(document.activeElement) && document.activeElement.matches("input, textarea, select");
      if (busy || part.querySelector("details[open]")) { document.documentElement.dataset.stale = "1"; continue; }
      const focused = document.activeElement?.id;
      part.replaceWith(document.adoptNode(next));
      if (focused) document.getElementById(focused)?.focus();
    }
  } catch { /* out of reach: the page stays as it is, and its link still works */ } finally {
    asking = false;
    if (waiting) { waiting = 0; setTimeout(refresh, 300); }
  }
}

if (parts().length) {
  const source = new EventSource("/office/live");
  let soon;
  const hint = () => { clearTimeout(soon); soon = setTimeout(refresh, 200); };
  source.addEventListener("new", hint);
  let before = false;
  source.addEventListener("hello", () => { if (before) hint(); before = true; });
  addEventListener("pagehide", () => source.close());
  setInterval(hint, 60000);
}
