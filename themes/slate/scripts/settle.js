// Where this device keeps something, a page that answers for somebody is seen once the answer stands in it:
// nothing moves under the thumb. Never holds it for longer than the styles do (`.settling`), and reads nothing.
"use strict";

try {
  const { classList } = document.documentElement;
  if (localStorage.length + sessionStorage.length) classList.add("settling");
  // The answers come with the page's own scripts; a guess of what they then bring, no source.
  addEventListener("load", () => setTimeout(() => classList.remove("settling"), 150));
} catch {
  // A browser that keeps nothing knows nobody.
}
