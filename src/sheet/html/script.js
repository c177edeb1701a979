(() => {
  "use strict";
  const key = "setover " + document.body.dataset.key;
  const fields = [...document.querySelectorAll(".screen input")];
  const text = document.getElementById("text");
  const said = document.getElementById("said");
  let kept = {};
  try { kept = JSON.parse(localStorage.getItem(key)) || {}; } catch (_) { kept = {}; }
  // What is kept belongs to a blank of a sheet by its name: on a page that is made anew another may stand in its place.
  const kept_as = (field) => {
    const sheet = field.closest("section");
    if (!sheet) { return field.id; }
    return [sheet.id, sheet.dataset.address || "", field.dataset.name || "", field.dataset.unit || ""].join("|");
  };
  const value = (field) => field.type === "checkbox" ? (field.checked ? "✓" : "") : field.value.trim();
  const two = (n) => String(n).padStart(2, "0");
  const today = () => { const d = new Date(); return d.getFullYear() + "-" + two(d.getMonth() + 1) + "-" + two(d.getDate()); };
  // The entries of the log of a sheet: several readings of one size stand in a row, what the log does not ask for in a remark.
  const entry = (sheet) => {
    const filled = [...sheet.querySelectorAll("input[data-unit]")].filter(value);
    if (!filled.length) { return []; }
    const left = new Map();
    const notes = [];
    for (const field of filled) {
      const { log, before, unit, name, with: gauge, all } = field.dataset;
      // One of the readings that make it together is not that size.
      const alone = all !== undefined && filled.filter((other) => other.dataset.log === log).length === 1
        && [...sheet.querySelectorAll("input[data-unit]")].filter((other) => other.dataset.log === log).length > 1;
      if (!log || alone) { notes.push(name + ": " + value(field) + " " + unit); continue; }
      if (!left.has(log)) { left.set(log, { before, unit, gauge: gauge || "", reads: [] }); }
      left.get(log).reads.push(value(field));
    }
    const typed = [...sheet.querySelectorAll("input[data-words]")].map(value).filter(Boolean);
    // A date that is written otherwise than year-month-day: with dots the day comes first; of all else the log asks what is meant.
    const written = typed.find((word) => /^\d{1,4}[-./]\d{1,2}[-./]\d{1,4}$/.test(word)) || typed.find((word) => /\d/.test(word));
    const dotted = written && /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(written);
    const day = dotted ? dotted[3] + "-" + two(dotted[2]) + "-" + two(dotted[1]) : (written || today());
    const plain = (word) => /^[-./\d]+$/.test(word);
    const by = typed.filter((word) => word !== written).join(", ");
    const cut = sheet.dataset.address.lastIndexOf("/");
    // A line for each gauge: the log takes one of it.
    const gauges = [...new Set([...left.values()].map((of) => of.gauge))];
    const lines = gauges.length ? gauges : [""];
    return lines.map((gauge, at) => {
      const keys = [["part", sheet.dataset.address.slice(0, cut)], ["operation", sheet.dataset.address.slice(cut + 1)]];
      for (const [log, of] of left) {
        if (of.gauge === gauge) { keys.push([log, (of.before ? of.before + " " : "") + of.reads.join(" ") + " " + of.unit]); }
      }
      if (gauge) { keys.push(["with", gauge]); }
      if (notes.length && at === 0) { keys.push(["note", notes.join("; ")]); }
      if (by) { keys.push(["by", by]); }
      return "- {" + keys.map(([key, text]) => key + ": " + JSON.stringify(text)).join(", ") + ", date: " + (plain(day) ? day : JSON.stringify(day)) + "}";
    });
  };
  const readings = () => [...new Set(fields.map((field) => field.closest("section")))].filter(Boolean).flatMap(entry);
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
    for (const field of fields) { if (value(field)) { kept[kept_as(field)] = field.type === "checkbox" ? true : field.value; } }
    try { localStorage.setItem(key, JSON.stringify(kept)); } catch (_) { /* Not kept: the page still works. */ }
    show();
  };
  for (const field of fields) {
    const own = kept[kept_as(field)];
    if (own !== undefined) { if (field.type === "checkbox") { field.checked = true; } else { field.value = own; } }
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
