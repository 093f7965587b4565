//! The cheapest choices that keep every drop: the ladders of all sections,
//! the ways to all loads, handed to the sizing engine. Not here: which
//! choices pass by themselves (`choose`).

use super::choose::{Choice, Chooser};
use super::draft::Guard;
use super::limits;
use super::measure::DropPath;
use std::collections::BTreeSet;
use wainwright_analysis::sizing::{DropLimit, Offer, SizedPart, cheapest};
use wainwright_reference::limit::RatioLimit;
use wainwright_reference::plan::metal_density;
use wainwright_units::{Current, Mass, Ratio, Voltage};

/// Most times limits that cannot be kept are eased.
const MOST_EASED: usize = 12;
/// Each time to this many times what was allowed, and so many volts more.
const EASED: (f64, f64) = (1.4, 0.05);

impl Chooser<'_> {
    /// The place on each ladder, and what nothing costs less than. Drops that
    /// cannot be kept are eased step by step, ratios of fuses given up.
    pub(super) fn places(&self, ladders: &[Vec<Choice>]) -> (Vec<usize>, f64) {
        let paths = &self.measured.paths;
        let mut limits: Vec<DropLimit> = paths.iter().map(|path| limit(path, ladders)).collect();
        let mut parts = self.parts(ladders);
        for _ in 0..MOST_EASED {
            match cheapest(&parts, &limits) {
                Ok(found) => return (found.chosen, found.lower_bound),
                Err(why) if !why.limits.is_empty() => {
                    for eased in &why.limits {
                        if let Some(limit) = limits.get_mut(*eased) {
                            let (times, more) = EASED;
                            limit.most = limit.most * times + Voltage::from_volts(more);
                        }
                    }
                }
                Err(why) => {
                    for part in parts.iter_mut().filter(|_| why.parts.is_empty()) {
                        part.upstream_ratio = Ratio::from_fraction(0.0);
                    }
                    for part in &why.parts {
                        if let Some(part) = parts.get_mut(*part) {
                            part.upstream_ratio = Ratio::from_fraction(0.0);
                        }
                    }
                }
            }
        }
        let bound = ladders
            .iter()
            .filter_map(|l| l.first())
            .map(|choice| choice.cost)
            .sum();
        (vec![0; ladders.len()], bound)
    }

    /// Every section with its ladder; ways of new blocks want a feed fuse
    /// that is slower than theirs.
    fn parts(&self, ladders: &[Vec<Choice>]) -> Vec<SizedPart> {
        let density = metal_density().map_or(0.0, |row| row.value);
        let ratio = limits::share(RatioLimit::SelectivityBlade, 2.0);
        let sections = self.draft.sections.iter().zip(ladders).enumerate();
        sections
            .map(|(index, (section, ladder))| {
                let parent = self.feed_of(index);
                let metres: f64 = section
                    .wires
                    .iter()
                    .filter_map(|wire| self.bench.metres(&self.draft.wires.get(*wire)?.id))
                    .sum();
                let offer = |choice: &Choice| Offer {
                    cost: choice.cost,
                    mass: Mass::from_kilograms(density * metres * limits::area(choice.size) * 1e-6),
                    drop: Voltage::from_volts(self.worst_drop(index, choice)),
                    rating: choice.rating.map(Current::from_amperes),
                };
                let mut offers: Vec<Offer> = ladder.iter().map(offer).collect();
                if offers.is_empty() {
                    offers.push(Offer {
                        cost: 0.0,
                        mass: Mass::ZERO,
                        drop: Voltage::ZERO,
                        rating: None,
                    });
                }
                SizedPart {
                    parent,
                    offers,
                    upstream_ratio: Ratio::from_fraction(if parent.is_some() {
                        ratio
                    } else {
                        0.0
                    }),
                }
            })
            .collect()
    }

    /// The section that feeds the block a section starts at, where its fuse
    /// may still be chosen.
    fn feed_of(&self, section: usize) -> Option<usize> {
        let device = self.draft.device(section).filter(|device| device.way > 0)?;
        let inlet = (device.item.clone(), "in".to_string());
        let feed = self
            .draft
            .wires
            .iter()
            .find(|wire| wire.to == inlet)?
            .section;
        match &self.draft.sections.get(feed)?.guard {
            Guard::Own(own) if own.fixed.is_none() => Some(feed),
            _ => None,
        }
    }

    /// Most that is lost in a section on the way to any load \[V\].
    fn worst_drop(&self, section: usize, choice: &Choice) -> f64 {
        let paths = self.measured.paths.iter();
        paths
            .map(|path| path.in_section(section, choice))
            .fold(0.0, f64::max)
    }
}

fn limit(path: &DropPath, ladders: &[Vec<Choice>]) -> DropLimit {
    let parts: BTreeSet<usize> = path
        .wires
        .iter()
        .map(|wire| wire.section)
        .filter(|section| {
            ladders
                .get(*section)
                .is_some_and(|ladder| !ladder.is_empty())
        })
        .collect();
    DropLimit {
        parts: parts.into_iter().collect(),
        most: Voltage::from_volts((path.most - path.fixed).max(0.0)),
    }
}
