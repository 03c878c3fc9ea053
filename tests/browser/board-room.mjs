// What the stories of a board share: a file dealt out for the demo's class, and what stands on its page.
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { HOUSE } from "./hall.mjs";

export const PROGRAM = process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook");

export function dealtIn(folder, name, ...more) {
  const file = join(folder, name);
  const roster = join(HOUSE, "tests/board/roster.yaml");
  const day = ["--today", "2026-11-30", "--library", join(HOUSE, "content")];
  execFileSync(PROGRAM, ["board", "push-and-pull", "--roster", roster, ...day, "--out", file, ...more], { stdio: "pipe" });
  return file;
}

/** What everybody does: name and line to words. */
export const doingOn = (page) =>
  page.$$eval(".doing .who li", (all) =>
    Object.fromEntries(
      all.map((li) => {
        const card = li.closest(".card");
        const words = [card.querySelector(".what").textContent, li.closest(".much").querySelector(".dose").textContent];
        return [`${li.textContent} ${li.closest(".doing").dataset.line}`, words.join(": ")];
      }),
    ),
  );
export const changed = (was, now) => Object.keys({ ...was, ...now }).filter((key) => was[key] !== now[key]);
export const who = (keys) => [...new Set(keys.map((key) => key.split(" ")[0]))];
export const pressOn = async (page, name, words) => {
  await page.click(`#strip button:has-text("${name}")`);
  await page.click(`#choices button:has-text("${words}")`);
};
