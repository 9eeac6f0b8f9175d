// A list in a form has one empty entry at its end. When it is opened, another empty one follows it, so that several
// are written before they are kept. Without this each is kept before the next.

const NAMED = ["name", "id", "for", "aria-describedby"];

function renumbered(entry, list, from, to) {
  const old = `${list}.${from}.`;
  const now = `${list}.${to}.`;
  for (const one of entry.querySelectorAll("*")) {
    for (const key of [...NAMED, "data-many"]) {
      const value = one.getAttribute(key);
      if (value) one.setAttribute(key, value.replace(old, now));
    }
  }
}

function emptied(entry) {
  for (const field of entry.querySelectorAll("input, textarea, select")) {
    if (field.matches("select")) field.selectedIndex = 0;
    else field.value = "";
  }
  for (const further of entry.querySelectorAll("details[open]")) further.open = false;
}

document.addEventListener(
  "toggle",
  (event) => {
    const entry = event.target;
    if (!entry.open || !entry.matches("fieldset[data-many] > details.one") || entry.nextElementSibling) return;
    const list = entry.parentElement.dataset.many;
    const number = [...entry.parentElement.querySelectorAll(":scope > details.one")].length - 1;
    const next = entry.cloneNode(true);
    next.open = false;
    emptied(next);
    renumbered(next, list, number, number + 1);
    entry.after(next);
  },
  true,
);
