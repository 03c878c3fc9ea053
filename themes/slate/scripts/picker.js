// Kit and limits on this page: says for whom it is, marks and filters what it shows. The form that picks
// them is kit-form.js's business, what is kept person.js's.
"use strict";

(() => {
  const { fit, isIn, why, inBrief, kitWords } = rungbookFits;
  const person = rungbookPerson;

  /** @param {string} selector @returns {HTMLElement[]} */
  const all = (selector) => Array.from(document.querySelectorAll(selector));

  /** Lists keep only what fits; links elsewhere say why they do not, or how they are changed. */
  function apply() {
    const who = person.who();
    for (const list of all("[data-filtered]")) filterList(list, who);
    for (const item of all("[data-traits]:not([data-filtered] > *, [data-this])")) markItem(item, who);
    showPerson(who);
    document.dispatchEvent(new CustomEvent("rungbook-person", { detail: who }));
  }

  /** @param {HTMLElement} list @param {Who} who */
  function filterList(list, who) {
    let left = 0;
    for (const item of Array.from(list.children)) {
      if (!(item instanceof HTMLElement)) continue;
      item.hidden = !isIn(who, item.dataset);
      note(item, "change-how", item.hidden ? "" : inBrief(fit(who, item.dataset)));
      if (!item.hidden) left += 1;
    }
    const none = list.parentElement?.querySelector("[data-none-left]");
    if (none instanceof HTMLElement) none.hidden = left > 0;
    const heading = list.closest("section");
    if (heading && !heading.querySelector("[data-none-left]")) {
      heading.classList.toggle("nothing-fits", left === 0);
    }
  }

  /** @param {HTMLElement} item @param {Who} who */
  function markItem(item, who) {
    const reason = why(who, item.dataset, who.front ? "coach" : "member");
    const found = fit(who, item.dataset);
    item.classList.toggle("misfit", reason !== "");
    note(item, "misfit-why", reason);
    note(item, "change-how", inBrief(found));
    for (const place of item.querySelectorAll(".setting, .object")) if (place instanceof HTMLElement) writeSetting(place, found);
  }

  /** A setting that the change takes away is not said beside it. @param {HTMLElement} place @param {Fit} found */
  function writeSetting(place, found) {
    const { says } = place.dataset;
    const [, comma, words] = /^(, )?(.*)$/.exec(place.dataset.written ??= place.textContent || "") || [];
    const left = says ? rungbookFits.objectWords(words, says, found) : rungbookFits.settingWords(words, found);
    place.textContent = left && `${comma || ""}${left}`;
    place.hidden = !left;
    // A sheet on paper is for the class: its styles say there what was written.
    place.toggleAttribute("data-cut", left !== words);
  }

  /** A few words at the end of an item; none when there is nothing to say. @param {HTMLElement} item @param {string} name @param {string} words */
  function note(item, name, words) {
    let place = item.querySelector(`:scope > .${name}`);
    if (words === "") return place?.remove();
    if (!place) {
      place = document.createElement("span");
      place.className = name;
      item.append(place);
    }
    place.textContent = words;
  }

  /** @param {string} to @param {string} text */
  function link(to, text) {
    const made = document.createElement("a");
    made.href = `${document.body.dataset.root || ""}${to}`;
    made.textContent = text;
    return made;
  }

  /** @param {string} text @param {() => void} act */
  function button(text, act) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", act);
    return made;
  }

  /** @param {string} className @param {(Node | string)[]} children */
  function span(className, ...children) {
    const made = document.createElement("span");
    made.className = className;
    made.append(...children);
    return made;
  }

  /** What the person has and lacks; a situation leads to what its caution says. @param {Front} front */
  function frontLinks(front) {
    const situations = front.situations.map((id) => link(`cautions/${id}.html`, person.limitWords(id)));
    const others = person.frontWords({ ...front, situations: [] });
    const all = others ? [...situations, others] : situations;
    return all.flatMap((one, at) => (at ? [", ", one] : [one]));
  }

  /** What stood before the member's own was cleared. @type {(() => void) | null} */
  let undo = null;

  /** @param {Who} who */
  function mineWords(who) {
    const kit = person.kit();
    const limits = person.limits();
    const said = [];
    if (who.kit !== null) said.push(`Kit: ${who.kit.map(kitWords).join(", ") || "none"}`);
    if (kit.noise !== "loud") said.push(kit.noise === "quiet" ? "Quiet only" : "Not loud");
    const ids = [...(limits?.cautions || []), ...(limits?.traits || [])];
    if (ids.length) said.push(`Limits: ${ids.map(person.limitWords).join(", ")}`);
    if (!who.asked && said.length) said.push("Limits not said in this tab");
    if (who.gone.length) said.push(`Not known here any more, and still left out: ${who.gone.map(person.limitWords).join(", ")}; pick again`);
    if (person.isBlocked()) said.push("This browser keeps nothing: what is picked counts on this page only");
    return said;
  }

  /** @param {Who} who */
  function showPerson(who) {
    const strip = document.querySelector("[data-person]");
    if (!(strip instanceof HTMLElement)) return;
    strip.hidden = false;
    strip.classList.toggle("front", who.front);
    const front = person.front();
    if (front) {
      // On the floor the limits themselves are there to press.
      const change = document.querySelector("[data-floor]") ? [] : [link("floor.html", "Change")];
      const words = ["For this person: ", ...frontLinks(front), ". ", person.hasMine() ? "Mine waits." : ""];
      strip.replaceChildren(span("person-said", ...words), span("person-acts", ...change, button("Clear", clearFront)));
      return showFor([`For this person: ${person.frontWords(front)}`]);
    }
    const said = mineWords(who);
    const change = link("kit-and-limits.html", said.length ? "Change" : "Pick kit and limits");
    const acts = [change, ...(said.length ? [button("Clear mine", clearMine)] : [])];
    if (undo) acts.push(button("Undo", () => { undo?.(); undo = null; apply(); }));
    strip.replaceChildren(span("person-said", said.length ? `Mine: ${said.join(". ")}. ` : who.asked ? "Any kit, no limits. " : "Any kit, limits not said yet. "), span("person-acts", ...acts));
    showFor(said);
  }

  /** @param {string[]} said */
  function showFor(said) {
    const line = document.querySelector("[data-swaps-for]");
    if (!(line instanceof HTMLElement)) return;
    line.dataset.nobody ??= line.innerHTML === "" ? " " : line.textContent || " ";
    if (said.length) line.textContent = `${said.join(". ")}.`;
    else line.replaceChildren("For nobody in particular. ", link("kit-and-limits.html", "Pick your kit and limits"), " to see only what fits.");
  }

  function clearFront() {
    person.setFront(null);
    apply();
    document.querySelector("main")?.focus();
  }

  function clearMine() {
    undo = person.forgetMine();
    apply();
    document.querySelector("main")?.focus();
  }

  // Scripts that come later ask who is here, or say that somebody else is.
  document.addEventListener("rungbook-who", apply);
  document.addEventListener("rungbook-mine", () => { undo = null; apply(); });
  document.addEventListener("rungbook-erase", clearMine);
  document.addEventListener("rungbook-no-limits", () => {
    person.keepLimits([], [], false);
    apply();
  });
  for (const touch of ["pointerdown", "keydown"]) document.addEventListener(touch, person.touched, { passive: true });
  // The hour may pass, or the phone may wake, while a page stands open.
  let front = person.front() !== null;
  const look = () => {
    const now = person.front() !== null;
    if (front !== now) apply();
    front = now;
  };
  document.addEventListener("rungbook-person", () => (front = person.front() !== null));
  document.addEventListener("visibilitychange", look);
  window.addEventListener("pageshow", (event) => { if (event.persisted) apply(); });
  setInterval(look, 15000);
  // Another tab of this device picked or erased.
  window.addEventListener("storage", apply);
  apply();
})();
