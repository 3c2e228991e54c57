// @ts-check
/** The bench: finding a worksheet, filling in an example. */

const filter = /** @type {HTMLInputElement | null} */ (document.getElementById("filter"));
filter?.addEventListener("input", () => {
  const words = filter.value.toLowerCase().split(/\s+/);
  for (const item of document.querySelectorAll("#sheets li")) {
    const text = (item.textContent ?? "").toLowerCase();
    /** @type {HTMLElement} */ (item).hidden = !words.every((w) => text.includes(w));
  }
});

const button = document.getElementById("example");
button?.addEventListener("click", () => {
  const example = JSON.parse(button.dataset.example ?? "{}");
  for (const [key, value] of Object.entries(example)) {
    const field = /** @type {HTMLInputElement | HTMLSelectElement | null} */ (document.getElementById(`input-${key}`));
    if (field) field.value = String(value);
  }
});
