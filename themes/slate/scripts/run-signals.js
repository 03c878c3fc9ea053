// What a clock gives besides its face: tones, vibration, a spoken word, and a screen that stays on. Only
// what was asked for, remembered on this device; speaks with a voice of the device alone, never one that a
// host would have to be asked for.
"use strict";

/** @typedef {{sound: boolean, shake: boolean, voice: boolean}} SignalChoice */

const rungbookRunSignals = (() => {
  const KEPT = "rungbook-signals";
  /** @type {AudioContext | null} */
  let audio = null;
  /** @type {WakeLockSentinel | null} */
  let awake = null;

  /** @returns {SignalChoice} */
  function read() {
    try {
      const found = JSON.parse(localStorage.getItem(KEPT) || "null");
      return { sound: found?.sound === true, shake: found?.shake === true, voice: found?.voice === true };
    } catch {
      return { sound: false, shake: false, voice: false };
    }
  }

  let choice = read();

  /** A voice of this device in the page's language; null where there is none. @returns {SpeechSynthesisVoice | null} */
  function voice() {
    if (!("speechSynthesis" in window)) return null;
    const language = (document.documentElement.lang || "en").slice(0, 2);
    const own = speechSynthesis.getVoices().filter((one) => one.localService && one.lang.slice(0, 2) === language);
    return own.find((one) => one.default) || own[0] || null;
  }

  /** What this device can do. */
  const able = () => ({ sound: "AudioContext" in window, shake: "vibrate" in navigator, voice: voice() !== null });

  /** A browser lets a page sound only after somebody touched it. */
  function ready() {
    if (!choice.sound) return;
    audio ??= new AudioContext();
    audio.resume().catch(() => {});
  }

  /** @param {keyof SignalChoice} which */
  function toggle(which) {
    choice = { ...choice, [which]: !choice[which] };
    try {
      localStorage.setItem(KEPT, JSON.stringify(choice));
    } catch {
      // It counts on this page alone.
    }
    if (!choice.sound) {
      audio?.close().catch(() => {});
      audio = null;
    }
    ready();
    if (which === "sound" && choice.sound) tone("soon");
    if (which === "shake" && choice.shake) navigator.vibrate(80);
    if (which === "voice" && !choice.voice && "speechSynthesis" in window) speechSynthesis.cancel();
    if (which === "voice") say("Voice on");
    return choice[which];
  }

  /** @param {"soon" | "change"} which */
  function tone(which) {
    if (!audio) return;
    const sound = audio.createOscillator();
    const volume = audio.createGain();
    const long = which === "change" ? 0.6 : 0.12;
    sound.frequency.value = which === "change" ? 880 : 440;
    volume.gain.setValueAtTime(0.4, audio.currentTime);
    volume.gain.exponentialRampToValueAtTime(0.001, audio.currentTime + long);
    sound.connect(volume).connect(audio.destination);
    sound.start();
    sound.stop(audio.currentTime + long);
  }

  /** @param {"soon" | "change"} which */
  function give(which) {
    if (choice.shake && "vibrate" in navigator) navigator.vibrate(which === "change" ? 400 : 80);
    if (choice.sound) tone(which);
  }

  /** @param {string} words */
  function say(words) {
    const own = choice.voice ? voice() : null;
    if (!own || words === "") return;
    const spoken = new SpeechSynthesisUtterance(words);
    spoken.voice = own;
    spoken.lang = own.lang;
    speechSynthesis.cancel();
    speechSynthesis.speak(spoken);
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

  document.addEventListener("pointerdown", ready, { passive: true });
  return { choice: () => choice, able, toggle, give, say, stayAwake, rest };
})();
