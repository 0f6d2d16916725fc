// A server that hands out the built app and passes on to an office what is the office's, as a web server in
// front of an office does.
import { readFile } from "node:fs/promises";
import { createServer, request } from "node:http";
import { extname, join, normalize } from "node:path";

const TYPES = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

/** Serves `folder` under /app/ on a free port; requests under /v1/ go to the office. */
export async function servesApp(folder, office) {
  const server = createServer((asked, answer) => {
    if (asked.url.startsWith("/v1/")) passesOn(office, asked, answer);
    else void handsOut(folder, asked, answer);
  });
  await new Promise((up) => server.listen(0, "127.0.0.1", up));
  const close = () =>
    new Promise((down) => {
      server.closeAllConnections();
      server.close(down);
    });
  return { url: `http://127.0.0.1:${server.address().port}/app/`, close };
}

function passesOn(office, asked, answer) {
  const onwards = request(
    `${office.url}${asked.url}`,
    { method: asked.method, headers: asked.headers },
    (theirs) => {
      answer.writeHead(theirs.statusCode, theirs.headers);
      theirs.pipe(answer);
    },
  );
  onwards.on("error", () => answer.destroy());
  asked.pipe(onwards);
}

async function handsOut(folder, asked, answer) {
  const path = decodeURIComponent(new URL(asked.url, "http://x").pathname).replace(/^\/app\/?/, "");
  const file = join(folder, normalize(path || "index.html"));
  try {
    const bytes = await readFile(file);
    const type = TYPES[extname(file)] ?? "application/octet-stream";
    answer.writeHead(200, { "content-type": type, "cache-control": "no-cache" }).end(bytes);
  } catch {
    answer.writeHead(404).end();
  }
}
