//! What keeps each thing in its place: forces by the profile in force against what its fasteners hold. Not here:
//! the board or sheet they go through, which often gives way first (rules say so).

use super::aims::table;
use super::notes::{RoadNotes, usual};
use super::shelf::shelf;
use crate::known::{Assumption, Known};
use crate::result::road::{Aims, HoldForces, HoldResult, HoldStrength, RoadWanted};
use wainwright_engines::tie_down::{
    Lashing, Profile, Spare, bolt, forces, lag_withdrawal, screw_withdrawal, spare, strap_tension,
    tipping_acceleration,
};
use wainwright_model::{Body, FieldExt, Ground, Hold, Id, Kind, Project};
use wainwright_units::{Angle, Force, Length, Mass, Quantity, Ratio};

/// Angle of strap ends to the floor when nobody measures it: straight down, as over a chest with rings beside it \[°\]
/// (judgement).
const STRAP_DEGREES: f64 = 90.0;

/// From this mass on a fastening that nobody speaks of is worth a question \[kg\] (judgement).
const WORTH_A_QUESTION_KILOGRAMS: f64 = 2.0;

/// How every item whose mass is known is held. People hold themselves, parked.
pub(super) fn holds(
    project: &Project,
    masses: &[(Id, Mass)],
    aims: &Aims,
    notes: &mut RoadNotes,
) -> Vec<HoldResult> {
    let mut desk = Desk { aims, notes };
    masses
        .iter()
        .filter_map(|(id, mass)| {
            let item = project.items.get(id.as_str())?;
            let held = item.spec.kind() != Kind::Person && *mass > Mass::ZERO;
            held.then(|| desk.hold(id, &item.body, *mass)).flatten()
        })
        .collect()
}

struct Desk<'a> {
    aims: &'a Aims,
    notes: &'a mut RoadNotes,
}

