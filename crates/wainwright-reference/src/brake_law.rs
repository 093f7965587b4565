//! From which gross mass a trailer needs brakes, by place.
//!
//! A help to remember, not legal advice: laws change, so every row says when its copy was read. Not here: whether a trailer
//! crosses a threshold (rules).

use wainwright_units::{Length, Mass, Quantity};

use crate::mark::Sourced;
use crate::store::{Topic, find, rows};
use crate::towing::TowProfile;
use crate::tyre::METRES_PER_SECOND_PER_MPH;

/// What goes with every one of these rows when it is shown.
pub const CHECK_LOCAL_LAW: &str =
    "Check your local law: it differs by state and country, and it changes.";

/// From which gross mass a trailer needs brakes in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BrakeLaw {
    /// Id of the row.
    pub id: &'static str,
    /// Region it belongs to.
    pub profile: TowProfile,
    /// State or country.
    pub place: &'static str,
    /// Name of the legal text.
    pub law: &'static str,
    /// Which trailers it speaks of.
    pub applies_to: &'static str,
    /// Threshold of the gross mass.
    pub gross: Mass,
    /// The threshold as the law writes it.
    pub gross_text: &'static str,
    /// True: brakes from this mass on; false: only above it.
    pub from: bool,
    /// What else it says; empty if nothing.
    pub more: &'static str,
    /// Year and month in which the copy was read, such as `2026-11`.
    pub as_of: &'static str,
}

/// A distance within which the law wants a combination to stop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LegalStop {
    /// Speed before braking [m/s].
    pub from_metres_per_second: f64,
    /// Longest stopping distance.
    pub within: Length,
}

impl BrakeLaw {
    /// Whether a trailer of this gross mass needs brakes by this row.
    pub fn asks_brakes(&self, gross: Mass) -> bool {
        gross > self.gross || (self.from && gross == self.gross)
    }
}

/// Every row, in the order of the file.
pub fn brake_laws() -> Vec<Sourced<BrakeLaw>> {
    rows(Topic::LawBrakes)
        .filter_map(|row| {
            let gross_text = row.text("gross")?;
            Some(row.sourced(BrakeLaw {
                id: row.text("id")?,
                profile: TowProfile::from_id(row.text("profile")?)?,
                place: row.text("place_name")?,
                law: row.text("law")?,
                applies_to: row.text("applies_to")?,
                gross: Mass::parse(gross_text).ok()?,
                gross_text,
                from: row.text("from")? == "from",
                more: row.text("more").unwrap_or_default(),
                as_of: row.text("as_of")?,
            }))
        })
        .collect()
}

/// The rows of one region.
pub fn brake_laws_of(profile: TowProfile) -> Vec<Sourced<BrakeLaw>> {
    brake_laws()
        .into_iter()
        .filter(|law| law.value.profile == profile)
        .collect()
}

/// An example of a legal stopping distance, with brakes on all wheels of the combination or not.
pub fn legal_stop(all_braked: bool) -> Option<Sourced<LegalStop>> {
    let id = if all_braked {
        "all-braked"
    } else {
        "part-braked"
    };
    let row = find(Topic::LawStops, "id", id)?;
    Some(row.sourced(LegalStop {
        from_metres_per_second: row.number("mph")? * METRES_PER_SECOND_PER_MPH,
        within: Length::from_feet(row.number("feet")?),
    }))
}
