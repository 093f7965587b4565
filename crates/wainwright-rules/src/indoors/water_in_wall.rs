//! `water-in-wall`: vapour turns to water inside a wall and stays or runs. Not here: mould on its surface.

use super::words::{month, side, water, way};
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::edits;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::limits;
use wainwright_analysis::Assessment;
use wainwright_analysis::indoors;
use wainwright_analysis::result::indoors::{DampSide, DampWay};
use wainwright_model::{FieldExt, LayerKind, Project, Value};

/// The rule.
pub(crate) struct WaterInWall;

static DOC: RuleDoc = RuleDoc {
    id: "water-in-wall",
    title: "Water gathers inside a wall",
    worst: Severity::Warning,
    what: "Lived in through a year, more vapour turns to water inside a wall, the ceiling or the floor than it can hold, or some of it is still there after the summer.",
    why: "Wet foam no longer insulates, wood behind the lining rots, steel rusts where nobody looks.",
    example: "At 65 % humidity 4 kg of water on each square metre gather behind the planks at the bare steel ribs by March.",
    what_to_do: "Seal the warm side of the foam: foil with taped joints. Put foam over the ribs. Let the damp air out. Joints that let air through carry far more water than any sheet lets pass.",
    sources: &[
        "ISO 13788: vapour by diffusion, month by month; water runs off from 200 g/m².",
        "room/design",
    ],
};

impl Rule for WaterInWall {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        if project.layers.is_empty() || project.living.humidity.is_none() {
            return Vec::new();
        }
        let Some(damp) = indoors::damp_alone(project) else {
            return Vec::new();
        };
        let ways = damp.sides.iter().flat_map(|side| {
            let ways = side.ways.iter();
            ways.map(move |way| (side, way))
        });
        let wet = ways.filter(|(_, way)| !way.dries || way.runs_off);
        let wet: Vec<(&DampSide, &DampWay)> = wet.collect();
        let worst = wet.iter().max_by(|a, b| a.1.peak.total_cmp(&b.1.peak));
        let Some((worst, found)) = worst else {
            return Vec::new();
        };
        let system = limits::system(project);
        let by = found.peak_month.map_or("spring", month);
        let headline = format!(
            "Lived in all year at {} humidity, {} of water gather in {} {} by {by}; it runs off from {} on.",
            crate::view::words::percent(damp.humidity.value),
            water(found.peak, system),
            side(worst.side),
            way(found.kind),
            water(damp.runs_off, system),
        );
        let value = Amount::computed("m", found.peak, water(found.peak, system));
        let limit = Amount::computed("m", damp.runs_off, water(damp.runs_off, system));
        let finding = Finding::new(DOC.id, Severity::Warning, Subject::Trailer, headline);
        let mut sides: Vec<&str> = wet.iter().map(|(wet, _)| side(wet.side)).collect();
        sides.dedup();
        let sides: Vec<String> = sides.into_iter().map(str::to_owned).collect();
        let mut finding = finding.over(value, limit).note(format!(
            "Wet: {}. Only vapour that passes through the layers counts here; air through open joints brings more.",
            crate::view::words::list(&sides, 6)
        ));
        if !found.dries {
            let left = water(found.left, system);
            finding = finding.note(format!("After a year {left} are still there."));
        }
        vec![finding]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, project: &Project) -> Vec<Remedy> {
        let bare = project.layers.iter().filter(|(_, layer)| {
            layer.of.value() == Some(&LayerKind::Foam) && layer.foil.value() != Some(&true)
        });
        let edits: Vec<_> = bare
            .map(|(id, _)| edits::set(&["layer", id.as_str(), "foil"], Value::Bool(true)))
            .collect();
        let title = "Take foam with bright foil on the room side, its joints taped";
        Remedy::some(vec![Remedy::one(title, edits, 60.0)])
    }
}