impl Desk<'_> {
    fn hold(&mut self, id: &Id, body: &Body, mass: Mass) -> Option<HoldResult> {
        let profile = self.aims.hold_profile.as_ref()?.value;
        let against = self.aims.hold_against.as_ref()?.value;
        let all = forces(mass, &profile).ok()?;
        let most = self.aims.hold_most.unwrap_or(all.largest);
        let forces = HoldForces {
            asked: all.largest.min(most),
            all,
        };
        let tips = |base: Length, up: Length| tipping_acceleration(base, up * 0.5, 1.0).ok();
        let size = body.size.value();
        let how = body.held.value().copied();
        if how.is_none() && mass.kilograms() >= WORTH_A_QUESTION_KILOGRAMS {
            self.notes
                .lack(&["item", id.as_str(), "held"], RoadWanted::Hold);
        }
        Some(HoldResult {
            item: id.clone(),
            mass,
            against,
            forces,
            tips_lengthwise: size.and_then(|size| tips(size.along, size.up)),
            tips_sideways: size.and_then(|size| tips(size.across, size.up)),
            strength: how.and_then(|how| self.strength(id, body, how, mass, &forces, &profile)),
            how,
        })
    }

    fn strength(
        &mut self,
        id: &Id,
        body: &Body,
        how: Hold,
        mass: Mass,
        forces: &HoldForces,
        profile: &Profile,
    ) -> Option<HoldStrength> {
        match how {
            Hold::Loose => None,
            Hold::Bolted => {
                let count = self.count(id, body)?;
                let size = self.needed(id, "held_size", &body.held_size)?;
                let each = self.bolt(id, &size)?;
                let plain = Plain { each, count, size };
                plain.against(forces.asked, body, self.notes)
            }
            Hold::Lagged | Hold::Screwed => {
                let count = self.count(id, body)?;
                let size = self.needed(id, "held_size", &body.held_size)?;
                let ground = self.ground(id, body)?;
                let depth = self.needed(id, "held_depth", &body.held_depth)?;
                self.withdrawal(how, forces.asked, count, size, ground, depth)
            }
            Hold::Strapped => self.straps(id, body, mass, profile),
        }
    }

    fn count(&mut self, id: &Id, body: &Body) -> Option<Known<u32>> {
        let found = self.notes.given(&body.held_count);
        if found.is_none() {
            self.lack(id, "held_count", RoadWanted::Fasteners);
        }
        found.filter(|known| known.value > 0)
    }

    fn needed<Q: Quantity>(
        &mut self,
        id: &Id,
        name: &str,
        field: &wainwright_model::Field<Q>,
    ) -> Option<Known<Q>> {
        let found = self.notes.given(field);
        if found.is_none() {
            self.lack(id, name, RoadWanted::Fasteners);
        }
        found
    }

    /// Wood that screws go into; screws in metal have no formula here.
    fn ground(&mut self, id: &Id, body: &Body) -> Option<Known<Ground>> {
        let found = self.notes.given(&body.held_into);
        if found.is_none() {
            self.lack(id, "held_into", RoadWanted::Fasteners);
        }
        found.filter(|known| known.value != Ground::Frame)
    }

    /// The smaller of what a bolt bears along and across, of the weakest listed metal.
    fn bolt(&mut self, id: &Id, size: &Known<Length>) -> Option<Known<Force>> {
        let metal = shelf().bolt_metal?;
        let Some(row) = shelf().bolt(size.value) else {
            self.lack(id, "held_size", RoadWanted::Fasteners);
            return None;
        };
        let strength = bolt(row.value.area, &metal.value).ok()?;
        let shown = format!("{} N/mm²", metal.value.proof_newtons_per_mm2);
        self.notes
            .assume(&["item", id.as_str(), "held_size"], shown, metal.source);
        Some(usual(strength.proof.min(strength.shear)))
    }

    fn withdrawal(
        &mut self,
        how: Hold,
        asked: Force,
        count: Known<u32>,
        size: Known<Length>,
        ground: Known<Ground>,
        depth: Known<Length>,
    ) -> Option<HoldStrength> {
        let (each, derated) = pulled_out(how, &size, &ground, &depth)?;
        let found = spare(asked, each, count.value as usize).ok()?;
        Some(HoldStrength {
            each: Known::computed(each),
            count,
            size: Some(size),
            ground: Some(ground),
            depth: Some(depth),
            derated,
            ..HoldStrength::of(asked, found)
        })
    }

    /// Straps over the top hold by friction; the worse of braking and a swerve counts.
    fn straps(
        &mut self,
        id: &Id,
        body: &Body,
        mass: Mass,
        profile: &Profile,
    ) -> Option<HoldStrength> {
        let count = self.count(id, body)?;
        let Some(each) = self.notes.given(&body.strap_rating) else {
            self.lack(id, "strap_rating", RoadWanted::Rating);
            return None;
        };
        let friction = shelf().friction?;
        let path = ["item", id.as_str(), "held"];
        self.notes.assume(
            &path,
            format!("friction {}", friction.value),
            friction.source,
        );
        let (each, end) = self.strap(id, body, each);
        let tension = |along: f64, safety: f64| {
            strap_tension(&Lashing {
                mass,
                along,
                down: (1.0 - profile.upward).max(0.0),
                friction: friction.value,
                straps: count.value as usize,
                angle: Angle::from_degrees(STRAP_DEGREES),
                safety,
            })
        };
        let forward = tension(profile.forward, shelf().safety_forward?.value).ok()?;
        let sideways = tension(profile.sideways, shelf().safety_sideways?.value).ok()?;
        // Both ends of every strap pull down against what lifts beyond the weight.
        let lifted = mass.weight() * (profile.upward - 1.0).max(0.0);
        let upward = lifted * (0.5 / f64::from(count.value));
        let asked = forward.max(sideways).max(upward);
        let all = asked * f64::from(count.value);
        let found = if all.newtons() > 0.0 {
            spare(all, each.value, count.value as usize).ok()?
        } else {
            unneeded(each.value, count.value)
        };
        Some(HoldStrength {
            each,
            count,
            size: end.as_ref().map(|end| end.size.clone()),
            ground: end.as_ref().map(|end| end.ground.clone()),
            depth: end.as_ref().and_then(|end| end.depth.clone()),
            derated: end.and_then(|end| end.derated),
            ..HoldStrength::of(all, found)
        })
    }

    /// A strap is as strong as the fastener at each of its ends, where that is said; the end is handed back when it
    /// is the weaker of the two.
    fn strap(
        &mut self,
        id: &Id,
        body: &Body,
        strap: Known<Force>,
    ) -> (Known<Force>, Option<StrapEnd>) {
        let Some(end) = self.strap_end(id, body) else {
            return (strap, None);
        };
        if end.each.value < strap.value {
            (end.each.clone(), Some(end))
        } else {
            (strap, None)
        }
    }

    fn strap_end(&mut self, id: &Id, body: &Body) -> Option<StrapEnd> {
        let (size, ground) = (
            self.notes.given(&body.held_size)?,
            self.notes.given(&body.held_into)?,
        );
        if ground.value == Ground::Frame {
            return Some(StrapEnd {
                each: self.bolt(id, &size)?,
                size,
                ground,
                depth: None,
                derated: None,
            });
        }
        let depth = self.notes.given(&body.held_depth)?;
        let (each, derated) = pulled_out(Hold::Screwed, &size, &ground, &depth)?;
        Some(StrapEnd {
            each: Known::computed(each),
            depth: Some(depth),
            size,
            ground,
            derated,
        })
    }

    fn lack(&mut self, id: &Id, field: &str, wanted: RoadWanted) {
        self.notes.lack(&["item", id.as_str(), field], wanted);
    }
}

