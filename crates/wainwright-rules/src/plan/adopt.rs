//! Items of the file that have no wire yet and are used in the plan: a fuse
//! in the shed that is named for its place, a bus bar, a bank. Not here:
//! whether its rating fits, which sizing finds out.

use super::desk::Desk;
use super::draft::{Device, Guard};
use super::survey::tokens;
use std::collections::BTreeSet;
use wainwright_model::{FieldExt, Kind, Reset, Spec};
use wainwright_reference::protection::Family;

/// Words that say what a thing is and not what it is for.
const WORDLESS: [&str; 11] = [
    "fuse", "breaker", "switch", "bus", "bar", "the", "of", "for", "and", "line", "feed",
];

impl Desk<'_> {
    /// An unused item of a kind whose name shares most words with these.
    pub(super) fn adopt(&mut self, kinds: &[Kind], words: &str) -> Option<String> {
        let wanted = meaning(tokens(words));
        let mut best: Option<(usize, String)> = None;
        for kind in kinds {
            for (id, _) in self.survey.of(*kind) {
                if !self.is_free(id) {
                    continue;
                }
                let own = meaning(self.survey.tokens(id));
                let common = own.intersection(&wanted).count();
                if common > 0 && best.as_ref().is_none_or(|(most, _)| common > *most) {
                    best = Some((common, id.to_string()));
                }
            }
        }
        let (_, id) = best?;
        self.draft.adopted.push(id.clone());
        Some(id)
    }

    /// Whether an item of the file has no wire and is not taken or ruled out.
    pub(super) fn is_free(&self, id: &str) -> bool {
        self.survey.is_untouched(id)
            && !self.banned.contains(id)
            && !self.draft.adopted.iter().any(|other| other == id)
    }

    /// A fuse for a place: one of the file that is named for it, else a new
    /// one of these families.
    pub(super) fn fuse(&mut self, words: &str, families: Vec<Family>) -> Guard {
        let found = self.adopt(&[Kind::Fuse, Kind::Breaker], words);
        let device = match found {
            Some(id) => self.old_device(id, families),
            None => Device {
                item: String::new(),
                way: 0,
                families,
                fixed: None,
                old: false,
                barred: Vec::new(),
                marked: None,
            },
        };
        Guard::Own(device)
    }

    /// The device that a fuse of the file is.
    pub(super) fn old_device(&self, id: String, families: Vec<Family>) -> Device {
        let item = self.survey.project.items.get(&id);
        let family = match item.map(|item| &item.spec) {
            Some(Spec::Fuse(fuse)) => fuse
                .family
                .value()
                .and_then(|f| Family::from_id(f.as_str())),
            Some(Spec::Breaker(_)) => Some(Family::Breaker),
            _ => None,
        };
        Device {
            fixed: self.survey.rating(&id),
            item: id,
            way: 0,
            families: family.map_or(families, |family| vec![family]),
            old: true,
            barred: Vec::new(),
            marked: None,
        }
    }

    /// Breakers that close again by themselves are never taken.
    pub(super) fn never(&self) -> Vec<String> {
        let breakers = self.survey.of(Kind::Breaker).into_iter();
        breakers
            .filter(|(_, item)| match &item.spec {
                Spec::Breaker(breaker) => breaker
                    .reset
                    .value()
                    .is_some_and(|reset| *reset != Reset::Manual),
                _ => false,
            })
            .map(|(id, _)| id.to_string())
            .collect()
    }
}

fn meaning(mut words: BTreeSet<String>) -> BTreeSet<String> {
    for word in WORDLESS {
        words.remove(word);
    }
    words
}
