// What hangs on the wall: when the class starts, what a week of a cycle asks, posters or cards.
// Knows nobody: neither the member of this device nor who is in front of the coach reaches a sheet.
"use strict";

(() => {
  const article = document.querySelector("[data-poster]");
  const starts = document.querySelector("[data-starts]");
  if (!(article instanceof HTMLElement) || !(starts instanceof HTMLInputElement)) return;
  /** @type {HTMLElement[]} */
  const sheets = [...article.querySelectorAll(".sheet")].filter((one) => one instanceof HTMLElement);

  /** Seconds as the hall's clock shows them where the class has a start, else from the start. @param {number} seconds */
  function shown(seconds) {
    const start = /^(\d\d):(\d\d)/.exec(starts instanceof HTMLInputElement ? starts.value : "");
    const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
    if (!start) return `${Math.floor(seconds / 60)}:${two(seconds % 60)}`;
    const minutes = Number(start[1]) * 60 + Number(start[2]) + Math.floor(seconds / 60);
    return `${two(Math.floor(minutes / 60) % 24)}:${two(minutes % 60)}`;
  }

  function sayTimes() {
    for (const sheet of sheets) {
      const at = Number(sheet.dataset.at);
      const words = `${shown(at)} to ${shown(at + Number(sheet.dataset.lasts))}`;
      for (const place of sheet.querySelectorAll("[data-times]")) place.textContent = words;
    }
  }

  /** @param {string} cycle @param {number} number */
  async function sayWeek(cycle, number) {
    const { blocks, rig_s: rig } = await rungbookBring.inWeek(article instanceof HTMLElement ? article.dataset.poster || "" : "", { cycle, week: number });
    let at = 0;
    for (const [place, block] of blocks.entries()) {
      const sheet = sheets[place];
      if (!sheet) continue;
      const lasts = block.clock?.total_s || 0;
      Object.assign(sheet.dataset, { at, lasts });
      at += lasts + rig;
      for (const how of sheet.querySelectorAll("[data-how]")) if (block.format) how.textContent = block.format;
      for (const [line, item] of block.items.entries()) {
        const row = sheet.querySelector(`[data-line="${line}"]`);
        const dose = row?.querySelector("[data-dose]");
        if (dose && item.dose) dose.textContent = item.dose;
        for (const [way, rung] of item.rungs.entries()) {
          const own = row?.querySelector(`[data-way="${way}"] .own-dose`);
          if (own && rung.dose) own.textContent = rung.dose;
        }
      }
    }
    for (const said of article?.querySelectorAll("[data-week]") || []) said.textContent = `, week ${number}`;
    sayTimes();
  }

  const [, cycle, week] = /week\/([a-z0-9-]+)\/(\d+)/.exec(location.hash) || [];
  if (/cards$/.test(location.hash)) {
    const cards = document.getElementById("cards");
    if (cards instanceof HTMLInputElement) cards.checked = true;
  }
  try {
    // As it is kept on the page of today; else when the clock that runs this session began.
    const run = JSON.parse(localStorage.getItem("rungbook-clock") || "null")?.run;
    const begun = run?.session === article.dataset.poster && run?.from === 0 ? new Date(run.begun) : null;
    const clock = begun && begun.toDateString() === new Date().toDateString() ? begun.toTimeString().slice(0, 5) : "";
    starts.value = localStorage.getItem("rungbook-start-at") || clock;
  } catch {
    // Times count from the start.
  }
  starts.addEventListener("input", sayTimes);
  sayTimes();
  if (cycle) sayWeek(cycle, Number(week)).catch(() => {
    const about = article.querySelector(".about");
    about?.append(" This week's sets did not come; what the session asks without a week stands here.");
  });
})();
