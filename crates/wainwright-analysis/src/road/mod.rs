//! The road study: from the project to loads, states, margins, damping, tie-down and weighings. A pure function, and
//! quick enough to be run at every move of a hand.
//!
//! Not here: judgement and words for people; where wires run.

mod aims;
mod better;
mod crowd;
mod hold;
mod loads;
mod mover;
mod notes;
mod outcome;
mod ratings;
mod shelf;
mod states;
mod steady;
mod trailer;
mod vehicle;
mod weighed;
mod zone;

pub use better::{LayoutOptions, NoLayout, better_layout};
pub use mover::fuel_compared;
pub use wainwright_engines::placing::Effort;
pub use zone::allowed_zone;

use crate::frame::BoxPlace;
use crate::result::road::{Aims, RoadResult, RoadState, RoadStateKind, RoadTrailer, RoadVehicle};
use loads::Aboard;
use notes::RoadNotes;
use outcome::Outfit;
use wainwright_engines::balance::{Chassis, Load, Statics, statics};
use wainwright_engines::refusal::Refusal;
use wainwright_model::{Id, Kind, Project, Spot};
use wainwright_units::{Mass, Ratio};

/// The road study of a project. Total: an unfinished project gives what it can and says what is missing.
pub fn study(project: &Project) -> RoadResult {
    road_with(project, &[])
}

/// The same with some items at other spots than the text has them, as while one is dragged.
pub fn road_with(project: &Project, moves: &[(Id, Spot)]) -> RoadResult {
    let lowered = lower(project, moves);
    let mut desk = Desk {
        project,
        moves,
        lowered,
        found: RoadResult::default(),
    };
    desk.figures();
    if let Err(refusal) = desk.loads() {
        desk.found.refused.push(refusal.to_string());
    }
    desk.finish()
}

/// A project as the engines see it.
pub(crate) struct Lowered {
    pub(crate) notes: RoadNotes,
    pub(crate) trailer: RoadTrailer,
    pub(crate) vehicle: RoadVehicle,
    pub(crate) aims: Aims,
    pub(crate) chassis: Option<Chassis>,
    pub(crate) shell: Option<Load>,
    pub(crate) place: Option<BoxPlace>,
    aboard: Aboard,
}

/// Lowers a project, some items at other spots.
pub(crate) fn lower(project: &Project, moves: &[(Id, Spot)]) -> Lowered {
    let mut notes = RoadNotes::new(project);
    let advice = aims::advice(project, &mut notes);
    let trailer = trailer::trailer(project, advice.value, &mut notes);
    let vehicle = vehicle::vehicle(project, &mut notes);
    let aims = aims::aims(project, advice, &mut notes);
    let chassis = trailer::chassis(&trailer, &mut notes);
    let place = trailer::place(&trailer);
    let aboard = loads::aboard(
        project,
        &trailer,
        chassis.as_ref(),
        place.as_ref(),
        moves,
        &mut notes,
    );
    Lowered {
        shell: trailer::shell(&trailer),
        notes,
        trailer,
        vehicle,
        aims,
        chassis,
        place,
        aboard,
    }
}

struct Desk<'a> {
    project: &'a Project,
    moves: &'a [(Id, Spot)],
    lowered: Lowered,
    found: RoadResult,
}

