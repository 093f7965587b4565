//! Switches for loads: single ones named for a load, then ways of banks.
//! Not here: the fuse ways that feed them (`panel`).

use super::branches::Taker;
use super::desk::Desk;
use super::draft::{End, end};
use super::limits;
use wainwright_model::{FieldExt, Kind, Spec};
use wainwright_reference::colour::ColourRole;

/// A switch for a load: where it is fed and where the load hangs.
pub(super) type Switched = (End, End);

impl Desk<'_> {
    /// A switch for each load that may have one: single switches named for
    /// it, then ways of banks, lights first.
    pub(super) fn assign_switches(&mut self, takers: &[Taker]) -> Vec<Option<Switched>> {
        let mut found: Vec<Option<Switched>> = vec![None; takers.len()];
        for (taker, slot) in takers.iter().zip(&mut found) {
            if !taker.loose.0 || !taker.switchable || taker.plus.0 != taker.id {
                continue;
            }
            let words = format!("{} {}", taker.id, self.survey.label(&taker.id));
            if let Some(switch) = self.adopt_switch(&words, taker.amps) {
                *slot = Some((end(&switch, "in"), end(&switch, "out")));
            }
        }
        let mut free: Vec<(Switched, f64)> = self.free_switches();
        free.reverse();
        let mut order: Vec<usize> = (0..takers.len())
            .filter(|index| {
                takers[*index].loose.0 && takers[*index].switchable && found[*index].is_none()
            })
            .filter(|index| takers[*index].plus.0 == takers[*index].id)
            .collect();
        order.sort_by_key(|index| (takers[*index].role != ColourRole::Lighting, *index));
        let mut used: Vec<String> = Vec::new();
        for index in order {
            let Some(place) = free
                .iter()
                .rposition(|(_, most)| takers[index].amps * limits::LOW <= *most)
            else {
                continue;
            };
            let (switched, _) = free.remove(place);
            if !used.contains(&switched.0.0) {
                used.push(switched.0.0.clone());
            }
            found[index] = Some(switched);
        }
        for bank in used {
            let label = self.survey.label(&bank);
            self.account.decide(
                format!("Each switch of {label} is fed from a fuse way of its own."),
                "Jumpers from switch to switch would carry the sum of all circuits behind them.",
                "33 CFR 183.455: protection at the source of power",
                &[&bank],
            );
        }
        found
    }

    /// A single panel switch named for a load that bears its current.
    fn adopt_switch(&mut self, words: &str, amps: f64) -> Option<String> {
        let panel = self.survey.of(Kind::Switch).into_iter().any(|(id, item)| {
            let Spec::Switch(switch) = &item.spec else {
                return false;
            };
            let most = switch.rating.value().map_or(f64::INFINITY, |r| r.amperes());
            self.is_free(id) && most >= amps * limits::LOW
        });
        let found = panel
            .then(|| self.adopt(&[Kind::Switch], words))
            .flatten()?;
        let fits = match self.survey.project.items.get(&found).map(|item| &item.spec) {
            Some(Spec::Switch(switch)) => switch
                .rating
                .value()
                .is_none_or(|most| most.amperes() >= amps * limits::LOW),
            _ => false,
        };
        if !fits {
            self.draft.adopted.retain(|id| *id != found);
        }
        fits.then_some(found)
    }

    /// Switches of banks without any wire, in order, with what they bear \[A\].
    fn free_switches(&self) -> Vec<(Switched, f64)> {
        let mut free = Vec::new();
        for (id, item) in self.survey.of(Kind::SwitchBank) {
            let Spec::SwitchBank(bank) = &item.spec else {
                continue;
            };
            let volts = bank.voltage.value().map_or(f64::INFINITY, |v| v.volts());
            if self.banned.contains(id) || volts < self.highest {
                continue;
            }
            let rating = bank.rating.value().map_or(USUAL_SWITCH, |r| r.amperes());
            let off = bank.open.value().cloned().unwrap_or_default();
            for way in 1..=item.spec.ways().unwrap_or(0) {
                let (inlet, outlet) = (format!("in{way}"), format!("out{way}"));
                let loose = self.survey.is_loose(id, &inlet) && self.survey.is_loose(id, &outlet);
                let own = bank
                    .fuses
                    .value()
                    .and_then(|f| f.get(way as usize - 1).copied().flatten());
                let most = own.map_or(rating, |fuse| {
                    fuse.amperes().min(rating) / limits::FUSE_ROOM
                });
                if loose && !off.contains(&way) {
                    free.push(((end(id, &inlet), end(id, &outlet)), most));
                }
            }
        }
        free
    }
}

/// Current of a switch that does not say \[A\]: judgement.
const USUAL_SWITCH: f64 = 10.0;
