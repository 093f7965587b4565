//! Workings of loads: the tongue's share and the margin of a rating. Damping, zones and tie-down are in `road_more`.

use super::note::Notebook;
use super::{Ask, Input};
use crate::known::{Basis, Known};
use crate::result::road::{RatingKind, RoadLoad, RoadResult, RoadState, RoadStateKind};
use wainwright_model::Project;
use wainwright_units::{Length, Mass, Quantity, System};

/// The road study's results, to write workings from.
pub(super) struct RoadDesk<'a> {
    pub(super) road: &'a RoadResult,
    pub(super) system: System,
}

impl RoadDesk<'_> {
    /// Writes the working of a number of the road study; `None` for any other.
    pub(super) fn write(&self, notes: &mut Notebook, project: &Project, ask: &Ask) -> Option<()> {
        match ask {
            Ask::TongueShare { state } => self.tongue_share(notes, *state),
            Ask::RoadMargin { rating, state } => self.margin(notes, *rating, *state),
            Ask::Damping { state, planned } => self.damping(notes, *state, *planned),
            Ask::AllowedZone { item } => self.zone(notes, project, item),
            Ask::TieDown { item } => self.tie_down(notes, item),
            _ => None,
        }
    }

    pub(super) fn state(&self, index: usize) -> Option<&RoadState> {
        self.road.states.get(index)
    }

    /// Share of the mass on the ball, thing by thing; not of a weighing, whose things its own list has.
    pub(super) fn tongue_share(&self, notes: &mut Notebook, index: usize) -> Option<()> {
        let state = self.state(index)?;
        if matches!(state.kind, RoadStateKind::Weighed(_)) {
            return None;
        }
        let things: Vec<(&RoadLoad, Mass)> = self
            .road
            .loads
            .iter()
            .filter_map(|load| Some((load, self.road.mass_in(load, state)?)))
            .collect();
        let own = &self.road.trailer;
        let (shell, on_ball) = (own.empty_mass.as_ref()?, own.empty_tongue.as_ref()?);
        let axle = own.ball_to_axle.as_ref()?;
        let mut inputs = vec![notes.known("trailer", shell)];
        inputs.extend(things.iter().map(|(load, mass)| Input {
            symbol: load.item.to_string(),
            value: mass.show(self.system),
            basis: load.mass.basis.clone(),
        }));
        notes.step("W", "W = sum of all masses", state.mass, inputs);
        let mut inputs = vec![notes.known("trailer", on_ball), notes.known("L", axle)];
        inputs.extend(
            things
                .iter()
                .map(|(load, mass)| self.on_ball(load, *mass, axle.value)),
        );
        notes.step(
            "T",
            "T = sum of what each thing puts on the ball, m · (1 − x / L)",
            state.tongue,
            inputs,
        );
        let inputs = vec![
            notes.computed("T", state.tongue),
            notes.computed("W", state.mass),
        ];
        notes.step("s", "s = T / W", state.share, inputs);
        Some(())
    }

    /// What is left of a rating.
    pub(super) fn margin(
        &self,
        notes: &mut Notebook,
        kind: RatingKind,
        index: usize,
    ) -> Option<()> {
        let state = self.state(index)?;
        let place = self
            .road
            .ratings
            .iter()
            .position(|rating| rating.kind == kind)?;
        let rating = self.road.ratings.get(place)?;
        let margin = (*state.margins.get(place)?)?;
        let (formula, inputs) = self.load(notes, kind, state)?;
        notes.step("F", formula, margin.actual, inputs);
        if let Some(printed) = rating.printed {
            let inputs = vec![notes.computed("Gp", printed)];
            let formula = "G = Gp / 1.10, for tyres of passenger cars on a trailer";
            notes.step("G", formula, rating.limit.value, inputs);
        }
        let inputs = vec![
            notes.known("G", &rating.limit),
            notes.computed("F", margin.actual),
        ];
        notes.step("M", "M = G − F", margin.left, inputs);
        Some(())
    }

    /// The load that a rating limits, as a formula.
    fn load(
        &self,
        notes: &Notebook,
        kind: RatingKind,
        state: &RoadState,
    ) -> Option<(&'static str, Vec<Input>)> {
        let own = &self.road.trailer;
        let mass = notes.computed("W", state.mass);
        let tongue = notes.computed("T", state.tongue);
        let count = plain("n", state.axles.len().to_string());
        Some(match kind {
            RatingKind::TrailerGross
            | RatingKind::CouplerPull
            | RatingKind::HitchPull
            | RatingKind::TowBraked
            | RatingKind::TowUnbraked => ("F = W", vec![mass]),
            RatingKind::Cargo => {
                let shell = notes.known("W0", own.empty_mass.as_ref()?);
                ("F = W − W0", vec![mass, shell])
            }
            RatingKind::Axle(axle) => {
                let alone = notes.computed("A", *state.axles.get(axle)?);
                let sides = vec![
                    alone,
                    notes.computed("Wh", state.left.max(state.right)),
                    notes.computed("Ws", state.axle),
                ];
                ("F = A · the larger of 1 and 2 · Wh / Ws", sides)
            }
            RatingKind::LeftTyre => ("F = Wl / n", vec![notes.computed("Wl", state.left), count]),
            RatingKind::RightTyre => ("F = Wr / n", vec![notes.computed("Wr", state.right), count]),
            RatingKind::CouplerTongue | RatingKind::HitchTongue | RatingKind::VehicleTongue => {
                ("F = T", vec![tongue])
            }
            RatingKind::VehicleFrontAxle
            | RatingKind::VehicleRearAxle
            | RatingKind::VehicleGross
            | RatingKind::VehiclePayload
            | RatingKind::Combination => return self.vehicle_load(notes, kind, state),
        })
    }

    /// Loads of the tow vehicle; with bars the change comes out of one more balance and is put in as it is.
    fn vehicle_load(
        &self,
        notes: &Notebook,
        kind: RatingKind,
        state: &RoadState,
    ) -> Option<(&'static str, Vec<Input>)> {
        let car = &self.road.vehicle;
        let hitch = state.hitch?;
        let front = notes.known("F0", car.front_axle.as_ref()?);
        let rear = notes.known("R0", car.rear_axle.as_ref()?);
        let tongue = notes.computed("T", state.tongue);
        let lengths = [
            notes.known("o", car.ball_overhang.as_ref()?),
            notes.known("l", car.wheelbase.as_ref()?),
        ];
        let bars = car.bars_restore.is_some();
        let with = |first: Input| {
            let mut inputs = vec![first, tongue.clone()];
            inputs.extend(lengths.clone());
            inputs
        };
        let change = |first: Input, by: Mass| vec![first, notes.computed("ΔF", by)];
        Some(match kind {
            RatingKind::VehicleFrontAxle if bars => {
                ("F = F0 + ΔF", change(front, hitch.front_change))
            }
            RatingKind::VehicleRearAxle if bars => ("F = R0 + ΔF", change(rear, hitch.rear_change)),
            RatingKind::VehicleFrontAxle => ("F = F0 − T · o / l", with(front)),
            RatingKind::VehicleRearAxle => ("F = R0 + T · (l + o) / l", with(rear)),
            RatingKind::VehicleGross => {
                let ball = notes.computed("B", hitch.ball);
                ("F = F0 + R0 + B", vec![front, rear, ball])
            }
            RatingKind::Combination => {
                let mass = notes.computed("W", state.mass);
                ("F = F0 + R0 + W", vec![front, rear, mass])
            }
            _ => ("F = B", vec![notes.computed("B", hitch.ball)]),
        })
    }

    /// One thing's part of the tongue load, with its lever.
    fn on_ball(&self, load: &RoadLoad, mass: Mass, axle: Length) -> Input {
        let metric = System::Metric;
        let part = mass * load.tongue_influence;
        Input {
            symbol: load.item.to_string(),
            value: format!(
                "{} · (1 − {} / {}) = {}",
                mass.show(metric),
                load.centre.x.show(metric),
                axle.show(metric),
                part.show(metric)
            ),
            basis: Basis::Computed,
        }
    }
}

/// An input that is a bare number or a word.
pub(super) fn plain(symbol: &str, value: String) -> Input {
    Input {
        symbol: symbol.to_owned(),
        value,
        basis: Basis::Computed,
    }
}

/// The same with its basis.
pub(super) fn plain_known<T: ToString>(symbol: &str, known: &Known<T>) -> Input {
    Input {
        symbol: symbol.to_owned(),
        value: known.value.to_string(),
        basis: known.basis.clone(),
    }
}
