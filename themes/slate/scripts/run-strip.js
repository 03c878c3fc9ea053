// The strip: the running clock at the foot of every page, with what is on, what is next and a pause; a touch
// on it opens the face. Draws only what it is handed.
"use strict";

const rungbookRunStrip = (() => {
  const { make, button } = rungbookMake;
  const keep = rungbookRunKeep;

  const strip = make("section", "run-strip");
  strip.setAttribute("aria-label", "The running clock");
  const digits = make("span", "run-strip-digits");
  digits.setAttribute("role", "timer");
  const name = make("strong", "");
  const then = make("span", "run-strip-then");
  const open = button("", () => openFace());
  open.className = "run-strip-open";
  open.append(digits, make("span", "run-strip-words", name, then), make("span", "unseen", "Open the clock"));
  const pause = button("Pause", () => rungbookRunning.change(keep.run()?.now.paused_at === null ? rungbookRun.pause : rungbookRun.goOn));
  /** While somebody is in front, the class's words are one touch away, and theirs one touch back. */
  const whose = button("Class", () => rungbookRunning.sayFor(whose.textContent === "Class" ? "class" : "own"));
  whose.className = "run-strip-whose";
  strip.append(open, whose, pause);

  /** @param {HTMLElement} place @param {string} text */
  function put(place, text) {
    if (place.textContent !== text) place.textContent = text;
  }

  /** What is on, in a few words. @param {RunView} seen @param {RunKnown} known */
  function onNow(seen, known) {
    const line = seen.work && seen.line !== null ? known.lines[seen.block]?.[seen.line] : null;
    const count = seen.count ? `, ${seen.count.word.toLowerCase()} ${seen.count.n}${seen.count.of ? ` of ${seen.count.of}` : ""}` : "";
    if (seen.rest_s > 0) return `Rest ${rungbookClock.shown(seen.rest_s)}`;
    return `${line ? [line.name, line.more].filter(Boolean).join(", ") : seen.now}${count}`;
  }

  /** @param {RunView} seen @param {RunKnown} known */
  function draw(seen, known) {
    if (!strip.isConnected) document.body.append(strip);
    document.documentElement.classList.add("has-run-strip");
    put(digits, seen.digits);
    strip.classList.toggle("at-work", seen.work);
    const front = rungbookPerson.front() !== null;
    const isClass = known.whose === rungbookOwnClock.CLASS;
    const whom = !front ? "" : isClass ? "Class: " : "For this person: ";
    const day = keep.from(seen.run);
    whose.hidden = !front || seen.whole || seen.run.mode !== "class";
    put(whose, isClass ? "Person" : "Class");
    put(name, day ? `A clock from ${day}` : seen.whole ? "Session done" : `${seen.paused ? "Paused: " : whom}${onNow(seen, known)}`);
    put(then, day ? "Note it or drop it" : seen.whole ? "Note it" : seen.next ? `then ${seen.next}` : "");
    put(pause, seen.paused ? "Go on" : "Pause");
    pause.hidden = seen.whole;
  }

  async function openFace() {
    await rungbookBring.files(["scripts/run-note.js", "scripts/run-face.js"]);
    rungbookRunFace.open();
  }

  function gone() {
    if (keep.run()) return;
    strip.remove();
    document.documentElement.classList.remove("has-run-strip");
  }

  rungbookRunning.watch(draw);
  document.addEventListener("rungbook-run", gone);
  function wasOpen() {
    try {
      return sessionStorage.getItem("rungbook-face") === location.pathname;
    } catch {
      return false;
    }
  }

  if (keep.run() && wasOpen()) openFace().catch(() => {});
  rungbookRunning.resume().catch(() => {});

  return { openFace };
})();
