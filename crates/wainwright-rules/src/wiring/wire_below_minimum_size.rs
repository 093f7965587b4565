//! `wire-below-minimum-size`: wire thinner than the rule profile allows
//! whatever it carries. One finding for the trailer. Not here: current and
//! heat, and the jumpers of an overloaded chain, which must be much thicker
//! anyway (`overloaded-chain`).

use super::overloaded_chain::chain_wires;
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::{series, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
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

/// A wire that is too thin, with what it should be.
struct Thin<'a> {
    wire: &'a WireResult,
    least: Sourced<WireSize>,
}

impl Rule for WireBelowMinimumSize {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let chained = chain_wires(assessment, &Graph::new(assessment, project));
        let wires = assessment.wires.iter().enumerate();
        let thin: Vec<Thin<'_>> = wires
            .filter(|(index, _)| !chained.contains(index))
            .filter_map(|(_, wire)| thin(project, wire))
            .collect();
        about(assessment, &thin).into_iter().collect()
    }

    fn remedies(&self, finding: &Finding, assessment: &Assessment, _: &Project) -> Vec<Remedy> {
        let wires = subjects::wires(finding, assessment);
        Remedy::some(vec![sizes::thicker(assessment, &wires)])
    }
}

fn thin<'a>(project: &Project, wire: &'a WireResult) -> Option<Thin<'a>> {
    let region = limits::region(project);
    if region == Region::Eu && !wire.sheathed && wire.length.value <= SHORT {
        return None;
    }
    let least = least(region, wire.sheathed)?;
    let short = nominal(wire.size.value) < nominal(least.value) - limits::EQUAL;
    short.then_some(Thin { wire, least })
}

fn about(assessment: &Assessment, thin: &[Thin<'_>]) -> Option<Finding> {
    let area = |thin: &&Thin<'_>| nominal(thin.wire.size.value);
    let worst = thin.iter().min_by(|a, b| area(a).total_cmp(&area(b)))?;
    let supplied = thin.iter().all(|thin| thin.wire.supplied);
    let severity = if supplied {
        Severity::Notice
    } else {
        Severity::Caution
    };
    let more = match thin.len() {
        1 => String::new(),
        2 => "; so is one more wire".to_string(),
        many => format!("; so are {}", words::counted(many - 1, "more wire")),
    };
    let headline = format!(
        "{} is {}, thinner than {}, the least allowed {}{more}.",
        words::capital(&names::wire(worst.wire)),
        worst.wire.size.value,
        worst.least.value,
        if worst.wire.sheathed {
            "in a sheath"
        } else {
            "for a single conductor"
        },
    );
    let value = Amount::computed("S", area(&worst), worst.wire.size.value.to_string());
    let limit = Amount::based(
        "S_min",
        nominal(worst.least.value),
        worst.least.value.to_string(),
        &Basis::Table(worst.least.source),
    );
    let mut finding = Finding::new(DOC.id, severity, Subject::System, headline).under(value, limit);
    for thin in thin {
        finding = finding
            .also(Subject::Wire(thin.wire.id.clone()))
            .assuming(assessment, &["wire", thin.wire.id.as_str(), "size"]);
    }
    Some(finding)
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
