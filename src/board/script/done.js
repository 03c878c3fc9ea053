// What was done in class, touches and all, as a file for the roster's machine.
// Never whoever has gone, never a reason.
"use strict";

const rungbookBoardDone = (() => {
  /** @param {any} board as `rungbookTable.from` has it */
  const of = (board) => {
    const { session, lines, ladders } = board.table.done;
    const its = (who) => board.sets.filter((set) => set.who === who);
    const person = ([name], who) => {
      if (board.away[who]) return [];
      const at = ([block, line]) => its(who).find((set) => set.block === block && set.line === line);
      const did = ladders.flatMap((places) => {
        const found = places.map(at).find((set) => set && !board.coachDecides(set));
        if (!found) return [];
        const [what, , dose] = board.text(found);
        return [[lines[found.block][found.line], dose ? `${what}, ${dose}` : what]];
      });
      const left = its(who).filter(board.coachDecides).map((set) => lines[set.block][set.line]);
      return [{ name, did, "left-out": [...new Set(left)] }];
    };
    return { session, people: board.table.people.flatMap(person) };
  };
  /** A link that saves it, and what to do with the file. */
  const show = (board, into) => {
    const { session } = board.table.done;
    const text = `${JSON.stringify(of(board), null, 1)}\n`;
    const words = document.createElement("p");
    words.textContent = "What stands here by now, without whoever has gone. Save it, and on the machine with the roster write:";
    const command = document.createElement("code");
    command.textContent = `rungbook roster done ${session} --from ${session}-done.json`;
    const link = document.createElement("a");
    Object.assign(link, { textContent: "Save as a file", download: `${session}-done.json` });
    link.href = `data:application/json;charset=utf-8,${encodeURIComponent(text)}`;
    into.append(words, command, link);
  };
  return { of, show };
})();

if (typeof module !== "undefined") module.exports = rungbookBoardDone;
