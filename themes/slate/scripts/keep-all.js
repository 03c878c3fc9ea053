// What of the site is kept on this device, and a button to keep everything where it is too large to come
// unasked. Shows nothing from disk, nor before the first copy is whole.
"use strict";

(() => {
  /** @typedef {{bytes: {always: number, more: number}, all: boolean, lacking: number}} Kept */
  const place = document.querySelector("[data-kept-site]");
  if (!(place instanceof HTMLElement) || !navigator.serviceWorker) return;
  const words = place.querySelector("[data-kept-words]");
  const button = place.querySelector("button");
  if (!words || !button) return;

  /** @param {string} what @returns {Promise<Kept | null>} */
  const ask = (what) => new Promise((tell) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => tell(data);
    navigator.serviceWorker.controller?.postMessage(what, [port2]);
  });

  /** @param {number} bytes */
  const size = (bytes) => `${Math.max(1, Math.round(bytes / 1e6))} MB`;

  /** @param {Kept | null} kept */
  function show(kept) {
    if (!kept || !(place && words && button)) return;
    const isWhole = kept.all || kept.bytes.more === 0;
    const lack = kept.lacking ? ` ${kept.lacking} files are still to come.` : "";
    words.textContent = isWhole
      ? `All of this site is kept on this device, ${size(kept.bytes.always + kept.bytes.more)}, and opens without a signal.${lack}`
      : `Lists, cards and sessions are kept on this device, ${size(kept.bytes.always)}, and open without a signal.${lack}`;
    button.hidden = isWhole;
    button.textContent = `Keep everything, ${size(kept.bytes.more)} more`;
    place.removeAttribute("hidden");
  }

  button.addEventListener("click", () => {
    words.textContent = "Coming; stay on this page until it is here.";
    button.hidden = true;
    ask("all").then(show);
  });
  const look = () => ask("told").then(show);
  navigator.serviceWorker.addEventListener("controllerchange", look);
  look();
})();
