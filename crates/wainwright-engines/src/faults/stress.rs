//! What a course of events does to each conductor on its way.

use super::input::{StudyError, Withstand};
use super::result::{Basis, Stress};
use super::sequence::{Course, LEAST_AMPS};
use crate::conductor::{MELTING, adiabatic_temperature, withstand_energy};
use crate::conductor_heat::{HeatError, HeatPath, Heating, Storage};
use wainwright_units::{Current, Duration, Temperature};

/// Longest time for which k²S² holds [s] (IEC 60364-4-43; read).
pub(super) const ADIABATIC_SECONDS: f64 = 5.0;

/// A conductor with what does not change from fault to fault worked out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Prepared<'a> {
    entry: &'a Withstand,
    heating: Heating,
    withstand: f64,
}

/// Current over time in one conductor: seconds, amperes.
type Load = Vec<(f64, f64)>;

impl<'a> Prepared<'a> {
    pub(super) fn new(entry: &'a Withstand) -> Result<Self, HeatError> {
        let path = HeatPath::in_fault(
            &entry.build,
            &entry.surroundings,
            entry.ambient,
            entry.start,
        )?;
        Ok(Self {
            entry,
            heating: Heating::new(&entry.build, path, Storage::Quick),
            withstand: withstand_energy(entry.build.metal, entry.start, entry.short_limit),
        })
    }

    /// Highest temperature after one piece of constant current, without heat loss up to 5 s.
    pub(super) fn after(&self, amps: f64, seconds: f64) -> Result<f64, HeatError> {
        if seconds <= ADIABATIC_SECONDS {
            return Ok(self.without_loss(amps * amps * seconds));
        }
        Ok(self
            .heating
            .run(self.entry.start.celsius(), amps, seconds, None)?
            .last)
    }

    /// Settled temperature at a current; the melting point when nothing settles below it.
    pub(super) fn settled(&self, amps: f64) -> Result<f64, HeatError> {
        match self
            .heating
            .path
            .steady(&self.entry.build, Current::from_amperes(amps))
        {
            Ok(steady) => Ok(steady.conductor.celsius()),
            Err(HeatError::Melts { .. }) => Ok(MELTING),
            Err(error) => Err(error),
        }
    }

    /// Temperature when all heat stays in the metal.
    pub(super) fn without_loss(&self, let_through: f64) -> f64 {
        adiabatic_temperature(self.entry.build.metal, self.entry.start, let_through).celsius()
    }

    fn judge(&self, conductor: usize, load: &Load) -> Result<Stress, HeatError> {
        let carrying = load.iter().filter(|(_, amps)| *amps >= LEAST_AMPS);
        let lasts: f64 = carrying.clone().map(|(seconds, _)| seconds).sum();
        let let_through: f64 = carrying.map(|(seconds, amps)| amps * amps * seconds).sum();
        let short_limit = self.entry.short_limit.celsius();
        let (basis, hottest, limit) = if lasts <= ADIABATIC_SECONDS {
            (
                Basis::Adiabatic,
                self.without_loss(let_through),
                short_limit,
            )
        } else if lasts.is_finite() {
            (Basis::WithLoss, self.hottest(load)?, short_limit)
        } else {
            let limit = short_limit.min(self.entry.insulation_limit.celsius());
            (Basis::Settled, self.hottest(load)?, limit)
        };
        let survives = match basis {
            Basis::Adiabatic => let_through <= self.withstand,
            _ => hottest <= limit,
        };
        Ok(Stress {
            conductor,
            current: Current::from_amperes(load.iter().map(|piece| piece.1).fold(0.0, f64::max)),
            let_through,
            withstand: self.withstand,
            lasts: lasts.is_finite().then(|| Duration::from_seconds(lasts)),
            hottest: Temperature::from_celsius(hottest),
            basis,
            melts: hottest >= MELTING,
            survives,
        })
    }

    /// Highest temperature over all pieces; each piece only heats or only cools.
    fn hottest(&self, load: &Load) -> Result<f64, HeatError> {
        let mut now = self.entry.start.celsius();
        let mut hottest = now;
        for &(seconds, amps) in load {
            now = if seconds.is_finite() {
                self.heating.run(now, amps, seconds, None)?.last
            } else {
                self.settled(amps)?
            };
            hottest = hottest.max(now);
            if hottest >= MELTING {
                break;
            }
        }
        Ok(hottest)
    }
}

/// Adds what one course does to every conductor, keeping the hottest for each.
pub(super) fn add(
    stresses: &mut Vec<Stress>,
    course: &Course,
    conductors: &[Prepared<'_>],
) -> Result<(), StudyError> {
    let mut load: Load = Vec::new();
    for conductor in loaded(course) {
        load.clear();
        load.extend(
            course
                .pieces
                .iter()
                .map(|piece| (piece.seconds, piece.moment.amps(conductor))),
        );
        let stress = conductors[conductor]
            .judge(conductor, &load)
            .map_err(|error| StudyError::Heat { conductor, error })?;
        match stresses.binary_search_by_key(&conductor, |known| known.conductor) {
            Ok(place) if worse(&stress, &stresses[place]) => stresses[place] = stress,
            Ok(_) => {}
            Err(place) => stresses.insert(place, stress),
        }
    }
    Ok(())
}

fn worse(new: &Stress, known: &Stress) -> bool {
    (!new.survives, new.hottest.celsius()) > (!known.survives, known.hottest.celsius())
}

/// Conductors that carry current at any time of a course, ascending.
fn loaded(course: &Course) -> Vec<usize> {
    let pieces = course.pieces.iter();
    let mut found: Vec<usize> = pieces.flat_map(|piece| piece.moment.conductors()).collect();
    if course.pieces.len() > 1 {
        found.sort_unstable();
        found.dedup();
    }
    found
}
