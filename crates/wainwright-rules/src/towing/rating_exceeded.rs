//! `rating-exceeded`: something carries or pulls more than it is rated for. Not
//! here: the share on the ball (`tongue-too-light`).

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, road};
use wainwright_analysis::result::road::{RatingKind, RoadRating, RoadResult};
use wainwright_analysis::{Ask, Assessment};
use wainwright_model::Project;

/// The rule.
pub(crate) struct RatingExceeded;

static DOC: RuleDoc = RuleDoc {
    id: "rating-exceeded",
    title: "Something carries or pulls more than it is rated for",
    worst: Severity::Warning,
    what: "In some state a rating of the trailer, its tyres, the coupler, the hitch or the tow vehicle is exceeded.",
    why: "Ratings are what the maker answers for: axles bend, tyres burst, couplers crack, brakes fade. A trailer over its rating is also illegal and may not be insured.",
    example: "2490 lb with both tanks full behind a car that may tow 2000 lb.",
    what_to_do: "Leave things at home, travel with empty tanks, move weight, or get the higher rated part. The lowest rated part decides.",
    sources: &[
        "The rating is that of the maker, on the label, the placard or in the manual.",
        "49 CFR 571.110 and 49 CFR 567 (labels and placards).",
    ],
};

impl Rule for RatingExceeded {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        if !found.begun {
            return Vec::new();
        }
        let all = found.ratings.iter();
        all.filter_map(|rating| find_one(project, found, rating))
            .collect()
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

fn find_one(project: &Project, found: &RoadResult, rating: &RoadRating) -> Option<Finding> {
    let (index, margin) = found.tightest(rating.kind)?;
    if !limits::above(margin.actual.kilograms(), margin.limit.kilograms()) {
        return None;
    }
    let system = limits::system(project);
    let name = name(rating.kind);
    let headline = format!(
        "{name} {}{}; {} is allowed.",
        road::mass(margin.actual, system),
        road::state(project, found, index),
        road::mass(margin.limit, system),
    );
    let limit = Amount::based(
        "m_max",
        margin.limit.kilograms(),
        road::mass(margin.limit, system),
        &rating.limit.basis,
    );
    let mut finding = Finding::new(DOC.id, Severity::Warning, subject(rating), headline)
        .over(road::weight("m", margin.actual, system), limit)
        .asking(Ask::RoadMargin {
            rating: rating.kind,
            state: index,
        });
    if let Some(printed) = rating.printed {
        finding = finding.note(format!(
            "The tyre says {}; a tyre for passenger cars may carry less under a trailer.",
            road::mass(printed, system)
        ));
    }
    Some(finding)
}

fn subject(rating: &RoadRating) -> Subject {
    Subject::Rating(rating.path.join("."))
}

fn name(kind: RatingKind) -> &'static str {
    match kind {
        RatingKind::TrailerGross => "The laden trailer weighs",
        RatingKind::Cargo => "What was added to the trailer weighs",
        RatingKind::Axle(_) => "A trailer axle carries",
        RatingKind::LeftTyre => "Each left tyre carries",
        RatingKind::RightTyre => "Each right tyre carries",
        RatingKind::CouplerPull => "The coupler pulls",
        RatingKind::CouplerTongue => "The coupler carries",
        RatingKind::HitchPull => "The hitch pulls",
        RatingKind::HitchTongue => "The hitch carries",
        RatingKind::TowBraked => "The tow vehicle pulls a trailer of",
        RatingKind::TowUnbraked => "The tow vehicle pulls, without trailer brakes,",
        RatingKind::VehicleTongue => "The tow vehicle carries on its ball",
        RatingKind::VehicleFrontAxle => "The front axle of the tow vehicle carries",
        RatingKind::VehicleRearAxle => "The rear axle of the tow vehicle carries",
        RatingKind::VehicleGross => "The laden tow vehicle weighs",
        RatingKind::VehiclePayload => "The tow vehicle carries, with what is aboard,",
        RatingKind::Combination => "Vehicle and trailer together weigh",
    }
}
