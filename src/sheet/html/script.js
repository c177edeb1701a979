(() => {
  "use strict";
  const key = "setover " + document.body.dataset.key;
  const fields = [...document.querySelectorAll(".screen input")];
  const text = document.getElementById("text");
  const said = document.getElementById("said");
  let kept = {};
  try { kept = JSON.parse(localStorage.getItem(key)) || {}; } catch (_) { kept = {}; }
  const value = (field) => field.type === "checkbox" ? (field.checked ? "✓" : "") : field.value.trim();
  const two = (n) => String(n).padStart(2, "0");
  const today = () => { const d = new Date(); return d.getFullYear() + "-" + two(d.getMonth() + 1) + "-" + two(d.getDate()); };
  const readings = () => fields.filter((field) => field.dataset.unit !== undefined && value(field)).map((field) => {
    const sheet = field.closest("section");
    const words = [...sheet.querySelectorAll("input[data-words]")].map(value).filter(Boolean);
    const when = words.length ? words.join(", ") : today();
    return sheet.dataset.address + "/" + field.dataset.name + ": " + value(field) + " " + field.dataset.unit + ", " + when;
  });
  const places = new Map([...document.querySelectorAll("[data-of]")].map((place) => [place.dataset.of, place]));
  const show = () => {
    for (const field of fields) {
      const place = places.get(field.id);
      if (place) { place.textContent = value(field); }
    }
    text.value = readings().join("\n");
  };
  const keep = () => {
    kept = {};
    for (const field of fields) { if (value(field)) { kept[field.id] = field.type === "checkbox" ? true : field.value; } }
    try { localStorage.setItem(key, JSON.stringify(kept)); } catch (_) { /* Not kept: the page still works. */ }
    show();
  };
  for (const field of fields) {
    if (field.id in kept) { if (field.type === "checkbox") { field.checked = true; } else { field.value = kept[field.id]; } }
    field.addEventListener(field.type === "checkbox" ? "change" : "input", keep);
  }
  document.getElementById("copy").addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(text.value);
      said.textContent = said.dataset.copied;
    } catch (_) {
      text.focus();
      text.select();
      said.textContent = said.dataset.byHand;
    }
  });
  document.getElementById("save").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text.value + "\n"], { type: "text/plain" }));
    link.download = "readings.txt";
    link.click();
    URL.revokeObjectURL(link.href);
  });
  document.getElementById("readings").hidden = false;
  show();
})();
