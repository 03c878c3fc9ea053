//! The simple fields of movements as a table, out and in. The tables are read and made by the csv crate.

use super::club::Club;

const STRAP: &str = "movements/pull-horizontal/strap-row.md";

fn cells(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
    let rows = reader.records().map(|row| row.expect("a row").iter().map(str::to_string).collect());
    rows.collect()
}

fn text(rows: &[Vec<String>], between: u8) -> String {
    let mut writer = csv::WriterBuilder::new().delimiter(between).from_writer(Vec::new());
    rows.iter().for_each(|row| writer.write_record(row).expect("written"));
    String::from_utf8(writer.into_inner().expect("whole")).expect("UTF-8")
}

#[test]
fn out_and_in_again_changes_nothing() {
    let club = Club::tiny();
    club.spoil(
        STRAP,
        "standard: Arms straight, then hands to ribs.",
        "standard: \"=1+1, \\\"so\\\"\"",
    );
    let before = club.all();
    let (code, table, why) = club.run(&["csv", "out"]);
    assert_eq!(code, 0, "{why}");
    let rows = cells(&table);
    assert_eq!(
        rows[0].join(","),
        "id,name,aliases,purpose,counts,sides,plane,pace,standard,caution"
    );
    assert_eq!(rows.len(), 4);
    let strap = rows.iter().find(|row| row[0] == "strap-row").expect("it is there");
    assert_eq!(strap[8], "'=1+1, \"so\"", "no formula");
    for table in [table.clone(), text(&rows, b';'), format!("\u{feff}{table}")] {
        let (code, said, why) = club.run_in("", &["csv", "in", "-"], &table);
        assert_eq!((code, said.as_str()), (0, "nothing differs\n"), "{why}");
    }
    assert_eq!(club.all(), before);
}

#[test]
fn what_differs_is_said_then_written_and_nothing_else() {
    let club = Club::tiny();
    let table = "id,name,aliases,pace,plane,standard\n\
        strap-row,Strap row,\"body row; row: hanging, easy\",2.5 s,sagittal,\"Ribs up: then # down\"\n\
        towel-row,,,,,\n";
    let before = club.all();
    let (code, said, _) = club.run_in("", &["csv", "in", "-", "--dry-run"], table);
    assert_eq!((code, club.all()), (0, before));
    assert!(said.contains(&format!("{STRAP}: pace: `3 s` -> `2.5 s`")), "{said}");
    assert!(
        said.contains("plane: nothing -> `sagittal`") && said.contains("1 entry would change"),
        "{said}"
    );
    let old = club.read(STRAP);
    let (code, said, why) = club.run_in("", &["csv", "in", "-"], table);
    assert_eq!(code, 0, "{said}{why}");
    let new = old
        .replace("aliases: [body row]", "aliases: [body row, \"row: hanging, easy\"]")
        .replace("pace: 3 s", "pace: 2.5 s")
        .replace("name: Strap row\n", "name: Strap row\nplane: sagittal\n")
        .replace("Arms straight, then hands to ribs.", "\"Ribs up: then # down\"");
    assert_eq!(club.read(STRAP), new);
    let (code, said, _) = club.run(&["check", "--quiet"]);
    assert_eq!(code, 0, "{said}");
}

#[test]
fn a_table_that_is_wrong_writes_nothing() {
    let club = Club::tiny();
    let before = club.all();
    for (table, sentence, next) in [
        (
            "id,name\nstrap-row,A\nstrap-rwo,B\n",
            "line 3: there is no movement `strap-rwo`",
            "did you mean `strap-row`?",
        ),
        ("id,nmae\nstrap-row,A\n", "no column is called `nmae`", "did you mean `name`?"),
        ("name,pace\nA,3 s\n", "the table has no column `id`", "rungbook csv out"),
        ("id,name\nstrap-row,A,B\n", "cannot be read in line 2", "put quotes round"),
        (
            "id,name\nstrap-row,A\nstrap-row,B\n",
            "lines 2 and 3 are both of `strap-row`",
            "keep one",
        ),
        ("id,purpose\ntowel-row,strenght\n", "nothing was written", "did you mean `strength`?"),
        ("id,pace\ntowel-row,3\n", "nothing was written", "write it like `90 s`"),
    ] {
        let (code, said, why) = club.run_in("", &["csv", "in", "-"], table);
        assert!(code == 2 && why.contains(sentence) && why.contains(next), "{table}: {said}{why}");
        assert_eq!(club.all(), before, "{table}");
    }
    let (code, _, why) = club.run(&["csv", "in", "none.csv"]);
    assert!(code == 2 && why.contains("`none.csv` could not be read"), "{why}");
}
