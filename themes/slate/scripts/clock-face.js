// The clock's face: a screenful of digits, what is on now and next, start, pause, next, end. Keeps the
// run on this device so that a reload or a call does not lose it; sounds and shakes only when asked.
"use strict";

/**
 * @typedef {{session: string, block: number, name: string, plan: ClockPlan, mode: "own" | "class",
 *   whose: string, done: string}} ClockBlock the plan in the words of whom it is for, who that is, and what
 *   is noted as done
 * @typedef {{rounds: number, reps: number | null, note: string}} ClockNoted
 */

const rungbookClockFace = (() => {
  const KEPT = "rungbook-clock";
  const KEEP_EVERY_MS = 2000;
  const clock = rungbookClock;

  /** @type {ClockReading} */
  let reading = clock.readAgain(kept(), Date.now(), performance.now());
  let hidden = false;
  let keptAt = 0;

  /** @returns {{run: (ClockRun & {mode?: "own" | "class"}) | null, own: number, wall: number} | null} */
  function kept() {
    try {
      const found = JSON.parse(localStorage.getItem(KEPT) || "null");
      return found && typeof found.own === "number" && typeof found.wall === "number" ? found : null;
    } catch {
      return null;
    }
  }

  /** Own time now; see clock.js. */
  function now() {
    const seen = document.visibilityState === "hidden";
    const before = reading;
    reading = clock.read(reading, Date.now(), performance.now(), hidden || seen);
    hidden = seen;
    // A wall clock that was set is kept at once, or a reload would take it for time gone by.
    const wasSet = Math.abs(reading.own - before.own - (reading.wall - before.wall)) > 50;
    if (run && (wasSet || reading.own - keptAt > KEEP_EVERY_MS)) keep();
    return reading.own;
  }

  /** @type {(ClockRun & {mode?: "own" | "class"}) | null} */
  let run = null;
  /** @type {ClockBlock | null} */
  let block = null;
  /** @type {(noted: ClockNoted) => string} */
  let onNoted = () => "";
  /** @type {AudioContext | null} */
  let audio = null;
  let shakes = false;
  let last = 0;
  let said = "";
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let waiting;
  /** @type {WakeLockSentinel | null} */
  let awake = null;

  function keep() {
    keptAt = reading.own;
    try {
      if (run) localStorage.setItem(KEPT, JSON.stringify({ run, own: reading.own, wall: reading.wall }));
      else localStorage.removeItem(KEPT);
    } catch {
      // A browser that keeps nothing still runs the clock; only a reload would lose it.
    }
  }

  const { make, button } = rungbookMake;

  const dialog = make("dialog", "clock");
  const title = make("h2", "clock-name");
  const whose = make("p", "clock-whose");
  const digits = make("p", "clock-digits");
  const onNow = make("p", "clock-now");
  const onNext = make("p", "clock-next");
  const aloud = make("p", "unseen");
  const go = button("Pause", () => change(run && run.paused_at === null ? clock.pause : clock.goOn));
  const forth = button("Next", () => change((one, own) => (block ? clock.next(block.plan, one, own) : one)));
  const stop = button("End", () => change(clock.end));
  const sound = button("Sound", toggleSound);
  const shake = button("Vibration", () => {
    shakes = !shakes;
    shake.setAttribute("aria-pressed", String(shakes));
    if (shakes) navigator.vibrate(80);
  });
  const away = button("Hide", () => dialog.close());
  const controls = make("div", "clock-controls");
  const noting = document.createElement("form");

  function build() {
    title.id = "clock-name";
    dialog.setAttribute("aria-labelledby", title.id);
    digits.setAttribute("role", "timer");
    aloud.setAttribute("aria-live", "polite");
    for (const one of [sound, shake]) one.setAttribute("aria-pressed", "false");
    shake.hidden = !("vibrate" in navigator);
    controls.append(go, forth, stop, sound, shake, away);
    noting.className = "clock-noting";
    noting.hidden = true;
    noting.addEventListener("submit", note);
    dialog.append(title, whose, digits, onNow, onNext, controls, noting, aloud);
    document.body.append(dialog);
    dialog.addEventListener("close", () => {
      rest();
      document.dispatchEvent(new CustomEvent("rungbook-clock"));
    });
  }

  /** @param {(run: ClockRun, own: number) => ClockRun} how */
  function change(how) {
    if (!run) return;
    run = { ...run, ...how(run, now()) };
    keep();
    draw();
  }

  function toggleSound() {
    if (audio) {
      audio.close().catch(() => {});
      audio = null;
    } else {
      audio = new AudioContext();
      beep("soon");
    }
    sound.setAttribute("aria-pressed", String(audio !== null));
  }

  /** @param {"soon" | "change"} which */
  function beep(which) {
    if (shakes) navigator.vibrate(which === "change" ? 400 : 80);
    if (!audio) return;
    const tone = audio.createOscillator();
    const volume = audio.createGain();
    const long = which === "change" ? 0.6 : 0.12;
    tone.frequency.value = which === "change" ? 880 : 440;
    volume.gain.setValueAtTime(0.4, audio.currentTime);
    volume.gain.exponentialRampToValueAtTime(0.001, audio.currentTime + long);
    tone.connect(volume).connect(audio.destination);
    tone.start();
    tone.stop(audio.currentTime + long);
  }

  async function stayAwake() {
    if (awake || !("wakeLock" in navigator) || document.visibilityState !== "visible") return;
    try {
      awake = await navigator.wakeLock.request("screen");
      awake.addEventListener("release", () => (awake = null));
    } catch {
      // The browser may refuse, for example on a low battery; the clock runs on.
    }
  }

  function rest() {
    awake?.release().catch(() => {});
    awake = null;
  }

  /** Text only where it changed, so that nothing is said or laid out for nothing. @param {HTMLElement} place @param {string} text */
  function put(place, text) {
    if (place.textContent !== text) place.textContent = text;
  }

  function draw() {
    clearTimeout(waiting);
    if (!run || !block) return;
    const seen = clock.view(block.plan, run, now());
    const signal = seen.paused ? null : clock.signal(block.plan, run, last, seen.ms);
    last = seen.ms;
    if (signal) beep(signal);
    put(digits, seen.digits);
    digits.classList.toggle("long", seen.digits.length > 4);
    dialog.classList.toggle("at-work", seen.phase === "going" && seen.work);
    const paused = seen.paused && seen.phase !== "over" ? "Paused. " : "";
    const resting = seen.rest_s > 0 ? `Rest ${clock.shown(seen.rest_s)}, then ` : "";
    put(onNow, `${paused}${resting}${seen.now}`);
    const rounds = block.plan.round > 0 ? `Rounds done: ${seen.rounds}. ` : "";
    put(onNext, `${rounds}${seen.next ? `Next: ${seen.next}` : ""}`);
    put(go, seen.paused ? "Go on" : "Pause");
    const over = seen.phase === "over";
    [go, forth, stop, sound].forEach((one) => (one.hidden = over));
    shake.hidden = over || !("vibrate" in navigator);
    const telling = clock.said(block.plan, seen);
    if (telling !== said) put(aloud, (said = telling));
    if (over) return finished(seen);
    const toNext = 1000 - (((seen.ms % 1000) + 1000) % 1000);
    waiting = setTimeout(draw, seen.paused ? 1000 : Math.min(250, Math.max(8, toNext + 1)));
  }

  /** @param {ClockView} seen */
  function finished(seen) {
    rest();
    if (!noting.hidden) return;
    noting.hidden = false;
    noting.replaceChildren(make("p", "", "Note it in My book?"));
    const field = (/** @type {string} */ text, /** @type {string} */ name, /** @type {string} */ value) => {
      const label = document.createElement("label");
      const input = document.createElement("input");
      Object.assign(input, { name, value, type: name === "note" ? "text" : "number", min: "0", maxLength: 200 });
      if (name === "rounds") input.step = "any";
      label.append(`${text} `, input);
      noting.append(label);
    };
    field("Rounds", "rounds", seen.rounds > 0 ? String(seen.rounds) : "");
    field("Repetitions", "reps", "");
    field("Note", "note", (block?.done || "").slice(0, 200));
    const save = button("Keep it", () => {});
    save.type = "submit";
    noting.append(save, button("Keep nothing", finish));
    save.focus();
  }

  /** @param {Event} event */
  function note(event) {
    event.preventDefault();
    const given = new FormData(noting);
    const number = (/** @type {string} */ name) => (String(given.get(name) || "") === "" ? null : Number(given.get(name)));
    const reps = number("reps");
    const noted = { rounds: number("rounds") || 0, reps: reps === null ? null : Math.round(reps), note: String(given.get("note") || "") };
    const trouble = onNoted(noted);
    if (trouble) noting.append(make("p", "flag", trouble));
    else finish();
  }

  function finish() {
    run = null;
    keep();
    noting.hidden = true;
    dialog.close();
  }

  function show() {
    if (!block) return;
    put(title, block.name);
    put(whose, block.whose);
    said = "";
    noting.hidden = true;
    if (!dialog.isConnected) build();
    if (!dialog.open) dialog.showModal();
    stayAwake();
    draw();
  }

  /** Starts a block with its count-in. @param {ClockBlock} wanted @param {(noted: ClockNoted) => string} noted */
  function start(wanted, noted) {
    [block, onNoted] = [wanted, noted];
    run = { ...clock.begin(wanted.session, wanted.block, now()), mode: wanted.mode };
    last = -clock.COUNT_IN_MS;
    keep();
    show();
  }

  /** The block that runs or ran on this device; null when none does. */
  const running = () => run || kept()?.run || null;

  /** Back to a run, after a reload or after hiding it. @param {ClockBlock} wanted @param {(noted: ClockNoted) => string} noted */
  function back(wanted, noted) {
    run = running();
    [block, onNoted] = [wanted, noted];
    last = Infinity;
    show();
  }

  /**
   * The same block in other words: whom it is for has changed. Does nothing where another block runs.
   * @param {ClockBlock} wanted
   */
  function redraw(wanted) {
    if (!run || !block || run.session !== wanted.session || run.block !== wanted.block) return;
    block = wanted;
    run = { ...run, mode: wanted.mode };
    put(whose, block.whose);
    keep();
    draw();
  }

  document.addEventListener("visibilitychange", () => {
    hidden = hidden || document.visibilityState === "hidden";
    if (run) draw();
    if (document.visibilityState === "visible" && dialog.open) stayAwake();
  });
  window.addEventListener("pagehide", () => {
    if (!run) return;
    now();
    keep();
  });

  return { start, back, running, redraw };
})();
