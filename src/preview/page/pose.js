// The page of a pose: sliders and parts drawn along become changed words; the program solves and draws.
// Served by `rungbook preview` alone: never part of a built site, asks no other host, solves nothing.
"use strict";

/**
 * What the program answers, as `src/preview/pose/shown.rs` tells it.
 * @typedef {{ at: [number, number], value: number, range: [number, number], unit: string, beside: string }} InValue
 * @typedef {{ side: string, word: string, value: string, told: string, numbers: InValue[] }} Worded
 * @typedef {{ sentence: string, next: string, kind: string }} Wrong
 * @typedef {{ pose: string, svg: string, wrong: Wrong[], carried: [string, string][], words: Worded[], reached: Record<string, [number, number]> }} Pose
 * @typedef {{ what: string, pose?: string, side?: string, word?: string, value?: string | null, id?: string, level?: number, like?: string }} Edit
 * @typedef {{ print: string, file: string, undo: boolean, changed: boolean, drawn: Edit | null, name: string, text: string, poses: Pose[], beyond: Wrong[], settings: { name: string, unit: string, range: [number, number], at: number }[], stature: [number, number], view: string, views: string[], traits: { id: string, name: string, level: number, says: number, words: string }[], like: [string, string][], words: [string, string, string][] }} Shown
 * @typedef {{ pose: number, part: string, x: number, y: number, both: boolean }} Drag
 */

