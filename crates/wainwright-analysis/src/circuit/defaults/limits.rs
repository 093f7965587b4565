//! The limits in force: typed ones first, then those of the rule profile.

use crate::circuit::Notes;
use crate::known::{Assumption, Basis, Known};
use crate::result::Limits;
use wainwright_model::{Field, FieldExt, Project, Region};
use wainwright_reference::limit::{RatioLimit, ratio_limit};
use wainwright_reference::position::{Profile, Situation, unfused_reach};
use wainwright_reference::surroundings::{Air, air_temperature};
use wainwright_units::{Length, Ratio, Temperature};

/// The limits in force for a project.
pub(crate) fn limits(project: &Project, notes: &mut Notes) -> Limits {
    let own = &project.limits;
    let profile = match project.head.region.value() {
        Some(Region::Eu) => Profile::Eu,
        Some(Region::Us) => Profile::Us,
        None => {
            let basis = Basis::Assumed(Assumption::Profile);
            notes.assume_text(&["project", "region"], "US".to_owned(), &basis);
            Profile::Us
        }
    };
    let open = reach(profile, Situation::Open);
    let sheathed = unfused_reach(profile, Situation::Sheathed).map_or(open.clone(), |found| {
        super::table(found.map(|reach| reach.length))
    });
    Limits {
        drop_critical: ratio(notes, &own.drop_critical, RatioLimit::DropCritical),
        drop_other: ratio(notes, &own.drop_other, RatioLimit::DropOther),
        unfused: notes.given(&own.unfused_length).unwrap_or(open),
        unfused_sheathed: notes
            .given(&own.unfused_sheathed_length)
            .unwrap_or(sheathed),
        continuous_share: ratio(notes, &own.continuous_share, RatioLimit::ContinuousShare),
        summer_air: summer_air(project, notes),
        cavity_air: air(&project.trailer.roof_air, Air::Cavity, "roof_air", notes),
    }
}

/// Hottest air in the living space: typed, or the usual one, which is then noted.
pub(crate) fn summer_air(project: &Project, notes: &mut Notes) -> Known<Temperature> {
    let own = &project.trailer.summer_air;
    air(own, Air::Summer, "summer_air", notes)
}

fn reach(profile: Profile, situation: Situation) -> Known<Length> {
    unfused_reach(profile, situation).map_or(Known::computed(Length::from_metres(0.0)), |found| {
        super::table(found.map(|reach| reach.length))
    })
}

fn ratio(notes: &Notes, own: &Field<Ratio>, limit: RatioLimit) -> Known<Ratio> {
    notes
        .given(own)
        .or_else(|| ratio_limit(limit).map(super::table))
        .unwrap_or(Known::computed(Ratio::from_fraction(0.0)))
}

fn air(own: &Field<Temperature>, air: Air, field: &str, notes: &mut Notes) -> Known<Temperature> {
    if let Some(known) = notes.given(own) {
        return known;
    }
    let usual = air_temperature(air).map(super::table);
    let known = usual.unwrap_or(Known::computed(Temperature::from_celsius(40.0)));
    let shown = wainwright_units::Quantity::show(known.value, notes.system());
    notes.assume_text(&["trailer", field], shown, &known.basis);
    known
}
