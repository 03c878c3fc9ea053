//! Mentions: every place where one entry names another by its id.
//! Never asks whether the other exists; the `unknown-...` rules do.

use crate::finding::Placed;
use crate::library::{
    ChangeId, Fault, FaultId, Item, ItemWork, KitId, LadderId, Library, MovementId, MuscleId,
    PatternId, SessionId, SourceId, TraitId,
};

/// Every item of every session, options too, in the order written.
pub fn items(library: &Library) -> Vec<&Item> {
    let mut found = Vec::new();
    let blocks = library.sessions.values().flat_map(|session| &session.blocks);
    blocks.for_each(|block| gather(&block.items, &mut found));
    found
}

fn gather<'l>(items: &'l [Item], found: &mut Vec<&'l Item>) {
    for item in items {
        found.push(item);
        if let ItemWork::Options(options) = &item.work {
            gather(options, found);
        }
    }
}

/// Movements named by rungs, by links to a movement beside, and by sessions.
pub fn movements(library: &Library) -> Vec<&Placed<MovementId>> {
    let rungs = library.ladders.values().flat_map(|ladder| &ladder.rungs).map(|r| &r.movement);
    let beside = library.movements.values().flat_map(|m| &m.beside).map(|link| &link.to);
    let items = items(library).into_iter().filter_map(|item| match &item.work {
        ItemWork::Movement(movement, _) => Some(movement),
        _ => None,
    });
    rungs.chain(beside).chain(items).collect()
}

/// Ladders named by sessions and cycles.
pub fn ladders(library: &Library) -> Vec<&Placed<LadderId>> {
    let items = items(library).into_iter().filter_map(|item| match &item.work {
        ItemWork::Ladder(ladder) => Some(ladder),
        _ => None,
    });
    items.chain(library.cycles.values().flat_map(|cycle| &cycle.focus)).collect()
}

/// Sessions named by cycles.
pub fn sessions(library: &Library) -> Vec<&Placed<SessionId>> {
    let weeks = library.cycles.values().flat_map(|cycle| &cycle.weeks);
    weeks.flat_map(|week| &week.sessions).collect()
}

/// Kit that movements need, as they stand or changed.
pub fn kit_needed(library: &Library) -> Vec<&Placed<KitId>> {
    let needs = library.movements.values().flat_map(|movement| &movement.kit);
    let own = library.movements.values().flat_map(|movement| &movement.changes);
    let own = own.filter_map(|change| change.kit.as_ref()).flatten();
    let general = library.words.changes.values().flat_map(|change| &change.kit);
    needs.chain(own).chain(general).flat_map(|need| &need.0).collect()
}

/// Kit that movements need, kit that is counted in the hall, and kit that people usually have.
pub fn kit(library: &Library) -> Vec<&Placed<KitId>> {
    let hall = library.club.hall_kit.iter().map(|(kit, _)| kit);
    let usual = library.club.usual_kits.iter().flat_map(|(_, kit)| kit);
    kit_needed(library).into_iter().chain(hall).chain(usual).collect()
}

/// Traits that movements have.
pub fn traits_had(library: &Library) -> Vec<&Placed<TraitId>> {
    let traits = library.movements.values().flat_map(|movement| &movement.traits).flatten();
    traits.map(|of| &of.id).collect()
}

/// Traits that changes lessen or bring in.
fn traits_changed(library: &Library) -> impl Iterator<Item = &Placed<TraitId>> {
    let general = library.words.changes.values();
    let general_eases = general.clone().flat_map(|change| &change.eases);
    let general = general.flat_map(|change| change.leaves.iter().chain(&change.brings));
    let own = library.movements.values().flat_map(|movement| &movement.changes);
    let own_eases = own.clone().flat_map(|change| change.eases.iter().flatten());
    let own = own.flat_map(|change| change.leaves.iter().chain(&change.brings).flatten());
    general.chain(own).map(|(id, _)| id).chain(general_eases).chain(own_eases)
}

/// Traits that movements have, that cautions leave out or change, and that changes are about.
pub fn traits(library: &Library) -> Vec<&Placed<TraitId>> {
    let cautions = library.words.cautions.values().flat_map(|caution| caution.precautions());
    let cautions = cautions.map(|precaution| &precaution.about);
    traits_had(library).into_iter().chain(cautions).chain(traits_changed(library)).collect()
}

/// Changes that movements allow, and those that a change says may be made with it.
pub fn changes(library: &Library) -> Vec<&Placed<ChangeId>> {
    let own = library.movements.values().flat_map(|m| &m.changes).map(|change| &change.id);
    own.chain(library.words.changes.values().flat_map(|change| &change.with)).collect()
}

/// Faults of the catalogue that movements name.
pub fn faults(library: &Library) -> Vec<&Placed<FaultId>> {
    let faults = library.movements.values().flat_map(|movement| &movement.faults);
    faults.filter_map(|fault| fault.of.as_ref()).collect()
}

/// The faults of movements of which all is known: a fault whose id is not in the catalogue takes
/// nothing over, and lacks what nobody forgot to write.
pub fn whole_faults(library: &Library) -> impl Iterator<Item = &Fault> {
    let known = &library.words.faults;
    let faults = library.movements.values().flat_map(|movement| &movement.faults);
    faults.filter(|fault| fault.of.as_ref().is_none_or(|id| known.contains_key(&id.value)))
}

/// Muscles of movements, and the usual prime movers of patterns.
pub fn muscles(library: &Library) -> Vec<&Placed<MuscleId>> {
    let movements = library.movements.values();
    let worked = movements.flat_map(|m| m.muscles.prime.iter().chain(&m.muscles.assist));
    worked.chain(library.words.patterns.values().flat_map(|pattern| &pattern.prime)).collect()
}

/// Patterns of movements, ladders and sessions, and patterns near another.
pub fn patterns(library: &Library) -> Vec<&Placed<PatternId>> {
    let movements = library.movements.values().map(|movement| &movement.pattern);
    let ladders = library.ladders.values().filter_map(|ladder| ladder.pattern.as_ref());
    let sessions = library.sessions.values().filter_map(|session| session.focus.as_ref());
    let near = library.words.patterns.values().flat_map(|pattern| &pattern.near);
    let named = movements.chain(ladders).chain(sessions).chain(near.map(|(id, _)| id));
    let faults = library.words.faults.values().flat_map(|fault| &fault.written_patterns);
    let named = named.chain(faults);
    // A movement without the key stands in the pattern of its folder; that has been said already.
    named.filter(|pattern| !pattern.span.is_whole_file()).collect()
}

/// Sources of every kind of entry.
pub fn sources(library: &Library) -> Vec<&Placed<SourceId>> {
    let words = &library.words;
    let lists = (library.movements.values().map(|entry| &entry.sources))
        .chain(library.ladders.values().map(|entry| &entry.sources))
        .chain(library.sessions.values().map(|entry| &entry.sources))
        .chain(library.cycles.values().map(|entry| &entry.sources))
        .chain(words.kit.values().map(|entry| &entry.sources))
        .chain(words.traits.values().map(|entry| &entry.sources))
        .chain(words.changes.values().map(|entry| &entry.sources))
        .chain(words.faults.values().map(|entry| &entry.sources))
        .flatten();
    lists.chain(words.cautions.values().flat_map(|entry| entry.all_sources())).collect()
}
