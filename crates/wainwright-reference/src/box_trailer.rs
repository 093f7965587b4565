//! Usual box trailers, to begin a project with. Every figure is a judgement: it wants measuring.
//!
//! Not here: the person's own trailer (the project).

use wainwright_units::{Length, Mass, Quantity};

use crate::mark::Sourced;
use crate::store::{Topic, find, rows};
use crate::table::Row;
use crate::towing::TowProfile;

/// A value as computed with, and as the table writes it, in the units of its region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Printed<T> {
    /// The value.
    pub value: T,
    /// The same as text, such as `94 in`.
    pub text: &'static str,
}

/// A usual box trailer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoxTrailer {
    /// Id of the row.
    pub id: &'static str,
    /// Its usual name.
    pub name: &'static str,
    /// Where it is usual.
    pub profile: TowProfile,
    /// Number of axles.
    pub axles: u32,
    /// Whether it has brakes.
    pub brakes: bool,
    /// Inside length.
    pub inside_length: Printed<Length>,
    /// Inside width.
    pub inside_width: Printed<Length>,
    /// Inside height.
    pub inside_height: Printed<Length>,
    /// Ball to the inside of the front wall.
    pub ball_to_front: Printed<Length>,
    /// Ball to the axle, or to the middle between two.
    pub ball_to_axle: Printed<Length>,
    /// Distance between two axles; none with one.
    pub axle_spacing: Option<Printed<Length>>,
    /// Distance between the wheels of an axle, middle to middle.
    pub track: Printed<Length>,
    /// Floor above the ground.
    pub floor_height: Printed<Length>,
    /// Axle above the ground, tyre laden.
    pub wheel_radius: Printed<Length>,
    /// Coupling above the ground when level.
    pub coupling_height: Printed<Length>,
    /// Centre of mass of the empty trailer above the ground.
    pub empty_centre_height: Printed<Length>,
    /// Mass of the empty trailer.
    pub empty_mass: Printed<Mass>,
    /// Tongue weight of the empty trailer.
    pub empty_tongue: Printed<Mass>,
    /// Gross rating.
    pub gross_rating: Printed<Mass>,
    /// Rating of each axle.
    pub axle_rating: Printed<Mass>,
    /// Rating of each tyre.
    pub tyre_rating: Printed<Mass>,
}

/// Every usual box trailer, small ones of a region first.
pub fn box_trailers() -> Vec<Sourced<BoxTrailer>> {
    rows(Topic::BoxTrailers).filter_map(read).collect()
}

/// The usual box trailer with this id.
pub fn box_trailer(id: &str) -> Option<Sourced<BoxTrailer>> {
    read(find(Topic::BoxTrailers, "id", id)?)
}

fn read(row: Row) -> Option<Sourced<BoxTrailer>> {
    let profile = TowProfile::from_id(row.text("profile")?)?;
    let axles = row.text("axles")?.parse().ok()?;
    let length = |column| printed::<Length>(&row, column);
    let mass = |column| printed::<Mass>(&row, column);
    Some(row.sourced(BoxTrailer {
        id: row.text("id")?,
        name: row.text("name")?,
        profile,
        axles,
        brakes: row.number("brakes")? != 0.0,
        inside_length: length("inside_length")?,
        inside_width: length("inside_width")?,
        inside_height: length("inside_height")?,
        ball_to_front: length("ball_to_front")?,
        ball_to_axle: length("ball_to_axle")?,
        axle_spacing: length("axle_spacing"),
        track: length("track")?,
        floor_height: length("floor_height")?,
        wheel_radius: length("wheel_radius")?,
        coupling_height: length("coupling_height")?,
        empty_centre_height: length("empty_centre_height")?,
        empty_mass: mass("empty_mass")?,
        empty_tongue: mass("empty_tongue")?,
        gross_rating: mass("gross_rating")?,
        axle_rating: mass("axle_rating")?,
        tyre_rating: mass("tyre_rating")?,
    }))
}

fn printed<T: Quantity>(row: &Row, column: &str) -> Option<Printed<T>> {
    let text = row.text(column)?;
    Some(Printed {
        value: T::parse(text).ok()?,
        text,
    })
}