impl Desk<'_> {
    /// What needs no loads: ratings, tie-down, what is in the way.
    fn figures(&mut self) {
        let own = &mut self.lowered;
        self.found.begun = begun(self.project, &own.notes);
        self.found.ratings =
            ratings::ratings(self.project, &own.trailer, &own.vehicle, &mut own.notes);
        self.found.holds = hold::holds(self.project, &own.aboard.masses, &own.aims, &mut own.notes);
        self.found.departure = steady::departure(self.project, &own.trailer, &own.notes);
        self.found.frontal = mover::frontal(self.project, &own.trailer, &own.notes);
        let crowd = crowd::crowd(self.project, &own.trailer, self.moves);
        self.found.overlaps = crowd.overlaps;
        self.found.outside = crowd.outside;
        self.found.blocked = crowd.blocked;
        let length = own.trailer.ball_to_axle.as_ref().map(|known| known.value);
        self.found.weighings =
            weighed::weighings(self.project, length, &own.aboard, &mut own.notes);
    }

    /// States and what follows from them.
    fn loads(&mut self) -> Result<(), Refusal> {
        let (Some(chassis), Some(shell)) = (self.lowered.chassis, self.lowered.shell) else {
            return Ok(());
        };
        let masses = states::masses(&shell, &self.lowered.aboard);
        let corners = states::corners(&chassis, &masses)?;
        let fills: Vec<Statics> = corners.cases.iter().map(|case| case.statics).collect();
        let outfit = self.outfit(chassis, &shell);
        let bare = statics(&chassis, &[shell])?;
        let mut found = vec![outfit.state(RoadStateKind::Bare, Vec::new(), &bare)?];
        for case in &corners.cases {
            let levels = states::levels(&self.lowered.aboard, &case.choice);
            found.push(outfit.state(RoadStateKind::Fills, levels, &case.statics)?);
        }
        let weighed = self.weighed_states(&outfit, &shell, &mut found)?;
        for (result, state) in self.found.weighings.iter_mut().zip(weighed) {
            result.state = state;
        }
        self.found.states = found;
        self.found.every_corner = corners.every_corner;
        self.found.worst = states::worst(&fills, 1);
        self.found.shell_found = weighed::shell_found(
            self.project,
            &self.found.weighings,
            &self.lowered.aboard,
            chassis.coupling_to_axle,
            Some(&shell),
        );
        self.sway(&chassis)
    }

    /// The state of each weighing of which all that was aboard is known; its index for each weighing.
    fn weighed_states(
        &self,
        outfit: &Outfit,
        shell: &Load,
        found: &mut Vec<RoadState>,
    ) -> Result<Vec<Option<usize>>, Refusal> {
        let mut indices = Vec::new();
        for result in &self.found.weighings {
            let weighing = self.project.weighings.get(result.id.as_str());
            let Some(weighing) = weighing.filter(|_| result.unknown_aboard.is_empty()) else {
                indices.push(None);
                continue;
            };
            let mut loads = weighed::at(weighing, &self.lowered.aboard).loads;
            loads.push(*shell);
            let kind = RoadStateKind::Weighed(result.id.clone());
            indices.push(Some(found.len()));
            found.push(outfit.state(kind, Vec::new(), &statics(&outfit.chassis, &loads)?)?);
        }
        Ok(indices)
    }

    fn sway(&mut self, chassis: &Chassis) -> Result<(), Refusal> {
        let Some(worst) = self.found.worst else {
            return Ok(());
        };
        let sides = steady::Sides {
            chassis,
            trailer: &self.lowered.trailer,
            vehicle: &self.lowered.vehicle,
            aims: &self.lowered.aims,
        };
        let states = &self.found.states;
        self.found.sway = steady::sway(&sides, states, states.first(), &worst)?;
        Ok(())
    }

    fn outfit(&self, chassis: Chassis, shell: &Load) -> Outfit {
        let own = &self.lowered;
        let outfit = Outfit::new(
            chassis,
            shell,
            &own.trailer,
            &own.vehicle,
            own.aims.tongue.clone(),
            self.found.ratings.clone(),
        );
        let people = own.aboard.loads.iter().filter(|load| load.parked_only);
        let placed = people.map(|load| Load {
            mass: load.most,
            centre: load.centre,
            extent: load.extent,
        });
        let everybody = own.aboard.masses.iter().filter(|(id, _)| {
            let item = self.project.items.get(id.as_str());
            item.is_some_and(|item| item.spec.kind() == Kind::Person)
        });
        let everybody: Vec<Mass> = everybody.map(|(_, mass)| *mass).collect();
        let rear = own.place.zip(own.trailer.inside_length.as_ref());
        let rear = rear.map(|(place, length)| place.ball_to_front + length.value);
        outfit.with_people(placed.collect(), &everybody, rear)
    }

    fn finish(mut self) -> RoadResult {
        let heaviest = self.found.worst.and_then(|worst| {
            self.found
                .states
                .get(worst.most_mass)
                .map(|state| state.mass)
        });
        let own = self.lowered;
        let bare = own.shell.map(|load| load.mass);
        self.found.d_value = mover::d_value_check(self.project, heaviest, &own.notes);
        self.found.brakes = mover::brakes(self.project, &own.aims, heaviest, bare);
        self.found.fuel = heaviest
            .and_then(|mass| mover::fuel_result(&own.trailer, &own.vehicle, &own.aims, mass));
        self.found.front_share = front_share(&own.aboard, own.place, &own.trailer);
        let mut unsettled = own.aboard.unsettled;
        loads::add_shares(&mut unsettled, heaviest.unwrap_or(Mass::ZERO));
        let (assumptions, missing) = own.notes.into_parts();
        RoadResult {
            trailer: own.trailer,
            vehicle: own.vehicle,
            aims: own.aims,
            loads: own.aboard.loads,
            fills: own.aboard.fills,
            unsettled,
            layers: own
                .aboard
                .layers
                .into_iter()
                .map(|(layer, _)| layer)
                .collect(),
            assumptions,
            missing,
            ..self.found
        }
    }
}

/// Whether the person has begun with weights and towing: sizes of the box alone, or spots that only serve the wires,
/// are no beginning.
fn begun(project: &Project, notes: &RoadNotes) -> bool {
    let own = &project.trailer;
    let towed = own.ball_to_axle.is_some()
        || own.empty_mass.is_some()
        || own.empty_tongue.is_some()
        || own.gross_rating.is_some()
        || own.axle_rating.is_some();
    let items = project.items.iter();
    towed
        || vehicle::is_given(project)
        || project.towing != wainwright_model::Towing::default()
        || !project.weighings.is_empty()
        || items
            .into_iter()
            .any(|(_, item)| loads::typed_mass(item, notes))
}

/// Share of the mass of what is carried on the road that is ahead of the middle of the box, tanks full.
fn front_share(aboard: &Aboard, place: Option<BoxPlace>, trailer: &RoadTrailer) -> Option<Ratio> {
    let middle = place?.ball_to_front + trailer.inside_length.as_ref()?.value * 0.5;
    let road = aboard.loads.iter().filter(|load| !load.parked_only);
    let (mut front, mut all) = (Mass::ZERO, Mass::ZERO);
    for load in road {
        all += load.most;
        if load.centre.x < middle {
            front += load.most;
        }
    }
    (all > Mass::ZERO).then(|| Ratio::from_fraction(front / all))
}