(() => {
  const LIST = "rungbook poses";
  /** @template {HTMLElement} T @param {string} id @returns {T} */
  const by = (id) => /** @type {T} */ (document.getElementById(id));

  if (document.body.dataset.list !== undefined) {
    // Pages of this preview lead here from a movement; other sites cannot read what is kept.
    try { localStorage.setItem(LIST, location.pathname); } catch { /* the address is in the terminal */ }
    const wanted = document.querySelector(`[data-id="${CSS.escape(location.hash.slice(1))}"]`);
    if (wanted instanceof HTMLAnchorElement) location.replace(wanted.href);
    return;
  }

  /** @type {Edit[]} */
  let edits = [];
  // What is asked for already, and not answered yet.
  let wanted = edits;
  /** @type {Shown | null} */
  let shown = null;
  /** @type {string | null} */
  let view = null;
  /** @type {Record<string, number>} */
  let settings = {};
  let stature = 172;

  /** @param {string} name @param {Record<string, string>} attributes @param {(Node | string)[]} inside */
  function make(name, attributes = {}, ...inside) {
    const made = document.createElement(name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    made.append(...inside);
    return made;
  }

  /** @param {string} words @param {() => void} pressed */
  function button(words, pressed, more = {}) {
    const made = make("button", { type: "button", ...more }, words);
    made.addEventListener("click", pressed);
    return made;
  }

  /** @param {string} words @param {boolean} bad */
  function say(words, bad = false) {
    by("said").textContent = words;
    by("said").classList.toggle("bad", bad);
  }

  // One question at a time; of those that wait only the last is asked.
  /** @type {Promise<void> | null} */
  let asking = null;
  /** @type {(() => Promise<void>) | null} */
  let next = null;
  /** @param {() => Promise<void>} question */
  async function soon(question) {
    next = question;
    if (asking) return asking;
    asking = (async () => {
      while (next) {
        const now = next;
        next = null;
        await now();
      }
    })();
    await asking;
    asking = null;
    document.body.toggleAttribute("data-asking", false);
  }

  /** @param {string} what @param {Edit[]} changed @param {Drag | null} drag @returns {Promise<Shown | null>} */
  async function ask(what, changed, drag = null) {
    const asked = { print: shown?.print ?? "", edits: changed, view, settings, stature, drag };
    try {
      const answer = await fetch(what, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(asked) });
      if (!(answer.headers.get("content-type") ?? "").includes("json")) {
        say(`${(await answer.text()).trim()}`, true);
        return null;
      }
      const told = await answer.json();
      if (answer.ok) return told;
      say(told.said, true);
    } catch {
      say("The preview is not there any more: start `rungbook preview` again. What you changed stands on this page only.", true);
    }
    return null;
  }

  /** @param {Edit[]} changed */
  function look(changed, words = "") {
    document.body.toggleAttribute("data-asking", true);
    wanted = changed;
    return soon(async () => {
      const told = await ask("look", changed);
      if (!told) {
        wanted = edits;
        return show(shown);
      }
      edits = changed;
      show(told);
      say(words);
    });
  }

  /** The same place changed twice running is one change. @param {Edit} edit */
  function change(edit) {
    const last = wanted.at(-1);
    const key = (/** @type {Edit | undefined} */ one) => one && [one.what, one.pose, one.side, one.word, one.id].join(" ");
    const before = key(last) === key(edit) && edit.value !== null ? wanted.slice(0, -1) : wanted;
    return look([...before, edit]);
  }

  /** @param {Pose} pose @param {Worded} word @param {string | null} value @returns {Edit} */
  const worded = (pose, word, value) => ({ what: "word", pose: pose.pose, side: word.side, word: word.word, value });

  const NAMES = /** @type {Record<string, string>} */ ({ start: "Start", end: "End", between: "Between" });
  /** @param {string} pose */
  const named = (pose) => NAMES[pose] ?? `Between, ${Number(pose.split("/")[1]) + 1}`;
  /** @param {string} side */
  const of = (side) => (side ? `${side} side` : "");

  /** @param {string} label @param {{ value: number, range: [number, number], unit: string }} number @param {(to: number) => void} moved */
  function slider(label, number, moved) {
    const input = /** @type {HTMLInputElement} */ (make("input", { type: "range", min: String(Math.floor(number.range[0])), max: String(Math.ceil(number.range[1])), step: "1", "aria-label": label }));
    const told = make("span");
    const tell = () => {
      told.textContent = `${Number(input.value)} ${number.unit}`;
      input.setAttribute("aria-valuetext", told.textContent);
    };
    input.value = String(number.value);
    tell();
    input.addEventListener("input", () => { tell(); moved(Number(input.value)); });
    return { line: make("div", { class: "slide" }, input, told), set: (/** @type {number} */ to) => { if (document.activeElement !== input) { input.value = String(to); tell(); } } };
  }

  /** A word with its sliders; gives what brings them up to date. @param {Pose} pose @param {Worded} word */
  function row(pose, word) {
    let now = word;
    const label = [word.word, of(word.side)].filter(Boolean).join(", ");
    const written = /** @type {HTMLInputElement} */ (make("input", { type: "text", "aria-label": `${label}, as it is written`, maxlength: "200", spellcheck: "false" }));
    written.value = word.value;
    written.addEventListener("change", () => change(worded(pose, now, written.value.trim())));
    const sliders = word.numbers.map((number, at) => {
      const beside = number.beside ? `${label}: ${number.beside}` : label;
      const made = slider(beside, number, (to) => {
        const { at: [from, long] } = now.numbers[at];
        const value = now.value.slice(0, from) + String(to) + now.value.slice(from + long);
        void change(worded(pose, now, value));
      });
      if (number.beside) made.line.prepend(make("small", {}, number.beside));
      return made;
    });
    const out = button("Take out", () => change(worded(pose, now, null)), { "aria-label": `Take out ${label}` });
    const element = make("div", { class: "word" }, make("div", {}, make("strong", {}, label), out), ...sliders.map((one) => one.line), ...(sliders.length === 1 && /^-?[\d.]+$/.test(word.value) ? [] : [make("div", {}, written)]), make("small", {}, word.told));
    return {
      element,
      /** @param {Worded} to */
      update(to) {
        now = to;
        if (document.activeElement !== written) written.value = to.value;
        to.numbers.forEach((number, at) => sliders[at]?.set(number.value));
      },
    };
  }

  /** What stands in a word that is new. @param {string} word @param {string} side @param {Pose | null} pose */
  function first(word, side, pose) {
    const usual = /** @type {Record<string, string>} */ ({ balance: "feet", arms: "sides", body: "straight", "hands-at": "chest", lift: pose?.carried[0]?.[1] ?? "hands", chin: "over bar" });
    const reached = pose?.reached[word];
    if (usual[word]) return usual[word];
    return reached ? String(reached[side === "far" ? 1 : 0]) : "floor";
  }

  /** The choice of a word more. @param {string} name @param {() => Pose | null} pose */
  function adder(name, pose) {
    const word = /** @type {HTMLSelectElement} */ (make("select"));
    const groups = /** @type {Map<string, HTMLElement>} */ (new Map());
    for (const [group, one, told] of shown?.words ?? []) {
      if (!groups.has(group)) groups.set(group, make("optgroup", { label: group }));
      groups.get(group)?.append(make("option", { value: one, title: told }, one));
    }
    word.append(...groups.values());
    word.value = "knee";
    const side = /** @type {HTMLSelectElement} */ (make("select", {}, make("option", { value: "" }, "both sides, or the trunk"), make("option", { value: "near" }, "near side"), make("option", { value: "far" }, "far side")));
    const told = make("small", { "aria-live": "polite" });
    const tell = () => { told.textContent = shown?.words.find((one) => one[1] === word.value)?.[2] ?? ""; };
    word.addEventListener("change", tell);
    tell();
    const add = button("Add", () => change({ what: "word", pose: name, side: side.value, word: word.value, value: first(word.value, side.value, pose()) }), { "aria-label": `Add the word to ${named(name)}` });
    return make("div", { class: "add" }, make("label", {}, "A word more ", word), make("label", {}, "for ", side), add, told);
  }

  /** @param {Wrong[]} all */
  const wrongs = (all) => all.map((one) => make("li", { "data-kind": one.kind }, one.sentence, " ", make("small", {}, `Next: ${one.next}.`)));

  /** Pictures come from our own program as text; nothing in them can run. @param {string} svg */
  function picture(svg) {
    const read = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    return /** @type {SVGSVGElement} */ (/** @type {unknown} */ (document.importNode(read, true)));
  }

  /**
   * @typedef {{ name: string, element: HTMLElement, shape: string, update: (pose: Pose) => void }} Card
   * @type {Card[]}
   */
  let cards = [];
  let drawing = "";
  /** @param {Pose} pose */
  const shapeOf = (pose) => JSON.stringify([pose.words.map((word) => [word.side, word.word, word.numbers.length, word.numbers.map((one) => one.beside)])]);

  /** @param {Pose} pose @param {number} index @returns {Card} */
  function card(pose, index) {
    let now = pose;
    const drawn = make("div", { class: "drawn" });
    const wrong = make("ul", { class: "wrong" });
    const fine = make("p", { class: "fine quiet" });
    const carried = make("div");
    const rows = pose.words.map((word) => row(pose, word));
    const both = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", checked: "" }));
    drawn.addEventListener("pointerdown", (event) => drag(event, drawn, index, both));
    const element = make("section", { class: "pose", "data-pose": pose.pose, "aria-label": named(pose.pose) }, make("h2", {}, named(pose.pose)), drawn, make("label", { class: "quiet" }, both, " draw both sides along"), wrong, fine, carried, ...rows.map((one) => one.element), adder(pose.pose, () => now));
    return {
      name: pose.pose,
      element,
      shape: shapeOf(pose),
      update(to) {
        now = to;
        const svg = picture(to.svg);
        if (drawing) svg.setAttribute("viewBox", drawing);
        drawn.replaceChildren(svg);
        wrong.replaceChildren(...wrongs(to.wrong));
        fine.textContent = to.wrong.length ? "" : "This pose can be done as it is written.";
        carried.replaceChildren(...(to.carried.length ? [make("h3", {}, "Still holds from the pose before")] : []), ...to.carried.map(([written, lift]) => make("p", {}, make("code", {}, written), " ", button(`Lift ${lift}`, () => lifted(to, lift)))));
        to.words.forEach((word, at) => rows[at]?.update(word));
      },
    };
  }

  /** @param {Pose} pose @param {string} lift */
  function lifted(pose, lift) {
    const own = pose.words.find((word) => word.word === "lift" && !word.side);
    void change({ what: "word", pose: pose.pose, side: "", word: "lift", value: own ? `${own.value}, ${lift}` : lift });
  }

  /** @param {PointerEvent} event @param {HTMLElement} drawn @param {number} index @param {HTMLInputElement} both */
  function drag(event, drawn, index, both) {
    const part = event.target instanceof SVGElement ? event.target.dataset.handle : undefined;
    const svg = drawn.querySelector("svg");
    if (!part || !svg) return;
    event.preventDefault();
    drawn.setPointerCapture(event.pointerId);
    drawn.classList.add("drawing");
    const before = wanted;
    // The picture keeps its place while a part of it is drawn along.
    drawing = svg.getAttribute("viewBox") ?? "";
    /** @param {PointerEvent} to */
    const along = (to) => {
      const matrix = drawn.querySelector("svg")?.getScreenCTM()?.inverse();
      if (!matrix) return;
      const at = new DOMPoint(to.clientX, to.clientY).matrixTransform(matrix);
      document.body.toggleAttribute("data-asking", true);
      void soon(async () => {
        const told = await ask("look", before, { pose: index, part, x: at.x, y: at.y, both: both.checked });
        if (!told) return;
        edits = wanted = told.drawn ? [...before, told.drawn] : before;
        show(told);
        say(told.drawn ? `${told.drawn.word}: ${told.drawn.value}` : "");
      });
    };
    const end = () => {
      drawn.removeEventListener("pointermove", along);
      drawn.classList.remove("drawing");
      drawing = "";
      void soon(async () => { const told = await ask("look", edits); if (told) show(told); });
    };
    drawn.addEventListener("pointermove", along);
    drawn.addEventListener("lostpointercapture", end, { once: true });
  }

  /** @param {Shown | null} told */
  function show(told) {
    if (!told) return;
    shown = told;
    by("name").textContent = told.name;
    by("file").textContent = told.changed ? `Not written yet into ${told.file}` : `As it stands in ${told.file}`;
    by("text").textContent = told.text;
    by("beyond").replaceChildren(...wrongs(told.beyond));
    showPoses(told);
    showLook(told);
    by("traits").replaceChildren(...(told.traits.length ? told.traits.map(offered) : [make("li", {}, told.poses.length ? "Every trait that the pose shows stands in the entry, or is confirmed here." : "Nothing yet.")]));
    by("begin").hidden = told.text !== "";
    if (!by("begin").hidden) by("like").replaceChildren(make("option", { value: "" }, "standing"), ...told.like.map(([name, id]) => make("option", { value: id }, `as ${name}`)));
    by("write").toggleAttribute("disabled", !told.changed);
    by("back").toggleAttribute("disabled", !edits.length);
    by("undo").toggleAttribute("disabled", !told.undo || edits.length > 0);
  }

  /** @param {Shown} told */
  function showPoses(told) {
    const same = by("poses").childElementCount > 0 && cards.length === told.poses.length && cards.every((one, at) => one.name === told.poses[at].pose && one.shape === shapeOf(told.poses[at]));
    if (!same) {
      cards = told.poses.map(card);
      by("poses").replaceChildren(...cards.map((one) => one.element));
      if (!told.poses.length && told.text) {
        by("poses").append(make("section", { class: "pose", "aria-label": "Start" }, make("h2", {}, "Start"), make("p", { class: "quiet" }, "There is no start yet. Its first word makes one."), adder("start", () => null)));
      }
      if (told.poses.length && told.poses.at(-1)?.pose !== "end") {
        by("poses").append(make("section", { class: "pose", "aria-label": "End" }, make("h2", {}, "End"), make("p", { class: "quiet" }, "There is no end yet. Its first word makes one; it keeps what the start touches."), adder("end", () => told.poses.at(-1) ?? null)));
      }
    }
    cards.forEach((one, at) => one.update(told.poses[at]));
  }

  let turned = "";
  /** @param {Shown} told */
  function showLook(told) {
    const chosen = /** @type {HTMLSelectElement} */ (by("view"));
    if (!chosen.options.length) chosen.append(...told.views.map((one) => make("option", {}, one)));
    chosen.value = told.view;
    const shape = told.settings.map((one) => one.name).join(" ");
    if (turned === shape && by("turned").childElementCount) return;
    turned = shape;
    const again = () => look(edits);
    const all = told.settings.map((one) => ({ label: one.name, number: { value: one.at, range: one.range, unit: one.unit }, set: (/** @type {number} */ to) => { settings[one.name] = to; } }));
    all.push({ label: "stature", number: { value: stature, range: told.stature, unit: "cm" }, set: (to) => { stature = to; } });
    by("turned").replaceChildren(...all.map(({ label, number, set }) => make("div", {}, make("strong", {}, label), slider(label, number, (to) => { set(to); void again(); }).line)));
  }

  /** @param {Shown["traits"][number]} one */
  function offered(one) {
    const says = one.says ? `the entry says ${one.says}` : "the entry does not say it";
    return make("li", { "data-trait": one.id }, make("span", {}, make("strong", {}, `${one.name}: ${one.level === 2 ? "a lot" : "some"}`), ` (${says}). ${one.words}`), button("Confirm", () => change({ what: "trait", id: one.id, level: one.level }), { "aria-label": `Confirm ${one.name}` }));
  }

  by("begin-now").addEventListener("click", () => change({ what: "begin", like: /** @type {HTMLSelectElement} */ (by("like")).value }));
  by("view").addEventListener("change", () => { view = /** @type {HTMLSelectElement} */ (by("view")).value; void look(edits); });
  by("keep-view").addEventListener("click", () => change({ what: "view", value: /** @type {HTMLSelectElement} */ (by("view")).value }));
  by("back").addEventListener("click", () => look(edits.slice(0, -1), "Taken back."));
  by("write").addEventListener("click", () => soon(async () => {
    const told = await ask("write", edits);
    if (!told) return;
    edits = wanted = [];
    show(told);
    say(`Written into ${told.file}.`);
  }));
  by("undo").addEventListener("click", () => soon(async () => {
    const told = await ask("undo", []);
    if (!told) return;
    show(told);
    say(`The last write is undone: ${told.file} is as it was before.`);
  }));
  by("again").addEventListener("click", () => {
    const lost = edits.length;
    shown = null;
    return look([], lost ? "Read again; what was not written is gone." : "Read again.");
  });
  void look([]);
})();
