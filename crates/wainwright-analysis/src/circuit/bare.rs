//! A conductor where it lies, without its place in a circuit: all that heat
//! and ampacity depend on, of a project's wire or of a bench check's.

use super::{Notes, Wire, defaults, surround};
use crate::quick::WireQuestion;
use crate::result::Run;
use wainwright_engines::conductor_heat::{Build, Surroundings};
use wainwright_model::Project;
use wainwright_reference::joint::{JointSize, joint_heat};
use wainwright_units::{Length, Power, Temperature, WireSize};

/// A conductor where it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Laid {
    pub(crate) size: WireSize,
    pub(crate) length: Length,
    /// Continuous limit of the insulation.
    pub(crate) limit: Temperature,
    pub(crate) run: Run,
    /// Loaded conductors together, this one counted.
    pub(crate) bundle: u32,
    pub(crate) air: Temperature,
    pub(crate) build: Build,
    pub(crate) surroundings: Surroundings,
}

impl Wire {
    /// The wire as heat sees it.
    pub(crate) fn laid(&self) -> Laid {
        Laid {
            size: self.size.value,
            length: self.length.value,
            limit: self.limit,
            run: self.run.value,
            bundle: self.bundle.value,
            air: self.air.value,
            build: self.build,
            surroundings: self.surroundings,
        }
    }
}

/// Another wire in the place of a project's wire.
pub(crate) fn exchanged(wire: &Wire, size: WireSize, insulation: &str) -> Laid {
    let class = defaults::insulation(insulation);
    Laid {
        size,
        limit: class.limit,
        build: defaults::build(size, false, &class),
        ..wire.laid()
    }
}

/// The conductor that a bench check asks about.
pub(crate) fn bare_wire(question: &WireQuestion) -> Laid {
    let class = defaults::insulation(&question.insulation);
    let air = question.air.unwrap_or_else(|| {
        let limits = defaults::limits(&Project::default(), &mut Notes::default());
        surround::usual_air(question.run, &limits).value
    });
    let bundle = surround::together(question.run, question.bundle);
    Laid {
        size: question.size,
        length: question.length,
        limit: class.limit,
        run: question.run,
        bundle,
        air,
        build: defaults::build(question.size, question.tinned, &class),
        surroundings: surround::surroundings_of(question.run, bundle, None).0,
    }
}

/// Heat a small terminal and a large lug may make.
pub(crate) fn joint_limits() -> (Power, Power) {
    let watts =
        |size, usual| joint_heat(size).map_or(Power::from_watts(usual), |found| found.value);
    (watts(JointSize::Small, 1.0), watts(JointSize::Large, 3.0))
}
