//! Wood and the air's humidity: moisture content it settles at, how much it moves, gaps for that.
//! Coefficients of kinds of wood are not here.

use wainwright_units::{Length, Ratio, Temperature};

use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// Moisture contents between which movement is a straight line [%].
const STRAIGHT: (f64, f64) = (6.0, 14.0);

/// How much wider or narrower wood gets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Movement {
    /// Change of width \[m\], above zero when it swells.
    pub change: Length,
    /// Whether both moisture contents lie where the formula was found to hold, 6 to 14 %.
    pub in_range: bool,
}

/// Planks that are to have room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Planking {
    /// Covering width of one plank \[m\], above zero.
    pub face: Length,
    /// Courses, at least one.
    pub courses: usize,
    /// Change of width over width for each percent of moisture.
    pub per_percent: f64,
    /// Moisture content when it is laid [%].
    pub laid_percent: f64,
    /// Lowest it will have [%].
    pub driest_percent: f64,
    /// Highest it will have [%].
    pub wettest_percent: f64,
    /// Set-off between courses when laid, that swelling may close \[m\].
    pub loosened: Length,
}

/// The room it needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GapAdvice {
    /// Swelling of one plank to the wettest \[m\].
    pub swell_each: Length,
    /// Swelling of all \[m\].
    pub swell: Length,
    /// Shrinking of one plank to the driest \[m\]: the tongue has to hide that.
    pub shrink_each: Length,
    /// Shrinking of all \[m\].
    pub shrink: Length,
    /// Gap at each of the two edges for what the courses themselves do not take up \[m\].
    pub edge_gap: Length,
    /// Set-off between courses that would take up all of it \[m\].
    pub set_off: Length,
    /// Whether all moisture contents lie where the formula was found to hold.
    pub in_range: bool,
}

/// Moisture content that wood settles at in air [% of its dry mass].
///
/// # Errors
/// Temperatures outside −1.1 to 60 °C, humidity outside 0 to 98 %.
pub fn emc_percent(air: Temperature, humidity: Ratio) -> Result<f64, Refusal> {
    let (t, h) = (air.celsius(), humidity.fraction());
    require(
        "temperature of the air [°C]",
        t,
        (-1.1..=60.0).contains(&t),
        "from -1.1 to 60 °C",
    )?;
    require(
        "relative humidity",
        h,
        (0.0..=0.98).contains(&h),
        "from 0 to 98 %",
    )?;
    let w = 349.0 + 1.29 * t + 0.0135 * t * t;
    let k = 0.805 + 0.000_736 * t - 2.73e-6 * t * t;
    let k1 = 6.27 - 0.009_38 * t - 0.000_303 * t * t;
    let k2 = 1.91 + 0.0407 * t - 0.000_293 * t * t;
    let kh = k * h;
    let (one, both) = (k1 * kh, k1 * k2 * kh * kh);
    let bound = kh / (1.0 - kh) + (one + 2.0 * both) / (1.0 + one + both);
    Ok(1800.0 / w * bound)
}

/// Density of wood at a moisture content, from its specific gravity at that moisture content
/// (dry mass over moist volume) [kg/m³].
///
/// # Errors
/// A specific gravity outside 0.1 to 1.3, moisture contents outside 0 to 30 %.
pub fn wood_density(gravity: Ratio, percent: f64) -> Result<f64, Refusal> {
    let share = gravity.fraction();
    require(
        "specific gravity",
        share,
        (0.1..=1.3).contains(&share),
        "from 0.1 to 1.3",
    )?;
    wet(percent)?;
    Ok(1000.0 * share * (1.0 + percent / 100.0))
}

/// Change of width between two moisture contents [%].
///
/// # Errors
/// A width or coefficient that is not above zero, moisture contents outside 0 to 30 %.
pub fn movement(
    width: Length,
    per_percent: f64,
    from_percent: f64,
    to_percent: f64,
) -> Result<Movement, Refusal> {
    above_zero("width [m]", width.metres())?;
    above_zero("change for each percent", per_percent)?;
    for percent in [from_percent, to_percent] {
        wet(percent)?;
    }
    let straight = |percent: f64| percent >= STRAIGHT.0 && percent <= STRAIGHT.1;
    Ok(Movement {
        change: width * (per_percent * (to_percent - from_percent)),
        in_range: straight(from_percent) && straight(to_percent),
    })
}

/// Room that planks need across their courses.
///
/// # Errors
/// As [`movement`]; moisture contents not in order; no course.
pub fn gap_advice(planks: &Planking) -> Result<GapAdvice, Refusal> {
    not_below_zero("set-off [m]", planks.loosened.metres())?;
    let (driest, laid, wettest) = (
        planks.driest_percent,
        planks.laid_percent,
        planks.wettest_percent,
    );
    require(
        "moisture content when laid [%]",
        laid,
        driest <= laid && laid <= wettest,
        "between the driest and the wettest",
    )?;
    require(
        "courses",
        planks.courses as f64,
        planks.courses > 0,
        "at least one",
    )?;
    let swell = movement(planks.face, planks.per_percent, laid, wettest)?;
    let shrink = movement(planks.face, planks.per_percent, laid, driest)?;
    let count = planks.courses as f64;
    let joints = count - 1.0;
    let all = swell.change.metres() * count;
    let outside = (all - joints * planks.loosened.metres()).max(0.0);
    Ok(GapAdvice {
        swell_each: swell.change,
        swell: Length::from_metres(all),
        shrink_each: Length::ZERO - shrink.change,
        shrink: Length::from_metres(-shrink.change.metres() * count),
        edge_gap: Length::from_metres(0.5 * outside),
        set_off: Length::from_metres(if joints > 0.0 { all / joints } else { 0.0 }),
        in_range: swell.in_range && shrink.in_range,
    })
}

/// Length of board for an area: how many units of length for each unit of area, in the same unit
/// [1/m].
///
/// # Errors
/// A face that is not above zero.
pub fn lineal_per_area(face: Length) -> Result<f64, Refusal> {
    above_zero("covering width [m]", face.metres())?;
    Ok(1.0 / face.metres())
}

/// Board feet for each square foot of surface, of boards nominally 1 in thick.
///
/// # Errors
/// Widths that are not above zero.
pub fn board_feet_per_square_foot(nominal: Length, face: Length) -> Result<f64, Refusal> {
    above_zero("nominal width [m]", nominal.metres())?;
    above_zero("covering width [m]", face.metres())?;
    Ok(nominal.metres() / face.metres())
}

fn wet(percent: f64) -> Result<(), Refusal> {
    require(
        "moisture content [%]",
        percent,
        (0.0..=30.0).contains(&percent),
        "from 0 to 30 %",
    )
}
