// Keeps an open page up to date while its library is written, and shows what there is to mend.
// Served by `rungbook preview` alone: never part of a built site, asks no other host.
"use strict";

/**
 * What is shown now, as `src/preview/serve.rs` tells it.
 * @typedef {{ run: string, build: number, pages: number, summary: string, findings: string, pressing: boolean }} Shown
 */

(() => {
  const own = document.currentScript?.dataset ?? {};
  const CLOSED = "rungbook preview closed";
  const PLACE = `rungbook preview place ${location.pathname}`;
  // Shorter than a person's patience, longer than a reload takes.
  const PATIENCE = 1500;

  /**
   * Whether the page with these marks is older than what is shown now.
   * @param {DOMStringMap} page
   * @param {Shown} shown
   */
  function isOlder(page, shown) {
    const waits = page.pages === "0";
    return page.run !== shown.run
      || Number(page.pages) < shown.pages
      || (waits && Number(page.build) < shown.build);
  }

  // A browser may refuse storage; the preview then only forgets the place and the closed panel.
  /** @param {string} key @param {string} value */
  function keep(key, value) {
    try { sessionStorage.setItem(key, value); } catch { /* nothing is kept */ }
  }

  /** @param {string} key */
  function take(key) {
    try { return sessionStorage.getItem(key); } catch { return null; }
  }

  /** @param {string} key */
  function forget(key) {
    try { sessionStorage.removeItem(key); } catch { /* nothing was kept */ }
  }

  function reload() {
    const focus = document.activeElement?.id ?? "";
    keep(PLACE, JSON.stringify({ left: scrollX, top: scrollY, focus }));
    location.reload();
  }

  // Once the panel stands and the page is whole: either of them moves the text.
  function returnToPlace() {
    if (document.readyState !== "complete" || !heard) return;
    const kept = take(PLACE);
    forget(PLACE);
    if (kept === null) return;
    const place = JSON.parse(kept);
    if (place.focus) document.getElementById(place.focus)?.focus({ preventScroll: true });
    scrollTo({ left: place.left, top: place.top, behavior: "instant" });
  }

  /** @param {string} name @param {Record<string, string>} attributes */
  function element(name, attributes, text = "") {
    const made = document.createElement(name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    made.textContent = text;
    return made;
  }

  const panel = element("section", { class: "preview-panel", "aria-label": "Preview", "data-empty": "" });
  const summary = element("p", { role: "status" });
  const toggle = element("button", { type: "button", "aria-controls": "preview-findings" });
  const close = element("button", { type: "button" }, "Close");
  const findings = element("pre", { id: "preview-findings", tabindex: "0", "aria-label": "Findings" });

  /** @param {boolean} open */
  function unfold(open) {
    findings.hidden = !open;
    toggle.setAttribute("aria-expanded", String(open));
    toggle.textContent = open ? "Hide findings" : "Show findings";
  }

  function empty() {
    summary.textContent = "";
    panel.setAttribute("data-empty", "");
  }

  /** @param {Shown} shown */
  function say(shown) {
    const isNew = findings.textContent !== shown.findings;
    findings.textContent = shown.findings;
    if (isNew) unfold(shown.pressing);
    if (shown.findings === "" || shown.findings === take(CLOSED)) return empty();
    forget(CLOSED);
    panel.removeAttribute("data-empty");
    if (summary.textContent !== shown.summary) summary.textContent = shown.summary;
  }

  function sayStopped() {
    panel.removeAttribute("data-empty");
    summary.textContent = "The preview has stopped: this page may be older than your files.";
  }

  function closePanel() {
    keep(CLOSED, findings.textContent);
    const hadFocus = panel.contains(document.activeElement);
    empty();
    if (hadFocus) document.querySelector("main")?.focus({ preventScroll: true });
  }

  function layOut() {
    const style = element("link", { rel: "stylesheet", href: "/preview/preview.css" });
    document.head.append(style);
    panel.append(summary, toggle, close, findings);
    unfold(false);
    toggle.addEventListener("click", () => unfold(findings.hasAttribute("hidden")));
    close.addEventListener("click", closePanel);
    panel.addEventListener("keydown", (event) => {
      if (event.key === "Escape") closePanel();
    });
    document.body.prepend(panel);
  }

  /** @type {EventSource | null} */
  let stream = null;
  let patience = 0;
  let heard = false;

  function listen() {
    stream?.close();
    stream = new EventSource("/preview/events");
    stream.addEventListener("message", (event) => {
      clearTimeout(patience);
      const shown = JSON.parse(event.data);
      if (isOlder(own, shown)) return reload();
      if (own.pages !== "0") say(shown);
      heard = true;
      returnToPlace();
    });
    stream.addEventListener("error", () => {
      clearTimeout(patience);
      patience = setTimeout(sayStopped, PATIENCE);
    });
  }

  // A browser opens six connections to one host at most. A page that nobody sees gives its own
  // back; the first message after it is seen again says whether it has grown old.
  function follow() {
    if (document.visibilityState === "visible") return listen();
    clearTimeout(patience);
    stream?.close();
    stream = null;
  }

  // Only who has opened the list of poses in this browser knows where it is.
  function leadToPose() {
    let list = null;
    try { list = localStorage.getItem("rungbook poses"); } catch { /* no link then */ }
    const id = /^\/movements\/([^/]+)\.html$/.exec(location.pathname)?.[1];
    if (!id || !/^\/pose\/[0-9a-f]{32}\/$/.test(list ?? "")) return;
    const line = element("p", { class: "preview-pose" });
    line.append(element("a", { href: `${list}#${id}` }, "Change its pose"));
    document.querySelector("main")?.append(line);
  }

  layOut();
  leadToPose();
  addEventListener("load", returnToPlace);
  document.addEventListener("visibilitychange", follow);
  follow();
})();
