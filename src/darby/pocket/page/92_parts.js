// Pieces of the page: fields, switches, ledger rows, cautions.

function el(name, properties = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (key.startsWith("on")) made.addEventListener(key.slice("on".length), value);
    else if (key in made && typeof value !== "string") made[key] = value;
    else if (value !== undefined) made.setAttribute(key, value);
  }
  made.append(...children.flat().filter((child) => child !== undefined && child !== ""));
  return made;
}

const OUTPUTS = new Map();
const filling = { id: "" };
const FIELDS = new Map();

/** A place on the page that is filled anew whenever something is typed. */
function output(id, make, tag = "div") {
  OUTPUTS.set(id, make);
  return el(tag, { id });
}

const idOf = (at) => at.join("-");

/** A field with its label, a hint, and room for what is wrong with it. */
function field({ at, label, hint, value, set, mode = "text", type = "text" }) {
  const id = idOf(at);
  const input = el("input", {
    id,
    type,
    ...(type === "text" ? { inputmode: mode } : {}),
    autocomplete: "off",
    autocapitalize: "off",
    spellcheck: "false",
    "aria-describedby": `${id}-hint ${id}-fault`,
    oninput: (event) => {
      set(event.target.value);
      update();
    },
  });
  input.value = value;
  FIELDS.set(id, input);
  const said = el("p", { class: "hint", id: `${id}-hint` }, hint ?? "");
  return el("div", { class: "field" }, el("label", { for: id }, label), input, el("p", { class: "fault", id: `${id}-fault` }), said);
}

/** A choice among words. `again`: what is chosen decides what else is asked. */
function choice({ at, label, value, words, set, again = false, wide = false }) {
  const id = idOf(at);
  const select = el(
    "select",
    {
      id,
      onchange: (event) => {
        set(event.target.value);
        if (again) render();
        else update();
      },
    },
    words.map(([word, text]) => el("option", { value: word, selected: word === value }, text)),
  );
  return el("div", { class: wide ? "field whole" : "field" }, el("label", { for: id }, label), select);
}

const press = (text, does, properties = {}) => el("button", { type: "button", onclick: does, ...properties }, text);
const toggle = (text, on, does, properties = {}) => press(text, does, { class: "switch", "aria-pressed": on ? "true" : "false", ...properties });

/** A row of the ledger: what, and how much. With more to say it opens. */
function entry(name, value, more = [], soft = false) {
  const cells = [el("span", { class: "nm" }, name), el("span", { class: "ld" }), el("span", { class: soft ? "v soft" : "v" }, value)];
  if (!more.length) return el("div", { class: "row" }, cells);
  const key = `${filling.id}/${name}`;
  const keep = (event) => state.open[event.target.open ? "add" : "delete"](key);
  return el("details", { class: "row", open: state.open.has(key), ontoggle: keep }, el("summary", {}, cells), el("div", { class: "working" }, more));
}

/** A sum as it is written on paper: each line, the last ruled double. */
const sumOf = (rows) => el("table", { class: "steps" }, el("tbody", {}, rows.map(sumLine)));

function sumLine([name, value, share = ""]) {
  return el("tr", {}, el("th", { scope: "row" }, name), el("td", { class: "r" }, share), el("td", { class: "r" }, value));
}

const caution = (text) => el("div", { class: "warn", role: "note", "aria-label": say("pocket.caution") }, el("p", {}, text));
const aside = (text) => el("p", { class: "src" }, text);
const list = (texts) => (texts.length ? [el("ul", { class: "list" }, texts.map((text) => el("li", {}, text)))] : []);
const once = (texts) => [...new Set(texts)];
