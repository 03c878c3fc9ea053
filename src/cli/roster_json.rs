//! What `rungbook roster show` says, for a script. Never more than a person is shown: limits stand in one
//! member's own answer, and beside nobody's name in that of all.

use super::roster::result_words;
use crate::board::Person;
use crate::finding::Placed;
use crate::library::{CautionId, Member, TraitId};
use serde_json::{Map, Value, json};

/// Everybody, and whom to look at: a name for a script, words, and who.
pub fn everybody(members: &[&Member], told: &[(&str, &str, Vec<&str>)]) -> String {
    let one = |member: &&Member| {
        json!({
            "name": member.name.value.as_str(),
            "results": member.results.len(),
            "classes": member.done.len(),
            "rungs": rungs(member),
        })
    };
    let mut all = json!({"members": members.iter().map(one).collect::<Vec<_>>()});
    for (name, _, who) in told {
        all[*name] = json!(who);
    }
    format!("{all:#}\n")
}

/// One member.
pub fn one(member: &Member, person: Option<&Person>) -> String {
    let kit = member.kit.as_ref();
    let kit = kit.map(|kit| kit.iter().map(|id| id.as_str()).collect::<Vec<_>>());
    let mut results: Vec<_> = member.results.iter().collect();
    results.sort_by(|a, b| a.day.value.cmp(&b.day.value));
    let result = |result: &&crate::library::MemberResult| {
        json!({
            "ladder": result.ladder.value.as_str(),
            "rung": result.rung.value,
            "day": result.day.value,
            "text": result_words(result),
        })
    };
    let all = json!({
        "name": member.name.value.as_str(),
        "kit": kit,
        "limits": limits(&member.limits),
        "cautions": cautions(&member.cautions),
        "rungs": rungs(member),
        "results": results.iter().map(result).collect::<Vec<_>>(),
        "notes": person.map(|one| &one.notes),
    });
    format!("{all:#}\n")
}

fn rungs(member: &Member) -> Map<String, Value> {
    let rung = |(ladder, own): &(Placed<_>, crate::library::OwnRung)| {
        let ladder: &crate::library::LadderId = &ladder.value;
        (ladder.to_string(), json!(own.rung.value))
    };
    member.rungs.iter().map(rung).collect()
}

fn limits(limits: &[(Placed<TraitId>, u8)]) -> Map<String, Value> {
    limits.iter().map(|(id, level)| (id.value.to_string(), json!(level))).collect()
}

fn cautions(cautions: &[Placed<CautionId>]) -> Vec<&str> {
    cautions.iter().map(|id| id.value.as_str()).collect()
}
