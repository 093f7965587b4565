//! What the fault study is told, and how it refuses nonsense.

use crate::conductor_heat::{Build, HeatError, Surroundings};
use crate::network::{Network, NetworkError};
use crate::protection::{Band, CurveError, OpeningCurve};
use std::fmt;
use wainwright_units::{Current, Resistance, Temperature};

/// A short circuit between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FaultCase {
    /// The caller's number for the place; handed back.
    pub place: usize,
    /// One shorted node.
    pub from: usize,
    /// The other shorted node.
    pub to: usize,
    /// Resistance of the short [Ω], zero or above.
    pub bridge: Resistance,
}

/// A fuse or breaker in a branch.
#[derive(Debug, Clone, PartialEq)]
pub struct Device {
    /// The branch it interrupts.
    pub branch: usize,
    /// Rated current [A], above zero.
    pub rating: Current,
    /// When it opens, over multiples of the rating.
    pub curve: OpeningCurve,
    /// Largest current it can interrupt at this voltage [A], when known.
    pub interrupt: Option<Current>,
    /// Whether it closes again by itself.
    pub recloses: bool,
}

impl Device {
    /// When it opens at a current. At or below its rating it does not, whatever its lowest gate says
    /// of long tests.
    pub fn band(&self, current: Current) -> Band {
        let multiple = current.amperes().abs() / self.rating.amperes();
        if multiple > 1.0 {
            self.curve.band(multiple)
        } else {
            Band::default()
        }
    }
}

/// A conductor and what it can stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Withstand {
    /// The branch it is.
    pub branch: usize,
    /// The wire.
    pub build: Build,
    /// Where it lies; where it is hottest, when that changes along it.
    pub surroundings: Surroundings,
    /// Temperature around it [°C].
    pub ambient: Temperature,
    /// Temperature of the conductor when the fault begins [°C].
    pub start: Temperature,
    /// Continuous limit of its insulation [°C].
    pub insulation_limit: Temperature,
    /// Limit after a short circuit of up to 5 s [°C].
    pub short_limit: Temperature,
}

/// Why there is no study.
#[derive(Debug, Clone, PartialEq)]
pub enum StudyError {
    /// The network could not be solved.
    Network(NetworkError),
    /// A conductor's heat could not be computed.
    Heat {
        /// Index of the conductor.
        conductor: usize,
        /// Why.
        error: HeatError,
    },
    /// A device's curve is wrong.
    Curve {
        /// Index of the device.
        device: usize,
        /// Why.
        error: CurveError,
    },
    /// Something refers to what is not there, or a number cannot be.
    Malformed {
        /// Which list, and which entry in it.
        place: (&'static str, usize),
        /// What is wrong with it and what was expected.
        why: &'static str,
    },
    /// Currents at the fault do not add up.
    Unbalanced {
        /// The caller's number for the place.
        place: usize,
        /// Current into the node less current through the short [A].
        residual_amps: f64,
    },
}

impl fmt::Display for StudyError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Network(error) => write!(out, "fault study: {error}"),
            Self::Heat { conductor, error } => {
                write!(out, "fault study, conductor {conductor}: {error}")
            }
            Self::Curve { device, error } => write!(out, "fault study, device {device}: {error}"),
            Self::Malformed {
                place: (list, index),
                why,
            } => {
                write!(
                    out,
                    "fault study, {list} {index}: {why}; correct that entry"
                )
            }
            Self::Unbalanced {
                place,
                residual_amps,
            } => write!(
                out,
                "fault study, place {place}: {residual_amps:.3e} A are left over at the fault, \
                 expected none; check the resistances around it"
            ),
        }
    }
}

impl std::error::Error for StudyError {}

impl From<NetworkError> for StudyError {
    fn from(error: NetworkError) -> Self {
        Self::Network(error)
    }
}

/// Refuses what would make the study meaningless; conductors' builds are checked by the heat engine.
pub(super) fn check(
    networks: [&Network; 2],
    devices: &[Device],
    conductors: &[Withstand],
    cases: &[FaultCase],
) -> Result<(), StudyError> {
    let wrong = |list, index, why| {
        Err(StudyError::Malformed {
            place: (list, index),
            why,
        })
    };
    let [largest, smallest] = networks;
    let branches = largest.branches.len();
    if smallest.branches.len() != branches || smallest.node_count != largest.node_count {
        return wrong(
            "network",
            1,
            "expected the same nodes and branches as network 0",
        );
    }
    for (index, device) in devices.iter().enumerate() {
        let rating = device.rating.amperes();
        if device.branch >= branches {
            return wrong("device", index, "its branch does not exist");
        }
        if !(rating.is_finite() && rating > 0.0) {
            return wrong("device", index, "its rating must be above zero");
        }
        device.curve.check().map_err(|error| StudyError::Curve {
            device: index,
            error,
        })?;
    }
    for (index, conductor) in conductors.iter().enumerate() {
        if conductor.branch >= branches {
            return wrong("conductor", index, "its branch does not exist");
        }
        let limits = [
            conductor.start,
            conductor.insulation_limit,
            conductor.short_limit,
        ];
        if !limits.iter().all(|limit| limit.celsius().is_finite()) {
            return wrong("conductor", index, "its start and limits must be numbers");
        }
    }
    for (index, case) in cases.iter().enumerate() {
        if case.from.max(case.to) >= largest.node_count || case.from == case.to {
            return wrong("case", index, "expected two different nodes of the network");
        }
        let bridge = case.bridge.ohms();
        if !(bridge.is_finite() && bridge >= 0.0) {
            return wrong("case", index, "its bridge must be zero or above");
        }
    }
    Ok(())
}
