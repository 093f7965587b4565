//! Walls of cold-formed C-studs by a published equation, and screws through insulation. The stud
//! equation is a fit in inches and h·ft²·°F/Btu, so its values stay in those units inside.

use wainwright_units::{Area, Length, Ratio, ThermalConductivity};

use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// One h·ft²·°F/Btu [m²K/W] (exact conversion).
const IMPERIAL: f64 = 0.176_110_2;

/// Coefficients of the zone's width over resistances, for one spacing and one thickness of metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StudZone {
    /// C₀ to C₅ [in, with resistances in h·ft²·°F/Btu].
    pub coefficients: [f64; 6],
    /// Middle of one stud to the middle of the next.
    pub spacing: Length,
    /// Thickness of the metal.
    pub sheet: Length,
    /// Conductivity of the metal.
    pub conductivity: ThermalConductivity,
}

/// A wall of studs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Studs {
    /// Which studs.
    pub zone: StudZone,
    /// Depth of the studs [m], above zero.
    pub depth: Length,
    /// Width of the flange [m], above the thickness of the metal.
    pub flange: Length,
    /// Insulation between the studs [m²K/W], above zero.
    pub cavity: f64,
    /// Insulation across the studs [m²K/W], zero or above.
    pub across: f64,
    /// Everything else that lies across, films included [m²K/W], zero or above.
    pub rest: f64,
}

/// What a wall of studs lets through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StudWall {
    /// U [W/(m²K)].
    pub watts_per_m2_kelvin: f64,
    /// Width of the zone around a stud.
    pub zone: Length,
    /// Conductance of stud and insulation side by side [W/(m²K)].
    pub at_stud: f64,
    /// Resistance through the zone [m²K/W].
    pub zone_resistance: f64,
    /// Resistance between the zones [m²K/W].
    pub clear_resistance: f64,
}

/// Screws through an insulating layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screws {
    /// Conductivity of the screw's metal.
    pub conductivity: ThermalConductivity,
    /// Cross-section of one.
    pub section: Area,
    /// How many per square metre [1/m²].
    pub per_m2: f64,
    /// Thickness of the insulation they go through, above zero.
    pub through: Length,
    /// Resistance of that insulation over that of the whole build-up.
    pub resistance_share: Ratio,
}

/// U of a wall of C-studs.
///
/// # Errors
/// A value that cannot be, or a zone wider than the spacing or not above zero.
pub fn stud_wall(studs: &Studs) -> Result<StudWall, Refusal> {
    check(studs)?;
    let (cavity, across, rest) = (
        studs.cavity / IMPERIAL,
        studs.across / IMPERIAL,
        studs.rest / IMPERIAL,
    );
    let [c0, c1, c2, c3, c4, c5] = studs.zone.coefficients;
    let width = c0
        + c1 * cavity
        + c2 * across
        + c3 * cavity * cavity
        + c4 * across * across
        + c5 * cavity * across;
    let spacing = studs.zone.spacing.inches();
    require(
        "width of the zone around a stud [in]",
        width,
        width > 0.0 && width < spacing,
        "above zero and below the spacing",
    )?;
    let metal = studs.zone.conductivity.watts_per_kelvin_metre();
    let along = studs.depth.metres() / metal / IMPERIAL;
    let share = studs.zone.sheet / studs.flange;
    let at_stud = (1.0 - share) / cavity + share / along;
    let in_zone = rest + across + 1.0 / at_stud;
    let clear = rest + across + cavity;
    let transmittance = (1.0 - width / spacing) / clear + (width / spacing) / in_zone;
    Ok(StudWall {
        watts_per_m2_kelvin: transmittance / IMPERIAL,
        zone: Length::from_inches(width),
        at_stud: at_stud / IMPERIAL,
        zone_resistance: in_zone * IMPERIAL,
        clear_resistance: clear * IMPERIAL,
    })
}

/// What screws through an insulating layer add to U [W/(m²K)].
///
/// # Errors
/// A value below zero, a thickness of zero, a share above one.
pub fn screws(screws: &Screws) -> Result<f64, Refusal> {
    let share = screws.resistance_share.fraction();
    above_zero("insulation under the screws [m]", screws.through.metres())?;
    not_below_zero("screws per square metre", screws.per_m2)?;
    not_below_zero("section of the screw [m²]", screws.section.square_metres())?;
    above_zero(
        "conductivity of the screw",
        screws.conductivity.watts_per_kelvin_metre(),
    )?;
    require(
        "share of the resistance",
        share,
        (0.0..=1.0).contains(&share),
        "0 to 1",
    )?;
    let metal = screws.conductivity.watts_per_kelvin_metre() * screws.section.square_metres();
    Ok(0.8 * metal * screws.per_m2 / screws.through.metres() * share * share)
}

fn check(studs: &Studs) -> Result<(), Refusal> {
    above_zero("depth of the studs [m]", studs.depth.metres())?;
    above_zero("spacing of the studs [m]", studs.zone.spacing.metres())?;
    above_zero("metal of the studs [m]", studs.zone.sheet.metres())?;
    above_zero(
        "conductivity of the studs",
        studs.zone.conductivity.watts_per_kelvin_metre(),
    )?;
    require(
        "flange of the studs [m]",
        studs.flange.metres(),
        studs.flange > studs.zone.sheet,
        "above the thickness of the metal",
    )?;
    above_zero("insulation between the studs [m²K/W]", studs.cavity)?;
    not_below_zero("insulation across the studs [m²K/W]", studs.across)?;
    not_below_zero("other resistance [m²K/W]", studs.rest)
}
