// Where a number stands in a published table: context beside the member's own history. Keeps age and
// sex only when the member chooses so; never a verdict.
"use strict";

const rungbookBookNorms = (() => {
  const { find, form, field, number, ticked, asked, ask, make } = rungbookBookParts;
  const norms = form("norms");
  function context() {
    const place = find("[data-context]", HTMLElement);
    const tables = window.rungbookPlacingTables?.norms;
    const [value, age] = [number(norms, "value"), number(norms, "age")];
    const test = field(norms, "test").value;
    place.replaceChildren();
    if (!tables) return;
    const protocol = tables.protocols.find((one) => one.test === test);
    if (protocol) place.append(make("p", "", `How it is run: ${protocol.how} Compare nothing that was run another way.`));
    const sex = field(norms, "sex").value;
    if (value === null || age === null || !sex) return;
    const found = rungbookNorms(tables).norms(test, sex, age, value);
    if (!found) {
      place.append(make("p", "", "No published table for this age that we know of."));
      return;
    }
    place.append(make("p", "today", `${value}: ${found.category}.`), make("p", "quiet", `Source: ${found.source}${found.from_memory ? " (from memory)" : ""}.`));
  }

  /**
   * Starts with the latest result that a table's own protocol may cover.
   * @param {Book} book @param {(result: Result) => string} movementOf
   */
  function fill(book, movementOf) {
    const tables = window.rungbookPlacingTables?.norms;
    find("[data-norms]", HTMLElement).hidden = !tables;
    if (!tables) return;
    const select = field(norms, "test");
    if (!(select instanceof HTMLSelectElement) || select.options.length) return;
    select.append(...tables.protocols.map(({ test }) => new Option(test.replaceAll("-", " "), test)));
    /** @type {Record<string, [string, string]>} movement of a rung to its test and the table's sex */
    const COVERED = { "push-up": ["push-up", "male"], "knee-push-up": ["push-up", "female"], plank: ["forearm-plank", ""] };
    for (const one of rungbookBookFile.byDay(book.results)) {
      const movement = movementOf(one);
      if (!Object.hasOwn(COVERED, movement) || one.added_kg > 0) continue;
      select.value = COVERED[movement][0];
      field(norms, "value").value = String(one.amount);
    }
    const { age, sex } = asked();
    field(norms, "age").value = typeof age === "number" ? String(age) : "";
    field(norms, "sex").value = typeof sex === "string" ? sex : "";
    find('[data-form="norms"] [name="keep"]', HTMLInputElement).checked = age !== undefined;
    context();
  }
  norms.addEventListener("submit", (event) => event.preventDefault());
  norms.addEventListener("input", () => {
    ask({ age: number(norms, "age"), sex: field(norms, "sex").value }, ticked(norms, "keep"));
    context();
  });

  return { fill };
})();
