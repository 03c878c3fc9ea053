// The big face of a session's clock: read at three metres on a tablet, at two on a phone. What to do is the
// largest, then how much, then what to say. Draws only what it is handed; ending it wants a hold, and can be
// taken back.
"use strict";

const rungbookRunFace = (() => {
  const { make, button } = rungbookMake;
  const keep = rungbookRunKeep;
  const run = rungbookRun;
  const signals = rungbookRunSignals;
  const { change } = rungbookRunning;
  /** How long ending is held: long enough for no elbow, short enough for a coach. Common practice, no source. */
  const HOLD_MS = 1200;
  /** Lower than this nobody tells one pose from another. Common practice, no source. */
  const LEAST_FIGURE_PX = 56;

  const dialog = make("dialog", "clock");
  const title = make("h2", "clock-name");
  const whose = make("p", "clock-whose");
  const left = make("p", "clock-left");
  const digits = make("p", "clock-digits");
  const onNow = make("p", "clock-now");
  const more = make("p", "clock-more");
  const much = make("p", "clock-dose");
  const count = make("p", "clock-count");
  const cue = make("p", "clock-cue");
  const onNext = make("p", "clock-next");
  const three = make("ul", "clock-three");
  const image = document.createElement("img");
  const picture = make("div", "clock-figure", image);
  const said = make("div", "clock-words", onNow, more, much, count);
  const aloud = make("p", "unseen");
  const asks = make("div", "clock-asks");
  const noting = document.createElement("form");

  const go = button("Pause", () => change(keep.run()?.now.paused_at === null ? run.pause : run.goOn));
  const back = button("Back", () => change(run.back));
  const forth = button("Next", () => change(run.next));
  const minute = button("+1 min", () => change(run.addMinute));
  const skip = button("Skip block", () => change(run.skip));
  const stop = button("End", () => {});
  const undo = button("Take it back", () => change(run.takeBack));
  const away = button("Hide", () => (remember(false), dialog.close()));
  const wall = button("Full screen", () => showWall(true));
  const toggles = /** @type {const} */ ([["sound", "Sound"], ["shake", "Vibration"], ["voice", "Voice"]]).map(([which, words]) => ({
    which, one: button(words, () => (signals.toggle(which), switches())),
  }));
  const less = make("details", "clock-more-controls", make("summary", "", "More"), make("div", "clock-controls", skip, wall, ...toggles.map(({ one }) => one)));
  const controls = make("div", "clock-controls clock-main-controls", back, go, forth, minute, less, stop, undo, away);

  function switches() {
    const able = signals.able();
    for (const { which, one } of toggles) {
      one.hidden = !able[which];
      one.setAttribute("aria-pressed", String(signals.choice()[which]));
    }
    wall.hidden = !document.fullscreenEnabled;
  }

  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let holding;
  function release() {
    clearTimeout(holding);
    holding = undefined;
    stop.classList.remove("holding");
  }
  function hold() {
    if (holding !== undefined) return;
    stop.classList.add("holding");
    holding = setTimeout(() => {
      release();
      change(run.end);
    }, HOLD_MS);
  }

  /** Ending is held, by finger, mouse or key; a screen reader's own press is one on purpose. */
  function watchHold() {
    stop.append(make("span", "hold", "hold"));
    stop.addEventListener("pointerdown", hold);
    for (const end of ["pointerup", "pointerleave", "pointercancel", "blur", "keyup"]) stop.addEventListener(end, release);
    stop.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      if (!event.repeat) hold();
    });
    stop.addEventListener("click", (event) => {
      if (event.detail === 0 && /** @type {PointerEvent} */ (event).pointerType === "") change(run.end);
    });
    stop.addEventListener("contextmenu", (event) => event.preventDefault());
  }

  function build() {
    title.id = "clock-name";
    dialog.setAttribute("aria-labelledby", title.id);
    digits.setAttribute("role", "timer");
    aloud.setAttribute("aria-live", "polite");
    image.alt = "";
    image.addEventListener("error", () => (picture.hidden = true));
    noting.className = "clock-noting";
    const top = make("div", "clock-top", title, whose, left);
    dialog.append(top, digits, said, cue, picture, three, onNext, asks, noting, controls, aloud);
    document.body.append(dialog);
    dialog.addEventListener("close", () => {
      signals.rest();
      showWall(false);
      remember(false);
    });
    // On the wall nothing but the face stands; a touch brings the controls back.
    dialog.addEventListener("pointerdown", (event) => {
      if (dialog.classList.contains("wall") && !(event.target instanceof HTMLElement && event.target.closest("button"))) showWall(false);
    });
    document.addEventListener("fullscreenchange", () => dialog.classList.toggle("wall", document.fullscreenElement === dialog));
    watchHold();
  }

  /** @param {boolean} on */
  function showWall(on) {
    if (on) dialog.requestFullscreen?.().catch(() => dialog.classList.add("wall"));
    else if (document.fullscreenElement) document.exitFullscreen().catch(() => {});
    dialog.classList.toggle("wall", on);
  }

  /** Text only where it changed, so that nothing is said or laid out for nothing. @param {HTMLElement} place @param {string} text */
  function put(place, text) {
    if (place.textContent !== text) place.textContent = text;
    place.hidden = text === "";
  }

  /** @param {number} seconds */
  const atWall = (seconds) => {
    const then = new Date(Date.now() + seconds * 1000);
    return `${then.getHours()}:${String(then.getMinutes()).padStart(2, "0")}`;
  };

  /** Time left of the hour, and when all of it is over. @param {RunView} seen @param {RunKnown} known */
  function leftWords(seen, known) {
    if (seen.whole) return "";
    const ends = `ends ${atWall(seen.left_s)}`;
    const hour = known.steps.length_s;
    if (!hour || seen.run.to - seen.run.from + 1 < known.blocks.length) return ends;
    const hourLeft = hour - (keep.now() - seen.run.begun) / 1000;
    const over = Math.ceil((seen.left_s - hourLeft) / 60);
    // Blocks that were skipped are not to come: what is left is never more than what is still to do.
    const words = `${Math.max(0, Math.floor(Math.min(hourLeft, seen.left_s) / 60))} min left of ${Math.round(hour / 60)}, ${ends}`;
    return over > 0 ? `${words}: ${over} min over` : words;
  }

  /** The line that is on, the one that waits for the end of a rest, the next. @param {RunView} seen @param {RunKnown} known */
  function linesOf(seen, known) {
    const line = (/** @type {number} */ block, /** @type {number | null} */ at) => (at === null ? null : known.lines[block]?.[at] || null);
    const here = line(seen.block, seen.line);
    return { now: seen.work ? here : null, waits: seen.rest_s > 0 ? here : null, next: line(seen.next_block, seen.next_line) };
  }

  /** @param {RunView} seen */
  const countWords = ({ count: c, side }) => [c ? `${c.word} ${c.n}${c.of ? ` of ${c.of}` : ""}` : "", side].filter(Boolean).join(", ");

  /** @param {ClockLine | null} line */
  function showFigure(line) {
    const file = line?.figure ? (document.body.dataset.root || "") + line.figure : "";
    if (image.getAttribute("src") !== file && file) {
      image.src = file;
      picture.hidden = false;
    }
    if (!file) picture.hidden = true;
  }

  /** @param {ClockLine | null} line */
  function showThree(line) {
    const words = line?.three.length === 3 ? line.three : [];
    if (three.dataset.shown === words.join("|")) return;
    three.dataset.shown = words.join("|");
    three.hidden = words.length === 0;
    three.replaceChildren(...words.map((what, at) => make("li", "", make("small", "", ["Easier", "Usual", "Harder"][at]), what)));
  }

  /** @param {RunView} seen @param {RunKnown} known */
  function draw(seen, known) {
    if (!dialog.open) return;
    const { now, waits, next } = linesOf(seen, known);
    put(title, seen.rig ? `Next block: ${seen.name}` : seen.name);
    put(whose, known.whose);
    put(left, leftWords(seen, known));
    put(digits, seen.digits);
    digits.classList.toggle("long", seen.digits.length > 4);
    dialog.classList.toggle("at-work", seen.phase === "going" && seen.work);
    const resting = seen.rest_s > 0 ? `Rest ${rungbookClock.shown(seen.rest_s)}, then ` : "";
    put(onNow, `${seen.paused && !seen.whole ? "Paused. " : ""}${resting}${now ? now.name : seen.now}`);
    put(more, now ? now.more : "");
    put(much, now ? rungbookOwnClock.amount(now.dose, seen.now) : "");
    put(count, seen.whole ? "" : countWords(seen));
    // Between two lines the face is that of the next: what to say of it, what it looks like.
    const shown = now || waits || next;
    put(cue, shown?.cue && !seen.whole ? `“${shown.cue}”` : "");
    dialog.classList.toggle("between", !now && next !== null);
    put(onNext, seen.next ? `${waits ? "After that" : "Next"}: ${next ? [next.name, next.change].filter(Boolean).join(", ") : seen.next}` : "");
    showFigure(shown);
    showThree(now);
    put(go, seen.paused ? "Go on" : "Pause");
    put(aloud, rungbookRunning.words(seen));
    [go, back, forth, minute, stop].forEach((one) => (one.hidden = seen.whole));
    less.hidden = seen.whole;
    undo.hidden = seen.run.ended === null || keep.from(seen.run) !== "";
    dialog.classList.toggle("over", seen.whole);
    fit();
    ask(known);
    rungbookRunNote.show(noting, seen, known, finish);
    if (seen.whole) signals.rest();
  }

  let fitted = "";

  /** On a low screen the cue makes room: what to do, how much and what is next stay as large as they are. */
  function fit() {
    const now = [onNow, more, much, count, cue, onNext, asks].map((one) => `${one.hidden}${one.textContent}`).join("|") + innerWidth + innerHeight;
    if (now === fitted) return;
    fitted = now;
    const end = (/** @type {Element} */ one) => one.getBoundingClientRect().bottom;
    const cramped = () => dialog.scrollHeight > dialog.clientHeight + 1 || [...said.children].some((one) => end(one) > end(said) + 2);
    // A figure as small as a speck says nothing.
    const isSmall = () => cramped() || picture.clientHeight < LEAST_FIGURE_PX;
    const fitFigure = () => (dialog.classList.remove("no-figure"), dialog.classList.toggle("no-figure", isSmall()));
    dialog.classList.remove("tight", "beside", "no-figure");
    if (picture.hidden || matchMedia("(orientation: landscape)").matches) fitFigure();
    // Upright, however long what is next is: beside the digits the figure takes no room of the words.
    else dialog.classList.toggle("beside", isSmall());
    if (dialog.classList.toggle("tight", cramped()) && !dialog.classList.contains("beside")) fitFigure();
  }

  /** Limits that are not said yet: times alone until they are. @param {RunKnown} known */
  function ask(known) {
    asks.hidden = !known.asks;
    if (known.asks && !asks.firstChild) asks.append(rungbookOwnBring.question());
    if (!known.asks) asks.replaceChildren();
  }

  function finish() {
    delete noting.dataset.kept;
    keep.set(null);
    dialog.close();
  }

  function open() {
    if (!dialog.isConnected) build();
    switches();
    if (!dialog.open) dialog.showModal();
    remember(true);
    signals.stayAwake();
    rungbookRunning.draw();
  }

  /** A page that is read again with its face open shows it again. @param {boolean} isOpen */
  function remember(isOpen) {
    try {
      if (isOpen) sessionStorage.setItem("rungbook-face", location.pathname);
      else sessionStorage.removeItem("rungbook-face");
    } catch {
      // Then the strip alone comes back.
    }
  }

  rungbookRunning.watch(draw);
  document.addEventListener("rungbook-run", () => {
    if (!keep.run() && dialog.open && noting.dataset.kept === undefined) dialog.close();
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible" && dialog.open && keep.run()) signals.stayAwake();
  });
  if ("speechSynthesis" in window) speechSynthesis.addEventListener?.("voiceschanged", switches);

  return { open };
})();
