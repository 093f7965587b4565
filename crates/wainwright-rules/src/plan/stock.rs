//! What is in the shed: wire and fuses that cost nothing as far as they
//! reach. Not here: which of it fits (`choose`).

use super::choose::{Choice, Chooser};
use super::draft::{Guard, Section};
use wainwright_model::{FieldExt, Goods, Project};
use wainwright_reference::protection::Family;
use wainwright_units::WireSize;

/// Pieces of wire of one sort.
#[derive(Debug, Clone, PartialEq)]
struct Coil {
    size: WireSize,
    insulation: Option<String>,
    /// Length of each piece \[m\].
    pieces: Vec<f64>,
}

/// The shed.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Shed {
    coils: Vec<Coil>,
    fuses: Vec<(Family, f64, u32)>,
}

/// Most pieces of one row that are looked at.
const MOST_PIECES: u32 = 200;

impl Shed {
    /// The shed of a project.
    pub(super) fn new(project: &Project) -> Self {
        let mut shed = Self::default();
        for (_, row) in project.stock.iter() {
            let count = row.count.value().copied().unwrap_or(1).min(MOST_PIECES);
            match row.of.value() {
                Some(Goods::Wire) => {
                    let Some(size) = row.size.value() else {
                        continue;
                    };
                    let metres = row.length.value().map_or(0.0, |l| l.metres());
                    shed.coils.push(Coil {
                        size: *size,
                        insulation: row.insulation.value().cloned(),
                        pieces: vec![metres; count as usize],
                    });
                }
                Some(Goods::Fuse) => {
                    let family = row.family.value().and_then(|f| Family::from_id(f.as_str()));
                    let rating = row.rating.value().map(|r| r.amperes());
                    if let (Some(family), Some(rating)) = (family, rating) {
                        shed.fuses.push((family, rating, count));
                    }
                }
                _ => {}
            }
        }
        shed
    }

    /// Insulations of the wire in the shed.
    pub(super) fn classes(&self) -> Vec<String> {
        let mut classes: Vec<String> = self
            .coils
            .iter()
            .filter_map(|c| c.insulation.clone())
            .collect();
        classes.sort();
        classes.dedup();
        classes
    }

    /// Whether a fuse is at hand.
    pub(super) fn has_fuse(&self, family: Family, rating: f64) -> bool {
        self.fuses
            .iter()
            .any(|(f, r, count)| *f == family && (r - rating).abs() < 1e-6 && *count > 0)
    }

    /// Metres that must be bought for a section's wires.
    pub(super) fn to_buy(&self, chooser: &Chooser<'_>, section: &Section, choice: &Choice) -> f64 {
        let mut left = self.clone();
        let lengths = lengths(chooser, section);
        let all: f64 = lengths.iter().sum();
        all - left.cut(choice, &lengths)
    }

    /// Takes what a choice uses out of the shed.
    pub(super) fn take(&mut self, chooser: &Chooser<'_>, section: &Section, choice: &Choice) {
        self.cut(choice, &lengths(chooser, section));
        let Guard::Own(device) = &section.guard else {
            return;
        };
        if device.old {
            return;
        }
        let (Some(family), Some(rating)) = (choice.family, choice.rating) else {
            return;
        };
        let found = self
            .fuses
            .iter_mut()
            .find(|(f, r, count)| *f == family && (*r - rating).abs() < 1e-6 && *count > 0);
        if let Some((_, _, count)) = found {
            *count -= 1;
        }
    }

    /// Cuts these lengths from the pieces, the longest first, each from the
    /// shortest piece that is long enough; returns the metres that were found.
    fn cut(&mut self, choice: &Choice, lengths: &[f64]) -> f64 {
        let mut sorted = lengths.to_vec();
        sorted.sort_by(|a, b| b.total_cmp(a));
        let mut found = 0.0;
        for length in sorted {
            let fits = self
                .coils
                .iter_mut()
                .filter(|coil| coil.size == choice.size)
                .filter(|coil| coil.insulation.as_deref() == Some(choice.insulation.as_str()))
                .flat_map(|coil| coil.pieces.iter_mut())
                .filter(|piece| **piece >= length)
                .min_by(|a, b| a.total_cmp(b));
            if let Some(piece) = fits {
                *piece -= length;
                found += length;
            }
        }
        found
    }
}

fn lengths(chooser: &Chooser<'_>, section: &Section) -> Vec<f64> {
    let wires = section.wires.iter();
    wires
        .filter_map(|wire| chooser.draft.wires.get(*wire))
        .map(|wire| chooser.bench.metres(&wire.id).unwrap_or(0.0))
        .collect()
}
