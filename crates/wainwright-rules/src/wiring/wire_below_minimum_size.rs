//! `wire-below-minimum-size`: wire thinner than the rule profile allows
//! whatever it carries. Not here: current and heat.

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::{series, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::known::Basis;
use wainwright_analysis::result::{Assessment, WireResult};
use wainwright_model::{Project, Region};
use wainwright_reference::Sourced;
use wainwright_reference::limit::{SizeLimit, size_limit};
use wainwright_units::{Length, WireSize};

/// The rule.
pub(crate) struct WireBelowMinimumSize;

static DOC: RuleDoc = RuleDoc {
    id: "wire-below-minimum-size",
    title: "A wire is thinner than the rules allow",
    worst: Severity::Caution,
    what: "A conductor is thinner than 16 AWG (in a sheath 18 AWG) in the United States, or \
           thinner than 1 mm² (in a sheath 0.75 mm²) and longer than 200 mm in the European \
           Union.",
    why: "Thin strands break where the trailer shakes them, long before they are overloaded; a \
          crimp on so thin a wire is weak.",
    example: "Lamp wire of 22 AWG runs 12 ft along the ceiling.",
    what_to_do: "Use 16 AWG (1 mm²) or thicker. A short lead that came with the gear may stay \
                 where it is held and does not flex.",
    sources: &["limit/sizes"],
};

/// ISO 10133 leaves separate conductors up to this length alone.
const SHORT: Length = Length::from_metres(0.2);

impl Rule for WireBelowMinimumSize {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let wires = assessment.wires.iter();
        wires
            .filter_map(|wire| find_one(assessment, project, wire))
            .collect()
    }

    fn remedies(&self, finding: &Finding, assessment: &Assessment, _: &Project) -> Vec<Remedy> {
        let wires = subjects::wires(finding, assessment);
        Remedy::some(vec![sizes::thicker(assessment, &wires)])
    }
}

fn find_one(assessment: &Assessment, project: &Project, wire: &WireResult) -> Option<Finding> {
    let region = limits::region(project);
    if region == Region::Eu && !wire.sheathed && wire.length.value <= SHORT {
        return None;
    }
    let least = least(region, wire.sheathed)?;
    let (area, needed) = (nominal(wire.size.value), nominal(least.value));
    if area >= needed - limits::EQUAL {
        return None;
    }
    let headline = format!(
        "{} is {}, thinner than {}, the least allowed {}.",
        words::capital(&names::wire(wire)),
        wire.size.value,
        least.value,
        if wire.sheathed {
            "in a sheath"
        } else {
            "for a single conductor"
        },
    );
    let severity = if wire.supplied {
        Severity::Notice
    } else {
        Severity::Caution
    };
    let limit = Amount::based(
        "S_min",
        needed,
        least.value.to_string(),
        &Basis::Table(least.source),
    );
    Some(
        Finding::new(DOC.id, severity, Subject::Wire(wire.id.clone()), headline)
            .under(
                Amount::computed("S", area, wire.size.value.to_string()),
                limit,
            )
            .assuming(assessment, &["wire", wire.id.as_str(), "size"]),
    )
}

fn least(region: Region, sheathed: bool) -> Option<Sourced<WireSize>> {
    size_limit(match (region, sheathed) {
        (Region::Us, false) => SizeLimit::SeparateUs,
        (Region::Us, true) => SizeLimit::SheathedUs,
        (Region::Eu, false) => SizeLimit::SeparateEu,
        (Region::Eu, true) => SizeLimit::SheathedEu,
    })
}

/// Nominal size as an area [mm²]: SAE 16 counts as 16 gauge.
fn nominal(size: WireSize) -> f64 {
    series::area(size).square_millimetres()
}
