//! Workings of damping, of the zone an item may stand in, and of what holds it. Loads are in `road`.

use super::note::Notebook;
use super::road::{RoadDesk, plain, plain_known};
use crate::known::Basis;
use crate::result::road::{HoldResult, HoldStrength};
use crate::road::allowed_zone;
use wainwright_model::{Ground, Hold, Project};
use wainwright_units::{Length, Mass, STANDARD_GRAVITY};

impl RoadDesk<'_> {
    /// Damping of a state at the planned or at the test speed.
    pub(super) fn damping(&self, notes: &mut Notebook, index: usize, planned: bool) -> Option<()> {
        let state = self.state(index)?;
        let mut found = self.road.sway.iter();
        let sway = found.find(|sway| sway.state == index && sway.planned == planned)?;
        let (own, car) = (&self.road.trailer, &self.road.vehicle);
        let inputs = vec![
            notes.computed("m2", state.mass),
            plain("I2", inertia(state.yaw_inertia_kg_m2)),
        ];
        notes.step("k", "k = √(I2 / m2)", state.yaw_radius, inputs);
        let (front, rear) = (car.front_axle.as_ref()?, car.rear_axle.as_ref()?);
        let mass = if front.is_assumed() {
            front.basis.clone()
        } else {
            Basis::Computed
        };
        let car_inertia = car.yaw_inertia_kg_m2.as_ref()?;
        let inputs = vec![
            notes.computed("U", sway.speed),
            notes.computed("m2", state.mass),
            plain("I2", inertia(state.yaw_inertia_kg_m2)),
            notes.computed("e", state.centre.x),
            notes.known("L", own.ball_to_axle.as_ref()?),
            notes.input("m1", front.value + rear.value, mass),
            super::Input {
                symbol: "I1".to_owned(),
                value: inertia(car_inertia.value),
                basis: car_inertia.basis.clone(),
            },
            notes.known("l", car.wheelbase.as_ref()?),
            notes.known("o", car.ball_overhang.as_ref()?),
        ];
        let formula = "ζ = −Re λ / |λ|, λ the swing that dies out worst at U: vehicle m1, I1, l, o and trailer \
                       m2, I2, e, L, tyres gripping in proportion to their load half a metre late";
        notes.step("ζ", formula, sway.damping?, inputs);
        Some(())
    }

    /// Where an item may stand along the trailer.
    pub(super) fn zone(&self, notes: &mut Notebook, project: &Project, item: &str) -> Option<()> {
        let zone = allowed_zone(project, self.road, item)?;
        let (own, aims) = (&self.road.trailer, self.road.aims.tongue.as_ref()?);
        let (nearest, furthest) = zone.along_anywhere?;
        let length = own.ball_to_axle.as_ref()?;
        let front = own.ball_to_front.as_ref()?;
        let size = project.items.get(item)?.body.size.as_ref();
        let half = size.map_or(Length::ZERO, |size| size.value.along * 0.5);
        let mass = Mass::from_kilograms(zone.tongue_lost_per_metre * length.value.metres());
        let behind = |corner: Length| front.value + half + corner;
        let inputs = |limit, notes: &Notebook| {
            vec![
                notes.known("s", limit),
                notes.known("L", length),
                notes.computed("m", mass),
            ]
        };
        let formula = "x1 = L · (1 − s + the most that T − s · W of the rest is in any state / m)";
        let high = inputs(&aims.high, notes);
        notes.step("x1", formula, behind(nearest), high);
        let formula = "x2 = L · (1 − s + the least that T − s · W of the rest is in any state / m)";
        let low = inputs(&aims.low, notes);
        notes.step("x2", formula, behind(furthest), low);
        let corner = [
            notes.known("b", front),
            notes.computed("h", half),
            notes.computed("x1", behind(nearest)),
        ];
        notes.step("a1", "a1 = x1 − b − h", nearest, corner.to_vec());
        let corner = [
            notes.known("b", front),
            notes.computed("h", half),
            notes.computed("x2", behind(furthest)),
        ];
        notes.step("a2", "a2 = x2 − b − h", furthest, corner.to_vec());
        Some(())
    }

    /// Force on an item against what holds it.
    pub(super) fn tie_down(&self, notes: &mut Notebook, item: &str) -> Option<()> {
        let hold = self.road.hold(item)?;
        let profile = self.road.aims.hold_profile.as_ref()?;
        let worst = [
            profile.value.forward,
            profile.value.rearward,
            profile.value.sideways,
            profile.value.upward,
        ];
        let worst = worst.into_iter().fold(0.0, f64::max);
        let inputs = vec![
            super::Input {
                symbol: "c".to_owned(),
                value: worst.to_string(),
                basis: profile.basis.clone(),
            },
            notes.computed("m", hold.mass),
            plain("g", format!("{STANDARD_GRAVITY} m/s²")),
        ];
        let formula = match self.road.aims.hold_most {
            Some(_) => "F = c · m · g, but no more than the rule's most",
            None => "F = c · m · g",
        };
        notes.step("F", formula, hold.forces.asked, inputs);
        let Some(strength) = &hold.strength else {
            return Some(());
        };
        strength_steps(notes, hold, strength);
        Some(())
    }
}

fn strength_steps(notes: &mut Notebook, hold: &HoldResult, strength: &HoldStrength) {
    let ground = strength.ground.as_ref().map(|known| known.value);
    let strapped = hold.how == Some(Hold::Strapped);
    let formula = match (hold.how, ground) {
        (Some(Hold::Lagged), _) => Some(
            "R1 = 1800 lbf/in · G^1.5 · D^0.75 · t, G the density of the wood over that of water, D in inches",
        ),
        (Some(Hold::Screwed), _) => Some(
            "R1 = 2850 lbf/in · G² · D · t, G the density of the wood over that of water, D in inches",
        ),
        (Some(Hold::Bolted), _) | (Some(Hold::Strapped), Some(Ground::Frame)) => Some(
            "R1 = the smaller of proof stress and 0.6 · breaking stress, times the stress area of D",
        ),
        (Some(Hold::Strapped), Some(_)) => {
            Some("R1 = 2850 lbf/in · G² · D · t of the screw at each end of a strap, D in inches")
        }
        _ => None,
    };
    if let Some(formula) = formula {
        let mut inputs = Vec::new();
        inputs.extend(strength.size.as_ref().map(|size| notes.known("D", size)));
        inputs.extend(strength.depth.as_ref().map(|depth| notes.known("t", depth)));
        inputs.extend(
            strength
                .derated
                .as_ref()
                .map(|share| notes.known("kp", share)),
        );
        notes.step("R1", formula, strength.each.value, inputs);
    }
    let inputs = vec![
        plain_known("n", &strength.count),
        notes.known("R1", &strength.each),
    ];
    notes.step("R", "R = n · R1", strength.held, inputs);
    let mut asked = notes.computed("F", strength.asked);
    let formula = if strapped {
        asked.symbol = "Fs".to_owned();
        "M = R − Fs, Fs the pull with which straps press the thing down hard enough"
    } else {
        "M = R − F"
    };
    let inputs = vec![notes.computed("R", strength.held), asked];
    notes.step("M", formula, strength.left, inputs);
}

fn inertia(kg_m2: f64) -> String {
    format!("{kg_m2:.0} kg·m²")
}
