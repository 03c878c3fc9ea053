// A member's device: what is asked and answered on it. Never a page of its own.
export const limitsOf = (page) => page.evaluate(() => Object.keys(rungbookPerson.who().limits));
export const caution = (page, id) => page.check(`input[name="caution"][value="${id}"]`);
export const pseudo = (page, selector, which) => page.evaluate(([to, side]) => getComputedStyle(document.querySelector(to), side).content, [selector, which]);

/** A chair, a towel and a sore wrist, answered in this tab; `more` situations beside it. */
export async function answered(page, address, { situations = ["sore-wrist"], kept = false } = {}) {
  await page.goto(`${address}kit-and-limits.html`);
  await page.evaluate(([all, stays]) => {
    rungbookPerson.keepKit({ mode: "picked", kit: ["chair", "towel"], noise: "loud" });
    rungbookPerson.keepLimits(all, [], stays);
  }, [situations, kept]);
}
