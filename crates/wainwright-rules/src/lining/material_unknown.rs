//! `material-unknown`: the material of a layer is in no table. Not here: what the tables hold.

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::words;
use wainwright_analysis::Assessment;
use wainwright_analysis::lining::{LayerTrouble, checks};
use wainwright_model::Project;

/// The rule.
pub(crate) struct MaterialUnknown;

static DOC: RuleDoc = RuleDoc {
    id: "material-unknown",
    title: "A material is in no table",
    worst: Severity::Notice,
    what: "The material of a layer is not a name in the list of materials, and nobody has said what a piece of it weighs.",
    why: "Its mass is missing from the weights on the road.",
    example: "A layer of larchwood is typed; the list has larch.",
    what_to_do: "Use a name of the list, or type the mass of one piece in the stock.",
    sources: &["Judgement: a mass left out is worth a word."],
};

impl Rule for MaterialUnknown {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        let told = checks(project).into_iter().filter_map(|check| {
            let LayerTrouble::UnknownMaterial(name) = check.what else {
                return None;
            };
            let layer = project.label_or_id("layer", check.layer.as_str());
            let headline = format!(
                "{}: no table has the material {name}, so its mass is left out.",
                words::capital(layer)
            );
            let subject = Subject::Layer(check.layer.clone());
            Some(Finding::new(DOC.id, Severity::Notice, subject, headline))
        });
        told.collect()
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
