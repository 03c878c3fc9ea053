// What the member takes away: the text for the coach, the book as a file, or everything at once.
// Sends nothing by itself.
"use strict";

const rungbookBookAway = (() => {
  const { KIT, LIMITS, ASKED, find, form, field, ticked, say, change, kept, limits, asked, ask, make, save } = rungbookBookParts;

  // For the coach.
  const hand = form("hand");
  function handText() {
    const nick = rungbookBookFile.nickname(field(hand, "nick").value);
    const units = Object.fromEntries(
      Array.from(form("rungs").querySelectorAll("option")).flatMap(({ dataset: { own = "", unit = "", settings = "" } }) =>
        [[own, unit], ...settings.split(" ").map((word) => word.split(":")).map(([name, , unit]) => [name, unit])]),
    );
    const how = { nick, units, all: field(hand, "which").value === "all", notes: ticked(hand, "notes") };
    field(hand, "text").value = nick ? rungbookBookFile.handOver(rungbookBook.read().results, how) : "";
  }
  hand.addEventListener("input", () => {
    ask({ nickname: rungbookBookFile.nickname(field(hand, "nick").value) }, ticked(hand, "keep"));
    handText();
  });

  async function copy() {
    const area = find('[data-form="hand"] [name="text"]', HTMLTextAreaElement);
    area.select();
    try {
      await navigator.clipboard.writeText(area.value);
      say("Copied.");
    } catch {
      say("The text is marked: copy it with your device's own way.");
    }
  }

  // The file.
  const file = form("file");
  /** What a browser keeps for a site, bytes: no book is as long. */
  const BIGGEST = 5_000_000;
  /** Reads in the file that was picked; with anything wrong nothing changes. */
  async function takeFile() {
    const input = field(file, "file");
    const picked = input instanceof HTMLInputElement ? input.files?.[0] : undefined;
    if (!picked) return;
    if (picked.size > BIGGEST) return say("Nothing was read in: this file has over 5 MB, and a book has less.");
    const { file: read, wrong } = rungbookBookFile.read(await picked.text());
    input.value = "";
    const box = find("[data-trouble]", HTMLElement);
    box.hidden = read !== null;
    if (!read) {
      box.replaceChildren(make("p", "", "Nothing was read in; your book is as it was. What is wrong with the file:"), make("ul", "", ...wrong.slice(0, 20).map((one) => make("li", "", one))));
      say("Nothing was read in.");
      return;
    }
    takeIn(read);
  }

  /** @param {BookFile} read */
  function takeIn(read) {
    let count = { came: 0, here: 0 };
    const isKept = change((book) => {
      count = rungbookBookFile.merge(book, read.book);
    }, "");
    if (!isKept) return;
    try {
      if (read.kit && kept(KIT) === null) localStorage.setItem(KIT, JSON.stringify(read.kit));
      if (read.limits && limits() === null) sessionStorage.setItem(LIMITS, JSON.stringify(read.limits));
    } catch {
      // The book itself is kept; kit and limits can be picked again.
    }
    say(`Read in: ${count.came} new, ${count.here} that were here already. What was here stays.${read.limits ? " Limits are in for this tab only." : ""}`);
  }

  function eraseAll() {
    try {
      [KIT, LIMITS, ASKED].forEach((key) => {
        localStorage.removeItem(key);
        sessionStorage.removeItem(key);
      });
    } catch {
      // What cannot be written was not kept either.
    }
    rungbookBook.erase();
    location.reload();
  }

  /** What the buttons do, by their word. @type {Record<string, () => void>} */
  const acts = {
    copy,
    save: () => save(field(hand, "text").value, "results-for-the-coach.txt", "text/plain"),
    share: () => navigator.share({ text: field(hand, "text").value }).catch(() => say("Not shared.")),
    export: () => {
      const chosen = ticked(file, "limits") ? limits() : null;
      save(rungbookBookFile.make(rungbookBook.read(), kept(KIT), chosen), `my-book-${rungbookBook.today()}.json`, "application/json");
    },
    erase: () => {
      find("[data-sure]", HTMLElement).hidden = false;
      find('[data-act="keep"]', HTMLElement).focus();
    },
    keep: () => {
      find("[data-sure]", HTMLElement).hidden = true;
      find('[data-act="erase"]', HTMLElement).focus();
    },
    sure: eraseAll,
  };

  /** Does what a button says; a text for the coach needs a nickname first. @param {string} act */
  function does(act) {
    if (["copy", "save", "share"].includes(act) && field(hand, "text").value === "") {
      say(rungbookBook.read().results.length ? "Write your nickname first." : "There is no result to hand over yet.");
      field(hand, "nick").focus();
      return;
    }
    acts[act]?.();
  }

  /** Once, when this arrives. */
  function start() {
    find('[data-act="share"]', HTMLElement).hidden = !("share" in navigator);
    const { nickname } = asked();
    if (typeof nickname !== "string" || !nickname) return;
    field(hand, "nick").value = nickname;
    find('[data-form="hand"] [name="keep"]', HTMLInputElement).checked = true;
  }

  start();
  return { handText, takeFile, does };
})();
