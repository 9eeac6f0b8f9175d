// Pages work whole without this. It brings the present mark of the rod into view, opens every row for the printer,
// and hides the layers of a drawing that are switched off.

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

document.addEventListener("htmx:afterSettle", settle);
document.addEventListener("htmx:sendError", () => {
  const said = document.querySelector("#lost");
  if (said) said.hidden = false;
});
settle();
