//! Moves that wait for one another: each needs what only the next brings about, the last what only
//! the first does. From outside the ring nobody gets in.

use std::collections::{BTreeMap, BTreeSet};

use crate::catalogue::{Catalogue, Kind, Literal};

/// A setting of a variable of a kind.
type Setting<'a> = (&'a str, &'a str, &'a str);
/// For each setting, each way to bring it about: what it needs, each as settings of which any will
/// do.
type Ways<'a> = BTreeMap<Setting<'a>, Vec<Vec<Vec<Setting<'a>>>>>;

/// A ring of settings each of which is needed for the one before, as `kind.variable = setting`.
///
/// What no move brings about stands by itself. A setting can be come by if some move to it needs
/// nothing else, or only what can be come by; what is left waits for one another.
pub(super) fn in_before(catalogue: &Catalogue) -> Option<Vec<String>> {
    let ways = ways(catalogue);
    let mut waiting: BTreeSet<Setting> = ways.keys().copied().collect();
    loop {
        let open = |any: &Vec<Setting>| any.iter().any(|one| !waiting.contains(one));
        let freed: Vec<_> = ways
            .iter()
            .filter(|(setting, ways)| {
                waiting.contains(*setting) && ways.iter().any(|needs| needs.iter().all(open))
            })
            .map(|(setting, _)| *setting)
            .collect();
        if freed.is_empty() {
            break;
        }
        waiting.retain(|setting| !freed.contains(setting));
    }
    ring(&ways, &waiting)
}

/// From any that waits to one that it waits for, until one comes again.
fn ring(ways: &Ways, waiting: &BTreeSet<Setting>) -> Option<Vec<String>> {
    let mut seen: Vec<Setting> = Vec::new();
    let mut at = *waiting.first()?;
    while !seen.contains(&at) {
        seen.push(at);
        let stuck = |any: &&Vec<Setting>| any.iter().all(|one| waiting.contains(one));
        let needs = ways.get(&at)?.first()?.iter().find(stuck)?;
        at = *needs.first()?;
    }
    let ring = seen.iter().skip_while(|one| **one != at).chain([&at]);
    Some(ring.map(|(kind, variable, setting)| format!("{kind}.{variable} = {setting}")).collect())
}

fn ways(catalogue: &Catalogue) -> Ways<'_> {
    let mut ways = Ways::new();
    for kind in catalogue.kinds.values() {
        for step in &kind.moves {
            let needs = step.before.iter().filter_map(|literal| any_of(kind, literal));
            let needs: Vec<_> = needs.collect();
            for (name, setting) in &step.set {
                let Some((owner, variable)) = kind.set_by(name) else { continue };
                let brought = (owner, variable, setting.as_str());
                ways.entry(brought).or_default().push(needs.clone());
            }
        }
    }
    ways
}

/// The settings of which a condition asks any; a chain asks for several things and is left to the
/// planner.
fn any_of<'a>(kind: &'a Kind, literal: &'a Literal) -> Option<Vec<Setting<'a>>> {
    let (owner, variable) = literal.about(Some(kind))?;
    Some(literal.settings.iter().map(|one| (owner, variable, one.as_str())).collect())
}
