//! Working of the voltage that reaches a piece of gear: every part of the way
//! there and back with what it loses.

use super::note::Notebook;
use super::{Desk, Input};
use crate::known::Basis;
use crate::path::{PathStep, path};
use wainwright_units::{Quantity, Voltage};

impl Desk<'_> {
    /// Drop between battery terminals and gear terminals.
    pub(super) fn gear_drop(&self, notes: &mut Notebook, item: &str, state: usize) -> Option<()> {
        let takes = |c: &&crate::result::ConsumerResult| {
            c.item == *item && c.states.get(state).is_some_and(|s| s.drop.is_some())
        };
        let gear = self.assessment.consumers.iter().find(takes)?;
        let now = gear.states.get(state)?;
        let drop = now.drop?;
        let steps = path(self.circuit, self.assessment, item, state);
        let inputs: Vec<Input> = steps.iter().map(|step| self.part(step)).collect();
        notes.step(
            "U",
            "U = sum of the voltages lost on the way there and back",
            drop,
            inputs,
        );
        let system = self.system_volts()?;
        let inputs = vec![notes.computed("U", drop), notes.known("Un", system)];
        notes.step("u", "u = U / Un", now.drop_share?, inputs);
        Some(())
    }

    fn part(&self, step: &PathStep) -> Input {
        let lost: Voltage = step.lost;
        Input {
            symbol: step.name.clone(),
            value: lost.show(self.system),
            basis: Basis::Computed,
        }
    }
}
