//! Heat transmittance of a build-up, and temperatures through one of its sections. Not here: metal
//! ribs (`zone`).

use wainwright_units::{Ratio, Temperature};

use super::layers::{BuildUp, Films, Flow, Resolved, Section};
use super::zone::{Zone, zone};
use crate::refusal::{Refusal, above_zero, finite, require};

/// Difference allowed between heat into and out of a section, as a share of it.
const CLOSES: f64 = 1e-9;

/// What a build-up lets through.
#[derive(Debug, Clone, PartialEq)]
pub struct Transmittance {
    /// U [W/(m²K)].
    pub watts_per_m2_kelvin: f64,
    /// Its inverse, films included [m²K/W].
    pub resistance: f64,
    /// Upper limit of the resistance: the sections do not exchange heat [m²K/W].
    pub upper: f64,
    /// Lower limit: every plane has one temperature [m²K/W].
    pub lower: f64,
    /// Largest error of the resistance that the two limits leave.
    pub error_share: Ratio,
    /// Resistance of each section, films included [m²K/W].
    pub sections: Vec<f64>,
    /// The zone around a metal rib, when there are any.
    pub zone: Option<Zone>,
}

/// Temperatures through a section.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// Resistance of each layer, outside first [m²K/W].
    pub resistances: Vec<f64>,
    /// Temperature of each surface: the outer one, those between the layers, the inner one.
    pub temperatures: Vec<Temperature>,
    /// Heat from inside to outside [W/m²]; below zero when it is warmer outside.
    pub watts_per_m2: f64,
}

/// Heat transmittance of a build-up.
///
/// # Errors
/// Layers, shares or films that cannot be; a resistance of zero.
pub fn transmittance(build_up: &BuildUp, films: Films) -> Result<Transmittance, Refusal> {
    let resolved = build_up.resolve(films)?;
    let sections: Vec<f64> = resolved.iter().map(Resolved::total).collect();
    let mut conductance = 0.0;
    for (section, total) in build_up.sections.iter().zip(&sections) {
        above_zero("resistance of the section with its films [m²K/W]", *total)?;
        conductance += section.share.fraction() / total;
    }
    let upper = 1.0 / conductance;
    let lower = lower_limit(build_up, &resolved);
    above_zero("lower limit of the resistance [m²K/W]", lower)?;
    let mean = 0.5 * (upper + lower);
    let (resistance, zone) = match (&build_up.metal, resolved.first()) {
        (Some(ribs), Some(clear)) => {
            let around = zone(ribs, build_up, clear)?;
            let share = around.share.fraction();
            let both = share / around.resistance + (1.0 - share) / mean;
            (1.0 / both, Some(around))
        }
        _ => (mean, None),
    };
    Ok(Transmittance {
        watts_per_m2_kelvin: 1.0 / resistance,
        resistance,
        upper,
        lower,
        error_share: Ratio::from_fraction((upper - lower) / (2.0 * mean)),
        sections,
        zone,
    })
}

/// Temperatures through one section between two airs.
///
/// # Errors
/// Layers or films that cannot be, or a section without any resistance.
pub fn profile(
    section: &Section,
    flow: Flow,
    air_layers_at: Temperature,
    films: Films,
    inside: Temperature,
    outside: Temperature,
) -> Result<Profile, Refusal> {
    finite("temperature inside [°C]", inside.celsius())?;
    finite("temperature outside [°C]", outside.celsius())?;
    let resolved = section.resolve(flow, air_layers_at, films)?;
    above_zero(
        "resistance of the section with its films [m²K/W]",
        resolved.total(),
    )?;
    let watts = (inside - outside).kelvins() / resolved.total();
    let celsius = temperatures(&resolved, inside.celsius(), outside.celsius());
    check(&resolved, &celsius, watts, inside.celsius())?;
    Ok(Profile {
        resistances: resolved.resistances,
        temperatures: celsius.into_iter().map(Temperature::from_celsius).collect(),
        watts_per_m2: watts,
    })
}

/// Surface temperatures of a section, outside first [°C].
pub(crate) fn temperatures(resolved: &Resolved, inside: f64, outside: f64) -> Vec<f64> {
    let per_resistance = (inside - outside) / resolved.total();
    let mut reached = resolved.films.outside;
    let mut found = vec![outside + per_resistance * reached];
    for resistance in &resolved.resistances {
        reached += resistance;
        found.push(outside + per_resistance * reached);
    }
    found
}

/// Heat that leaves the last surface to the room must be the heat through the whole.
fn check(resolved: &Resolved, celsius: &[f64], watts: f64, inside: f64) -> Result<(), Refusal> {
    let last = celsius.last().copied().unwrap_or(inside);
    let open = (inside - last) - watts * resolved.films.inside;
    require(
        "heat that is lost inside a section [K]",
        open,
        open.abs() <= CLOSES * (1.0 + inside.abs() + last.abs()),
        "none",
    )
}

fn lower_limit(build_up: &BuildUp, resolved: &[Resolved]) -> f64 {
    let count = resolved.first().map_or(0, |first| first.resistances.len());
    let films = |film: fn(&Resolved) -> f64| parallel(build_up, resolved, film);
    let ends = films(|one| one.films.outside) + films(|one| one.films.inside);
    let layer = |index: usize| {
        parallel(build_up, resolved, |one| {
            one.resistances.get(index).copied().unwrap_or(0.0)
        })
    };
    ends + (0..count).map(layer).sum::<f64>()
}

/// Resistance of one plane of all sections side by side.
fn parallel(build_up: &BuildUp, resolved: &[Resolved], of: impl Fn(&Resolved) -> f64) -> f64 {
    let mut conductance = 0.0;
    for (section, one) in build_up.sections.iter().zip(resolved) {
        let (share, resistance) = (section.share.fraction(), of(one));
        if share > 0.0 {
            conductance += share / resistance;
        }
    }
    1.0 / conductance
}
