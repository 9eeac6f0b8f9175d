// A photograph that was handed in is shown as soon as the desk has it; without a signal it waits on this phone with
// what else is written, and the page tells so.

import { all } from "./queue.js";

document.addEventListener("desk:kept", async (event) => {
  const then = event.target.dataset.then;
  if (!then) return;
  const sent = (await all()).some((line) => line.id === event.detail.id && line.state === "sent");
  if (sent) location.assign(then);
});
