//! `pvc-against-foam`: PVC insulation inside plastic foam. One finding for the
//! trailer. Not here: the heat
//! of such a wire (`overheated-conductor`, `derated-by-hot-place`).

use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{names, subjects, words};
use wainwright_analysis::result::{Assessment, Run, WireResult};
use wainwright_model::Project;

/// The rule.
pub(crate) struct PvcAgainstFoam;

static DOC: RuleDoc = RuleDoc {
    id: "pvc-against-foam",
    title: "PVC insulation lies against foam",
    worst: Severity::Caution,
    what: "A conductor with PVC insulation runs inside foam board.",
    why: "Polystyrene draws the plasticiser out of PVC: in some years the insulation is brittle \
          and cracks where the trailer shakes it. Polyurethane foam is less certain but advised \
          against too. Guidance names caravans as the place where it happens.",
    example: "Twenty feet of PVC-insulated lamp wire pressed into a groove of the wall's \
              polystyrene board.",
    what_to_do: "Use cross-linked wire (GXL or the like), or run it in conduit.",
    sources: &["insulation/materials"],
};

impl Rule for PvcAgainstFoam {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, _: &Project) -> Vec<Finding> {
        let bad = |wire: &&WireResult| wire.pvc && wire.run.value == Run::Foam;
        let wires: Vec<&WireResult> = assessment.wires.iter().filter(bad).collect();
        about(assessment, &wires).into_iter().collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let wires = subjects::wires(finding, assessment);
        Remedy::some(vec![
            sizes::run(assessment, &wires, "conduit", "Put", "into conduit"),
            sizes::insulation(assessment, &wires, sizes::better_insulation(project)),
        ])
    }
}

fn about(assessment: &Assessment, wires: &[&WireResult]) -> Option<Finding> {
    let first = wires.first()?;
    let named: Vec<String> = wires.iter().map(|wire| names::wire(wire)).collect();
    let (verb, runs) = if wires.len() == 1 {
        ("has", "runs")
    } else {
        ("have", "run")
    };
    let headline = format!(
        "{} {verb} PVC insulation ({}) and {runs} inside foam, which makes PVC brittle.",
        words::capital(&words::list(&named, 4)),
        first.insulation.value.to_uppercase(),
    );
    let mut finding = Finding::new(DOC.id, Severity::Caution, Subject::System, headline);
    for wire in wires {
        finding = finding
            .also(Subject::Wire(wire.id.clone()))
            .assuming(assessment, &["wire", wire.id.as_str()]);
    }
    Some(finding)
}
