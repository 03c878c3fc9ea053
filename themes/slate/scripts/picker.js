// Kit and limits on this device: kept, applied to every page, exported, erased. Sends nothing.
// Kit is kept in local storage; limits only for this tab, unless the person chooses to keep them.
"use strict";

(() => {
  const { needs, fits, why, spoken, together } = rungbookFits;
  const KIT = "rungbook-kit";
  const LIMITS = "rungbook-limits";

  /**
   * @typedef {{mode: string, kit: string[], noise: string}} KitChoice
   * @typedef {{cautions: string[], traits: string[], names: string[], asks: string[]}} LimitChoice
   */

  /** @type {KitChoice} */
  const ANY_KIT = { mode: "any", kit: [], noise: "loud" };
  /** @type {LimitChoice} */
  const NO_LIMITS = { cautions: [], traits: [], names: [], asks: [] };

  /** @param {Storage} store @param {string} key @returns {unknown} */
  function read(store, key) {
    try {
      return JSON.parse(store.getItem(key) || "null");
    } catch {
      return null;
    }
  }

  /** @param {() => void} act storage may be full or forbidden; the page works on without it */
  function safely(act) {
    try {
      act();
      return true;
    } catch {
      return false;
    }
  }

  /** @param {unknown} value @returns {value is Record<string, unknown>} */
  const isRecord = (value) => typeof value === "object" && value !== null;
  /** @param {unknown} value @returns {string[]} */
  const strings = (value) =>
    Array.isArray(value) ? value.filter((item) => typeof item === "string") : [];

  /** @returns {KitChoice} */
  function kitChoice() {
    const kept = read(localStorage, KIT);
    if (!isRecord(kept)) return ANY_KIT;
    const mode = kept.mode === "picked" ? "picked" : "any";
    const noise = ["quiet", "some"].includes(String(kept.noise)) ? String(kept.noise) : "loud";
    return { mode, kit: strings(kept.kit), noise };
  }

  /** @returns {LimitChoice} */
  function limitChoice() {
    const kept = read(sessionStorage, LIMITS) ?? read(localStorage, LIMITS);
    if (!isRecord(kept)) return NO_LIMITS;
    return {
      cautions: strings(kept.cautions),
      traits: strings(kept.traits),
      names: strings(kept.names),
      asks: strings(kept.asks),
    };
  }

  function limitsAreKept() {
    return read(localStorage, LIMITS) !== null;
  }

  /** @param {KitChoice} kit @param {LimitChoice} limits */
  function person(kit, limits) {
    return {
      kit: kit.mode === "picked" ? kit.kit : null,
      limits: together(limits.asks),
      noise: kit.noise,
    };
  }

  /** @param {string} selector @returns {HTMLElement[]} */
  const all = (selector) => Array.from(document.querySelectorAll(selector));

  /** Lists keep only what fits; links elsewhere say why they do not. */
  function apply() {
    const kit = kitChoice();
    const limits = limitChoice();
    const who = person(kit, limits);
    for (const list of all("[data-filtered]")) filterList(list, who);
    for (const item of all("[data-traits]:not([data-filtered] > *)")) markItem(item, who);
    showPerson(kit, limits);
    document.dispatchEvent(new CustomEvent("rungbook-person", { detail: who }));
  }

  /** @param {HTMLElement} list @param {ReturnType<typeof person>} who */
  function filterList(list, who) {
    let left = 0;
    for (const item of Array.from(list.children)) {
      if (!(item instanceof HTMLElement)) continue;
      item.hidden = !fits(who, needs(item.dataset));
      if (!item.hidden) left += 1;
    }
    const none = list.parentElement?.querySelector("[data-none-left]");
    if (none instanceof HTMLElement) none.hidden = left > 0;
    const heading = list.closest("section");
    if (heading && !heading.querySelector("[data-none-left]")) {
      heading.classList.toggle("nothing-fits", left === 0);
    }
  }

  /** @param {HTMLElement} item @param {ReturnType<typeof person>} who */
  function markItem(item, who) {
    const reason = why(who, item.dataset, "member");
    if (item.hasAttribute("data-this")) {
      const flag = document.querySelector("[data-flag]");
      if (!(flag instanceof HTMLElement)) return;
      flag.hidden = reason === "";
      flag.textContent = reason === "" ? "" : `Not for you as it stands: ${reason}. See the swaps.`;
      return;
    }
    item.classList.toggle("misfit", reason !== "");
    let note = item.querySelector(":scope > .misfit-why");
    if (reason === "") {
      note?.remove();
      return;
    }
    if (!note) {
      note = document.createElement("span");
      note.className = "misfit-why";
      item.append(note);
    }
    note.textContent = reason;
  }

  /** @param {KitChoice} kit @param {LimitChoice} limits */
  function showPerson(kit, limits) {
    const strip = document.querySelector("[data-person]");
    if (!(strip instanceof HTMLElement)) return;
    const root = document.body.dataset.root || "";
    const parts = [];
    if (kit.mode === "picked") parts.push(`Kit: ${kit.kit.map(spoken).join(", ") || "none"}`);
    if (kit.noise !== "loud") parts.push(kit.noise === "quiet" ? "Quiet only" : "Not loud");
    if (limits.names.length) parts.push(`Leaving out: ${limits.names.join(", ")}`);
    strip.hidden = false;
    strip.replaceChildren();
    strip.append(parts.length ? `${parts.join(". ")}. ` : "Any kit, no limits. ");
    const change = document.createElement("a");
    change.href = `${root}kit-and-limits.html`;
    change.textContent = parts.length ? "Change" : "Pick kit and limits";
    strip.append(change);
    if (parts.length) {
      const clear = document.createElement("button");
      clear.type = "button";
      clear.textContent = "Clear";
      clear.addEventListener("click", () => {
        erase();
        document.querySelector("main")?.focus();
      });
      strip.append(" ", clear);
    }
    const line = document.querySelector("[data-swaps-for]");
    if (line instanceof HTMLElement && parts.length) line.textContent = `${parts.join(". ")}.`;
  }

  function erase() {
    for (const store of [localStorage, sessionStorage]) {
      safely(() => [KIT, LIMITS].forEach((key) => store.removeItem(key)));
    }
    const form = document.querySelector("[data-picker]");
    if (form instanceof HTMLFormElement) form.reset();
    apply();
  }

  /** @param {HTMLFormElement} form @param {string} name @returns {HTMLInputElement[]} */
  const inputs = (form, name) => Array.from(form.querySelectorAll(`input[name="${name}"]`));
  /** @param {HTMLInputElement[]} boxes */
  const ticked = (boxes) => boxes.filter((box) => box.checked);

  /** @param {HTMLFormElement} form */
  function fill(form) {
    const kit = kitChoice();
    const limits = limitChoice();
    inputs(form, "kit-mode").forEach((box) => (box.checked = box.value === kit.mode));
    inputs(form, "kit").forEach((box) => (box.checked = kit.kit.includes(box.value)));
    inputs(form, "noise").forEach((box) => (box.checked = box.value === kit.noise));
    inputs(form, "caution").forEach((box) => (box.checked = limits.cautions.includes(box.value)));
    inputs(form, "trait").forEach((box) => (box.checked = limits.traits.includes(box.value)));
    inputs(form, "keep").forEach((box) => (box.checked = limitsAreKept()));
  }

  /** @param {HTMLFormElement} form */
  function keep(form) {
    const kit = {
      mode: ticked(inputs(form, "kit-mode"))[0]?.value || "any",
      kit: ticked(inputs(form, "kit")).map((box) => box.value),
      noise: ticked(inputs(form, "noise"))[0]?.value || "loud",
    };
    const boxes = [...ticked(inputs(form, "caution")), ...ticked(inputs(form, "trait"))];
    const limits = {
      cautions: ticked(inputs(form, "caution")).map((box) => box.value),
      traits: ticked(inputs(form, "trait")).map((box) => box.value),
      names: boxes.map((box) => (box.parentElement?.firstElementChild?.nextElementSibling?.firstChild
        || box.nextSibling)?.textContent?.trim().toLowerCase() || spoken(box.value)),
      asks: boxes.map((box) => box.dataset.asks || ""),
    };
    const kept = safely(() => {
      localStorage.setItem(KIT, JSON.stringify(kit));
      sessionStorage.setItem(LIMITS, JSON.stringify(limits));
      if (ticked(inputs(form, "keep")).length) localStorage.setItem(LIMITS, JSON.stringify(limits));
      else localStorage.removeItem(LIMITS);
    });
    say(form, kept ? "Kept on this device." : "This browser keeps nothing; picking cannot work here.");
    apply();
  }

  /** @param {HTMLFormElement} form @param {string} words */
  function say(form, words) {
    const line = form.querySelector("[data-said]");
    if (line) line.textContent = words;
  }

  /** What this device keeps, as a file of the person's own. */
  function exportAll() {
    const text = JSON.stringify({ rungbook: 1, kit: kitChoice(), limits: limitChoice() }, null, 2);
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([`${text}\n`], { type: "application/json" }));
    link.download = "kit-and-limits.json";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  }

  /** @param {HTMLFormElement} form */
  function watch(form) {
    form.hidden = false;
    fill(form);
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("change", (event) => {
      const box = event.target;
      if (box instanceof HTMLInputElement && box.name === "kit" && box.checked) {
        inputs(form, "kit-mode").forEach((radio) => (radio.checked = radio.value === "picked"));
      }
      keep(form);
    });
    form.addEventListener("click", (event) => {
      if (!(event.target instanceof HTMLElement)) return;
      const { preset, act } = event.target.dataset;
      if (preset) {
        inputs(form, "kit").forEach((box) => {
          box.checked = preset === "hall" && box.hasAttribute("data-hall");
        });
        inputs(form, "kit-mode").forEach((radio) => (radio.checked = radio.value === "picked"));
        keep(form);
      }
      if (act === "erase") {
        erase();
        say(form, "Erased from this device.");
      }
      if (act === "export") exportAll();
    });
  }

  const form = document.querySelector("[data-picker]");
  if (form instanceof HTMLFormElement) watch(form);
  // Scripts that come later ask who is here.
  document.addEventListener("rungbook-who", apply);
  apply();
})();
