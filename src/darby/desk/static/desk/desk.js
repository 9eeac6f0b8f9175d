// Pages work whole without this. It brings the present mark of the rod into view, opens every row for the printer,
// hides the layers of a drawing that are switched off, and says to who only hears the page what a change changed.

function settle() {
  const rod = document.querySelector(".rod");
  const here = document.querySelector(".stages [aria-current]");
  if (here) here.scrollIntoView({ block: "nearest", inline: "center" });
  if (rod) {
    const stage = rod.querySelector("ol ol .here");
    if (stage && rod.scrollHeight > rod.clientHeight) rod.scrollTop = stage.offsetTop - rod.clientHeight / 2;
  }
}

let opened = [];
addEventListener("beforeprint", () => {
  opened = [...document.querySelectorAll("details:not([open])")];
  for (const row of opened) row.open = true;
});
addEventListener("afterprint", () => {
  for (const row of opened) row.open = false;
});

const SPOKEN = 5; // rows that are read out; the table has them all

/** After a change: its heading and first rows in the page's own status line, and the focus where the answer stands. */
function tell({ detail }) {
  const changed = document.querySelector("#desk .changed");
  const spoken = document.querySelector("#spoken");
  if (detail.requestConfig?.verb !== "post" || !changed || !spoken) return;
  const rows = [...changed.querySelectorAll("tbody tr")].slice(0, SPOKEN).map((row) => {
    const [was, now] = row.querySelectorAll("td");
    const of = (cell) => `${cell.dataset.head}: ${cell.textContent.trim()}`;
    return `${row.querySelector("th").textContent.trim().replace(/\s+/g, " ")}. ${of(was)}, ${of(now)}`;
  });
  spoken.textContent = [changed.querySelector("h2").textContent.trim(), ...rows].join(". ");
  // a page's own script may know a better place, and hears of the change after this one
  queueMicrotask(() => {
    if (document.activeElement === document.body) changed.focus({ preventScroll: true });
  });
}

document.addEventListener("htmx:afterSettle", settle);
document.addEventListener("htmx:afterSettle", tell);
document.addEventListener("htmx:sendError", () => {
  const said = document.querySelector("#lost");
  if (said) said.hidden = false;
});
settle();
