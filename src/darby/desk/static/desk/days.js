// Says a coat that is on in words before it is kept on this phone, so that the list of what waits can be read.

document.addEventListener(
  "submit",
  (event) => {
    const form = event.target.closest("form[data-says]");
    if (!form) return;
    const chosen = (name) => form.elements[name].selectedOptions[0].text;
    let text = form.elements.text;
    if (!text) {
      text = document.createElement("input");
      text.type = "hidden";
      text.name = "text";
      form.append(text);
    }
    const said = { coat: chosen("coat"), where: chosen("at"), on: form.elements.on.value };
    text.value = form.dataset.says.replace(/%(\w+)/g, (_, name) => said[name]);
  },
  true,
);
