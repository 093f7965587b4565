//! `tongue-too-light`: too little of the trailer rests on the ball. Not
//! here: what rests there at most (`tongue-too-heavy`).

use crate::finding::{Finding, Subject};
use crate::remedy::edits;
use crate::rule::{Change, Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, road, words};
use wainwright_analysis::result::road::{RoadLoad, SharePlace};
use wainwright_analysis::road::allowed_zone;
use wainwright_analysis::{Ask, Assessment};
use wainwright_model::{Project, Spot};

/// The rule.
pub(crate) struct TongueTooLight;

static DOC: RuleDoc = RuleDoc {
    id: "tongue-too-light",
    title: "Too little of the trailer rests on the ball",
    worst: Severity::Warning,
    what: "In some state of tanks and supplies the share of the trailer's mass that rests on the hitch ball is below the band that is advised for the place.",
    why: "A trailer with a light tongue begins to swing by itself at a lower speed, and each swing is larger than the one before. It also lifts the rear of the tow vehicle.",
    example: "A toolbox and a telescope right at the rear: 11.5 % on the ball with the water tank full, 7.6 % on the way home.",
    what_to_do: "Move heavy things forward, or store water ahead of the axle; then weigh the tongue before the first trip.",
    sources: &["towing/tongue", "towing/advice"],
};

impl Rule for TongueTooLight {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        let (Some(worst), Some(band), true) = (found.worst, &found.aims.tongue, found.begun) else {
            return Vec::new();
        };
        let index = worst.lowest_share;
        let Some(state) = found.states.get(index) else {
            return Vec::new();
        };
        let place = band.place(state.share);
        if !road::is_low(place) {
            return Vec::new();
        }
        let (severity, limit) = match (&band.stop_below, place) {
            (Some(stop), SharePlace::FarTooLow) => (Severity::Warning, stop),
            _ => (Severity::Caution, &band.low),
        };
        let (share, least) = words::percents(state.share, limit.value);
        let headline = format!(
            "Only {share} of the trailer's mass rests on the ball{}; at least {least} should.",
            road::state(project, found, index),
        );
        let tongue = road::mass(state.tongue, limits::system(project));
        vec![
            Finding::new(DOC.id, severity, Subject::Trailer, headline)
                .under(
                    road::share("s", state.share),
                    road::share_limit("s_min", limit),
                )
                .note(format!("That is {tongue} on the ball."))
                .assuming(assessment, &["trailer"])
                .asking(Ask::TongueShare { state: index }),
        ]
    }

    fn remedies(&self, _: &Finding, assessment: &Assessment, project: &Project) -> Vec<Remedy> {
        let road = &assessment.road;
        let mut loads: Vec<&RoadLoad> =
            road.loads.iter().filter(|load| !load.parked_only).collect();
        loads.sort_by(|a, b| b.most.total_cmp(&a.most));
        let ladders = loads
            .iter()
            .filter_map(|load| ladder(project, assessment, load));
        Remedy::some(ladders.take(MOST_MOVED).collect())
    }
}

/// Shares of the way to the allowed zone that are tried.
const WAYS: [f64; 4] = [0.25, 0.5, 0.75, 1.0];
/// Heaviest things that are tried.
const MOST_MOVED: usize = 6;
/// What a move costs beside swapping a plug-in fuse, each kilogram.
const COST_PER_KILOGRAM: f64 = 0.2;

fn ladder(project: &Project, assessment: &Assessment, load: &RoadLoad) -> Option<Remedy> {
    let item = project.items.get(load.item.as_str())?;
    let stays = item.body.stays.as_ref().is_some_and(|stays| stays.value);
    let spot = item.body.spot.as_ref().filter(|_| !stays)?.value;
    let zone = allowed_zone(project, &assessment.road, load.item.as_str())?;
    let (_, rear) = zone.along?;
    let way = spot.from_front - rear;
    if way.metres() <= 0.0 {
        return None;
    }
    let system = limits::system(project);
    let rungs = WAYS.iter().map(|share| {
        let to = Spot {
            from_front: spot.from_front - way * *share,
            ..spot
        };
        let text = to.typed(system);
        Change {
            title: format!(
                "Move {} forward, to {text}",
                names::item(project, &load.item)
            ),
            edits: vec![edits::set_text(&["item", load.item.as_str(), "spot"], text)],
            cost: 1.0 + load.most.kilograms() * COST_PER_KILOGRAM,
        }
    });
    Some(Remedy::ladder(rungs.collect()))
}
