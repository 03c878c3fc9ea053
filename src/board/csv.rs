//! Csv: a board as a table, one row for each person and line (RFC 4180).
//! Never a reason unless it is asked for.

use super::Board;
use super::view::View;
use super::why::why;
use crate::gym::Gym;
use crate::library::cells::shielded;
use crate::swap::kit_name;

/// A board as a table; with every choice's reason where `with_why`.
pub fn as_csv(gym: &Gym, (board, view): (&Board, &View), with_why: bool) -> String {
    let mut head = vec!["block", "line", "name", "place", "group", "movement", "setting"];
    head.extend(["change", "dose", "cue", "kit"]);
    head.extend(with_why.then_some("why"));
    let mut table =
        ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(Vec::new());
    let mut put = |cells: Vec<String>| {
        // Writing to memory cannot fail, and every row has as many cells as the first.
        let _ = table.write_record(cells.iter().map(|cell| shielded(cell)));
    };
    put(head.into_iter().map(String::from).collect());
    for (block, shown) in view.blocks.iter().enumerate() {
        for (line, of_line) in shown.lines.iter().enumerate() {
            for doing in &of_line.doing {
                for (dose, who) in
                    doing.who.iter().flat_map(|(dose, all)| all.iter().map(move |w| (dose, *w)))
                {
                    let (name, at_home) = &view.people[who];
                    let group =
                        board.rotas[block].group_of(who).filter(|_| !shown.groups.is_empty());
                    let letter =
                        group.and_then(|at| shown.groups.get(at)).map(|(letter, _)| *letter);
                    let kit = board.offer(block, line, who).kit.iter();
                    let kit: Vec<String> = kit.map(|id| kit_name(gym, id)).collect();
                    let mut cells = vec![
                        shown.name.clone(),
                        of_line.name.clone(),
                        name.clone(),
                        if *at_home { "home" } else { "hall" }.to_string(),
                        letter.map(String::from).unwrap_or_default(),
                        doing.what.clone(),
                        doing.setting.clone(),
                        doing.change.clone(),
                        dose.clone(),
                        doing.cue.clone(),
                        kit.join(" + "),
                    ];
                    let why = || why(gym, board, (block, line), who).unwrap_or_default();
                    cells.extend(with_why.then(why));
                    put(cells);
                }
            }
        }
    }
    String::from_utf8(table.into_inner().unwrap_or_default()).unwrap_or_default()
}
