//! A conductor without a project, for the quick bench check.

use super::{Wire, defaults, wires};
use crate::known::{Basis, Known};
use crate::quick::WireQuestion;
use wainwright_model::{Id, Project};
use wainwright_reference::joint::{JointSize, joint_heat};
use wainwright_units::{Power, Resistance};

/// The wire that a bench check asks about, joined to nothing.
pub(crate) fn bare_wire(question: &WireQuestion) -> Wire {
    let class = defaults::insulation(&question.insulation);
    let build = defaults::build(question.size, question.tinned, &class);
    let limits = defaults::limits(&Project::default(), &mut super::Notes::default());
    let air = question.air.map_or_else(
        || wires::usual_air(question.run, &limits),
        |air| Known::new(air, Basis::Computed),
    );
    let nothing = Known::computed(Resistance::from_ohms(0.0));
    let nowhere = || (no_id(), String::new());
    Wire {
        id: no_id(),
        label: String::new(),
        from: nowhere(),
        to: nowhere(),
        from_node: 0,
        to_node: 0,
        supplied: false,
        size: Known::computed(question.size),
        metal: build.metal,
        length: Known::computed(question.length),
        insulation: Known::computed(question.insulation.clone()),
        limit: class.limit,
        short_limit: class.short_limit,
        volts_rating: class.volts,
        pvc: class.pvc,
        run: Known::computed(question.run),
        bundle: Known::computed(question.bundle.max(1)),
        sheathed: false,
        surroundings: wires::surroundings_of(question.run, question.bundle, None).0,
        air,
        resistance_20: build.resistance_at_20 * question.length,
        build,
        joint_from: nothing.clone(),
        joint_to: nothing,
    }
}

/// Heat a small terminal and a large lug may make.
pub(crate) fn joint_limits() -> (Power, Power) {
    let watts =
        |size, usual| joint_heat(size).map_or(Power::from_watts(usual), |found| found.value);
    (watts(JointSize::Small, 1.0), watts(JointSize::Large, 3.0))
}

/// An id for what is in no project. The literal is legal, so the search for
/// another name never happens.
fn no_id() -> Id {
    ["bench", "b"]
        .iter()
        .find_map(|name| Id::new(name))
        .unwrap_or_else(no_id)
}
