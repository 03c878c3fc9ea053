//! Ids that a shell completes: asked of the program itself, so that they are those of the library.
//! Only words to add to what clap generates; never installs anything.

use crate::library::Library;
use crate::library::named::Named;
use clap::ValueEnum;
use clap_complete::Shell;

/// A kind of entry that has ids.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Kind {
    Movement,
    Ladder,
    Session,
    Cycle,
    Kit,
    Caution,
    Trait,
    /// What `own` takes: sessions and ladders.
    Own,
    /// What `rename` takes: ids of every kind of entry.
    Any,
    /// What `explain` takes: codes of findings, keys and words of poses.
    Word,
}

/// Commands and what stands behind them.
const COMMANDS: [(&str, &str); 9] = [
    ("swap", "movement"),
    ("demand", "movement"),
    ("own", "own"),
    ("board", "session"),
    ("cover", "session"),
    ("place", "ladder"),
    ("plan", "cycle"),
    ("explain", "word"),
    ("rename", "any"),
];

/// The ids of a kind, one a line.
pub fn ids(library: &Library, kind: Kind) -> String {
    let words = &library.words;
    let ladders = || library.ladders.keys().map(|id| id.as_str());
    let sessions = || library.sessions.keys().map(|id| id.as_str());
    let ids: Vec<&str> = match kind {
        Kind::Movement => library.movements.keys().map(|id| id.as_str()).collect(),
        Kind::Ladder => ladders().collect(),
        Kind::Session => sessions().collect(),
        Kind::Cycle => library.cycles.keys().map(|id| id.as_str()).collect(),
        Kind::Kit => words.kit.keys().map(|id| id.as_str()).collect(),
        Kind::Caution => words.cautions.keys().map(|id| id.as_str()).collect(),
        Kind::Trait => words.traits.keys().map(|id| id.as_str()).collect(),
        Kind::Own => sessions().chain(ladders()).collect(),
        Kind::Any => Named::ALL.iter().flat_map(|kind| kind.all(library)).map(|it| it.0).collect(),
        Kind::Word => super::explain::words(),
    };
    // A shell expands what it completes: what is no id is not handed to it.
    ids.into_iter().filter(|id| is_safe(id)).map(|id| format!("{id}\n")).collect()
}

/// A word of letters, digits and hyphens, whatever a library holds.
fn is_safe(id: &str) -> bool {
    !id.starts_with('-') && id.chars().all(|c| c.is_ascii_alphanumeric() || c == '-')
}

/// What a shell reads after the words that clap generates; nothing for shells without such a way.
pub fn for_shell(shell: Shell) -> String {
    match shell {
        Shell::Bash => bash(),
        Shell::Fish => fish(),
        _ => String::new(),
    }
}

fn bash() -> String {
    let cases: String = COMMANDS
        .iter()
        .map(|(command, kind)| format!("        {command}) kind={kind} ;;\n"))
        .collect();
    format!(
        "\n_rungbook_with_ids() {{\n    _rungbook \"$@\"\n    \
         local kind= last=\"${{COMP_WORDS[COMP_CWORD]}}\" before=\"${{COMP_WORDS[COMP_CWORD-1]}}\"\n    \
         case \"${{COMP_WORDS[1]}}\" in\n{cases}    esac\n    \
         [[ ${{COMP_WORDS[1]}} == roster && ${{COMP_WORDS[2]}} == done && $COMP_CWORD -gt 2 ]] && kind=session\n    \
         case \"$before\" in\n        --kit) kind=kit ;;\n        --avoid) kind=caution ;;\n        --like) kind=any ;;\n        \
         --*) return ;;\n    esac\n    \
         [[ -z $kind || $last == -* || $COMP_CWORD -lt 2 ]] && return\n    \
         COMPREPLY=($(compgen -W \"$(\"$1\" completions --ids \"$kind\" 2>/dev/null)\" -- \"$last\"))\n}}\n\
         complete -F _rungbook_with_ids -o bashdefault -o default rungbook\n"
    )
}

fn fish() -> String {
    let line = |(command, kind): &(&str, &str)| {
        format!(
            "complete -c rungbook -n \"__fish_seen_subcommand_from {command}\" -f \
             -a \"(rungbook completions --ids {kind} 2>/dev/null)\"\n"
        )
    };
    // `done` of the roster takes a session, as its own word.
    COMMANDS.iter().chain(&[("done", "session")]).map(line).collect()
}
