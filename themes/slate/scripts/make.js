// Makes what the scripts add to a page: an element with its class and what stands in it, a button.
// Text goes in as text; never reads markup.
"use strict";

const rungbookMake = (() => {
  /**
   * @template {keyof HTMLElementTagNameMap} T
   * @param {T} tag @param {string} className @param {(Node | string)[]} children
   */
  function make(tag, className, ...children) {
    const element = document.createElement(tag);
    if (className) element.className = className;
    element.append(...children);
    return element;
  }

  /** @param {string} text @param {() => void} act */
  function button(text, act) {
    const made = make("button", "", text);
    made.type = "button";
    made.addEventListener("click", act);
    return made;
  }

  return { make, button };
})();
