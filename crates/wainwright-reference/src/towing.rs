//! Towing: tongue shares by region, hitch classes, coupling heights, sway damping thresholds.
//!
//! Not here: brake laws (`brake_law`), tyres (`tyre`), the figures of a vehicle (`tow_vehicle`), any computed load (engines).

use wainwright_units::{Length, Mass, Ratio};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, find, rows};

ids! {
    /// A region whose towing advice is followed.
    TowProfile {
        /// United States.
        Us = "us",
        /// European Union.
        Eu = "eu",
        /// United Kingdom.
        Uk = "uk",
        /// Australia.
        Au = "au",
    }
}

ids! {
    /// A share used in towing.
    TowLimit {
        /// Rule of thumb: share of the cargo in the front half of the box.
        CargoFrontShare = "cargo-front",
        /// Laden trailer over kerb mass of the car, as advice in the United Kingdom.
        MatchingShare = "matching",
        /// Least share of the lost front axle load that weight distribution brings back.
        RestorationLow = "restoration-low",
        /// Largest such share.
        RestorationHigh = "restoration-high",
        /// Measured tilt ratio over the rigid one t/(2h).
        TiltShare = "tilt-share",
        /// Combination rating lost per 1000 m above 1000 m.
        AltitudeLoss = "altitude-loss",
        /// Mass added before sale over the gross rating, above which it must be disclosed (United States).
        TrailerLabelShare = "trailer-label-share",
    }
}

/// How much of a laden trailer's weight should rest on the ball.
///
/// Below `stop_below`: stop. From there to `ok_low`, and above `ok_high`: caution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TongueBand {
    /// Below this share the trailer should not be towed.
    pub stop_below: Sourced<Ratio>,
    /// Low end of the recommended share.
    pub ok_low: Sourced<Ratio>,
    /// High end of the recommended share.
    pub ok_high: Sourced<Ratio>,
    /// What caps the tongue weight whatever the share, as a sentence.
    pub advice: &'static str,
}

/// The least permitted vertical load that a tow vehicle must be built for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VerticalLoadRule {
    /// Share of the permitted towed mass.
    pub share: Ratio,
    /// And not less than this.
    pub least: Mass,
}

/// A range of heights above the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightRange {
    /// Lowest height.
    pub low: Length,
    /// Highest height.
    pub high: Length,
}

/// A class of hitches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HitchClass {
    /// Number of the class, in Roman figures.
    pub name: &'static str,
    /// Largest gross trailer weight.
    pub gross: Mass,
    /// Largest tongue weight; none where no source could be read.
    pub tongue: Option<Mass>,
}

/// When the damping of the sway motion is a worry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SwayDamping {
    /// Below this damping ratio the rig should not be towed so.
    pub stop_below: Sourced<Ratio>,
    /// Below this damping ratio it is a caution.
    pub caution_below: Sourced<Ratio>,
    /// Speed the thresholds hold for [m/s].
    pub at_metres_per_second: Sourced<f64>,
}

/// Recommended tongue share of a region.
pub fn tongue_band(profile: TowProfile) -> Option<TongueBand> {
    let bound = |bound| {
        rows(Topic::TowingTongue)
            .find(|row| {
                row.text("profile") == Some(profile.id()) && row.text("bound") == Some(bound)
            })?
            .quantity("value", Ratio::from_fraction)
    };
    Some(TongueBand {
        stop_below: bound("stop-below")?,
        ok_low: bound("ok-low")?,
        ok_high: bound("ok-high")?,
        advice: find(Topic::TowingAdvice, "profile", profile.id())?.text("advice")?,
    })
}

/// A share used in towing.
pub fn tow_limit(limit: TowLimit) -> Option<Sourced<Ratio>> {
    find(Topic::TowingLimits, "id", limit.id())?.quantity("value", Ratio::from_fraction)
}

/// European rule for the permitted vertical load of a tow vehicle.
pub fn rated_vertical_load() -> Option<Sourced<VerticalLoadRule>> {
    let row = rows(Topic::TowingVertical).next()?;
    Some(row.sourced(VerticalLoadRule {
        share: Ratio::from_fraction(row.number("share")?),
        least: Mass::from_kilograms(row.number("least_kg")?),
    }))
}

/// European height of the tow ball's centre, vehicle laden.
pub fn ball_height() -> Option<Sourced<HeightRange>> {
    height("ball")
}

/// European height of the trailer's coupling, trailer laden.
pub fn coupling_height() -> Option<Sourced<HeightRange>> {
    height("coupling")
}

/// Classes of hitches by gross trailer weight, lightest first (United States).
pub fn hitch_classes() -> Vec<Sourced<HitchClass>> {
    rows(Topic::TowingHitchClasses)
        .filter_map(|row| {
            Some(row.sourced(HitchClass {
                name: row.text("name")?,
                gross: Mass::from_pounds(row.number("gross_lb")?),
                tongue: row.number("tongue_lb").map(Mass::from_pounds),
            }))
        })
        .collect()
}

/// The lightest class that takes this gross trailer weight; none above the heaviest class.
pub fn hitch_class_for(gross: Mass) -> Option<Sourced<HitchClass>> {
    hitch_classes()
        .into_iter()
        .find(|class| gross <= class.value.gross)
}

/// Damping thresholds of the sway motion.
pub fn sway_damping() -> Option<SwayDamping> {
    let row = |id| find(Topic::TowingSway, "id", id);
    Some(SwayDamping {
        stop_below: row("stop-below")?.quantity("value", Ratio::from_fraction)?,
        caution_below: row("caution-below")?.quantity("value", Ratio::from_fraction)?,
        at_metres_per_second: row("speed-kmh")?.quantity("value", |speed| speed / 3.6)?,
    })
}

fn height(id: &str) -> Option<Sourced<HeightRange>> {
    let row = find(Topic::TowingHeights, "id", id)?;
    Some(row.sourced(HeightRange {
        low: Length::from_millimetres(row.number("low_mm")?),
        high: Length::from_millimetres(row.number("high_mm")?),
    }))
}
