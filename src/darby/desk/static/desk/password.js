// A password can be looked at while it is typed, and the page says how strong a new one is. Works without.

for (const button of document.querySelectorAll("[data-look-at]")) {
  const field = document.getElementById(button.dataset.lookAt);
  button.hidden = false;
  button.addEventListener("click", () => {
    const seen = field.type === "text";
    field.type = seen ? "password" : "text";
    button.setAttribute("aria-pressed", String(!seen));
  });
  if (field.form) field.form.addEventListener("submit", () => { field.type = "password"; });
}

// By length and by how many different signs it has: what the desk's own list of common ones knows, it says itself.
export function strength(typed, name) {
  const different = new Set(typed.toLowerCase()).size;
  if (!typed) return "";
  if (typed.length < 12) return "short";
  if (different < 6 || /^\d+$/.test(typed) || (name && typed.toLowerCase().includes(name.toLowerCase()))) return "weak";
  return typed.length < 16 || different < 9 ? "fair" : "strong";
}

for (const said of document.querySelectorAll("[data-strength]")) {
  const field = document.getElementById(said.dataset.strength);
  field.addEventListener("input", () => {
    const found = strength(field.value, document.getElementById("name").value);
    said.textContent = found ? said.dataset[found] : "";
  });
}
