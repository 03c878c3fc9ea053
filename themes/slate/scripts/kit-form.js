// The form that picks a member's own kit and limits: fills it, keeps what is ticked, exports, erases.
// Marks nothing on a page: picker.js does, once it hears that something was picked.
"use strict";

(() => {
  const person = rungbookPerson;

  const picked = () => document.dispatchEvent(new CustomEvent("rungbook-mine"));

  /** @param {HTMLFormElement} form @param {string} name @returns {HTMLInputElement[]} */
  const inputs = (form, name) => Array.from(form.querySelectorAll(`input[name="${name}"]`));
  /** @param {HTMLInputElement[]} boxes */
  const ticked = (boxes) => boxes.filter((box) => box.checked);
  /** @param {HTMLFormElement} form @param {string} name */
  const values = (form, name) => ticked(inputs(form, name)).map((box) => box.value);

  /** @param {HTMLFormElement} form */
  function fill(form) {
    const kit = person.kit();
    const limits = person.limits();
    inputs(form, "kit-mode").forEach((box) => (box.checked = box.value === kit.mode));
    inputs(form, "kit").forEach((box) => (box.checked = kit.kit.includes(box.value)));
    inputs(form, "noise").forEach((box) => (box.checked = box.value === kit.noise));
    inputs(form, "caution").forEach((box) => (box.checked = Boolean(limits?.cautions.includes(box.value))));
    inputs(form, "trait").forEach((box) => (box.checked = Boolean(limits?.traits.includes(box.value))));
    inputs(form, "keep").forEach((box) => (box.checked = person.areKept()));
  }

  /**
   * Limits as they are kept now, with the one box that was touched: another tab may have added some that this
   * form does not show yet. An id without a box here is gone from the library, and is picked again or not.
   * @param {HTMLFormElement} form @param {"caution" | "trait"} name @param {HTMLInputElement} box
   */
  function changed(form, name, box) {
    const kept = person.limits()?.[name === "caution" ? "cautions" : "traits"] || [];
    const now = (/** @type {HTMLInputElement} */ one) => (one === box ? box.checked : kept.includes(one.value));
    return inputs(form, name).filter(now).map((one) => one.value);
  }

  /** @param {HTMLFormElement} form @param {HTMLInputElement} box which field was changed */
  function keep(form, box) {
    const kit = { mode: values(form, "kit-mode")[0] || "any", kit: values(form, "kit"), noise: values(form, "noise")[0] || "loud" };
    const stays = values(form, "keep").length > 0;
    let kept = person.keepKit(kit);
    // Kit alone says nothing of limits: they are not answered by ticking a chair.
    if (["caution", "trait", "keep"].includes(box.name)) {
      kept = person.keepLimits(changed(form, "caution", box), changed(form, "trait", box), stays) && kept;
    }
    const limits = person.limits() === null ? "" : stays ? " Limits too." : " Limits for this tab only.";
    say(form, kept ? `Kit is kept on this device.${limits}` : "This browser keeps nothing: it counts on this page only.");
    picked();
  }

  /** @param {HTMLFormElement} form @param {string} words */
  function say(form, words) {
    const line = form.querySelector("[data-said]");
    if (line) line.textContent = words;
  }

  /** What this device keeps, as a file of the person's own. */
  function exportAll() {
    const limits = person.limits() || { cautions: [], traits: [], asks: {} };
    const text = JSON.stringify({ rungbook: 1, kit: person.kit(), limits }, null, 2);
    const made = document.createElement("a");
    made.href = URL.createObjectURL(new Blob([`${text}\n`], { type: "application/json" }));
    made.download = "kit-and-limits.json";
    made.click();
    setTimeout(() => URL.revokeObjectURL(made.href), 1000);
  }

  /** @param {HTMLFormElement} form @param {string} preset */
  function tick(form, preset) {
    inputs(form, "kit").forEach((box) => (box.checked = preset === "hall" && box.hasAttribute("data-hall")));
    inputs(form, "kit-mode").forEach((radio) => (radio.checked = radio.value === "picked"));
    keep(form, inputs(form, "kit")[0]);
  }

  /** @param {HTMLFormElement} form */
  function erase(form) {
    document.dispatchEvent(new CustomEvent("rungbook-erase"));
    say(form, "Erased from this device. Undo stands at the top of the page until you leave it.");
  }

  /** @param {HTMLFormElement} form */
  function watch(form) {
    form.hidden = false;
    fill(form);
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("change", (event) => {
      const box = event.target;
      if (!(box instanceof HTMLInputElement)) return;
      if (box.name === "kit" && box.checked) {
        inputs(form, "kit-mode").forEach((radio) => (radio.checked = radio.value === "picked"));
      }
      keep(form, box);
    });
    form.addEventListener("click", (event) => {
      if (!(event.target instanceof HTMLElement)) return;
      const { preset, act } = event.target.dataset;
      if (preset) tick(form, preset);
      if (act === "erase") erase(form);
      if (act === "none") {
        person.keepLimits([], [], values(form, "keep").length > 0);
        fill(form);
        say(form, "No limits: said for this tab.");
        picked();
      }
      if (act === "export") exportAll();
    });
  }

  const form = document.querySelector("[data-picker]");
  if (!(form instanceof HTMLFormElement)) return;
  watch(form);
  // Cleared or brought back at the top of the page.
  document.addEventListener("rungbook-person", () => fill(form));
})();
