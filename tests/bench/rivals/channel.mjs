// One WebSocket for all documents, each message with its document's name before it: the cheapest way to carry
// a protocol made for one document, and so the kindest to the rival.

import { WebSocket, WebSocketServer } from "ws";

const wrap = (name, message) => Buffer.concat([Buffer.from([name.length]), Buffer.from(name), message]);
const unwrap = (data) => {
  const length = data[0];
  return [data.subarray(1, 1 + length).toString(), new Uint8Array(data.subarray(1 + length))];
};

/** Serves; `arrived(send)` makes the receiver of one connection. Resolves to the port. */
export function serve(arrived) {
  return new Promise((resolve) => {
    const server = new WebSocketServer({ host: "127.0.0.1", port: 0, perMessageDeflate: false });
    server.on("connection", (socket) => {
      const receive = arrived((name, message) => socket.send(wrap(name, message)));
      socket.on("message", (data) => receive(...unwrap(data)));
    });
    server.on("listening", () => resolve(server.address().port));
  });
}

/**
 * Connects, speaks, and closes once nothing has come for a while: these protocols have no word for "done".
 */
export function converse(port, begin) {
  return new Promise((resolve, reject) => {
    const socket = new WebSocket(`ws://127.0.0.1:${port}/`, { perMessageDeflate: false });
    let quiet;
    const wait = () => {
      clearTimeout(quiet);
      quiet = setTimeout(() => socket.close(), 1000);
    };
    socket.on("error", reject);
    socket.on("close", () => resolve());
    socket.on("open", () => {
      const receive = begin((name, message) => socket.send(wrap(name, message)));
      socket.on("message", (data) => {
        receive(...unwrap(data));
        wait();
      });
      wait();
    });
  });
}