/// What holds each end of a strap.
struct StrapEnd {
    each: Known<Force>,
    size: Known<Length>,
    ground: Known<Ground>,
    depth: Option<Known<Length>>,
    derated: Option<Known<Ratio>>,
}

/// What one screw in wood bears along its length, and the share of the formula that counts in plywood.
fn pulled_out(
    how: Hold,
    size: &Known<Length>,
    ground: &Known<Ground>,
    depth: &Known<Length>,
) -> Option<(Force, Option<Known<Ratio>>)> {
    let gravity = shelf().wood(ground.value)?;
    let formula = match how {
        Hold::Lagged => lag_withdrawal,
        _ => screw_withdrawal,
    };
    let whole = formula(gravity.value, size.value, depth.value).ok()?;
    let derated = shelf().plywood.filter(|_| ground.value == Ground::Plywood);
    let each = derated.map_or(whole, |row| whole * row.value);
    Some((each, derated.map(table)))
}

/// Fasteners that pull straight, all alike.
struct Plain {
    each: Known<Force>,
    count: Known<u32>,
    size: Known<Length>,
}

impl Plain {
    fn against(self, asked: Force, body: &Body, notes: &RoadNotes) -> Option<HoldStrength> {
        let found = spare(asked, self.each.value, self.count.value as usize).ok()?;
        Some(HoldStrength {
            each: self.each,
            count: self.count,
            size: Some(self.size),
            ground: notes.given(&body.held_into),
            ..HoldStrength::of(asked, found)
        })
    }
}

impl HoldStrength {
    /// The sums, everything else still open.
    fn of(asked: Force, found: Spare) -> Self {
        Self {
            each: Known::assumed(Force::ZERO, Assumption::LeftOut),
            count: Known::assumed(0, Assumption::LeftOut),
            size: None,
            ground: None,
            depth: None,
            derated: None,
            held: found.held,
            asked,
            left: found.left,
            used: found.used,
        }
    }
}

/// Friction alone is enough.
fn unneeded(each: Force, count: u32) -> Spare {
    let held = each * f64::from(count);
    Spare {
        held,
        left: held,
        used: Ratio::ZERO,
    }
}
