//! Working of the length of a wire by its route.

use super::note::Notebook;
use super::{Desk, Input};
use crate::known::Basis;
use crate::result::Leg;
use wainwright_units::{Quantity, Ratio};

impl Desk<'_> {
    /// Length of the legs, and what is added for bends, loop and ends.
    pub(super) fn length(&self, notes: &mut Notebook, wire: &str) -> Option<()> {
        let route = self.assessment.routing.wire(wire)?.route.as_ref()?;
        let legs = route.legs.iter().map(|leg| self.leg(leg)).collect();
        notes.step("l", "l = sum of the lengths of all legs", route.bare, legs);
        let slack = &route.slack;
        let share = slack.bends.value.metres() / route.bare.metres().max(f64::MIN_POSITIVE);
        let inputs = vec![
            notes.computed("l", route.bare),
            notes.input("s", Ratio::from_fraction(share), slack.bends.basis.clone()),
        ];
        notes.step("b", "b = s · l", slack.bends.value, inputs);
        let mut inputs = vec![
            notes.computed("l", route.bare),
            notes.computed("b", slack.bends.value),
            notes.known("d", &slack.drop_loop),
        ];
        let ends = slack.terminations.as_ref();
        inputs.extend(ends.map(|ends| notes.known("e", ends)));
        let formula = match ends {
            Some(_) => "L = l + b + d + e",
            None => "L = l + b + d",
        };
        notes.step("L", formula, route.cut, inputs);
        Some(())
    }

    fn leg(&self, leg: &Leg) -> Input {
        let trunk = leg.trunk.as_ref().map(ToString::to_string);
        Input {
            symbol: trunk.unwrap_or_else(|| "off-trunk".to_owned()),
            value: leg.length.show(self.system),
            basis: Basis::Computed,
        }
    }
}
