//! The zone around a metal rib, through which much more heat goes. A hand rule: its width is how far
//! the rib draws heat sideways. Not here: studs of published walls (`studs`).

use wainwright_units::{Length, Ratio};

use super::layers::{BuildUp, Films, Layer, MetalRibs, Resolved, Section};
use crate::refusal::{Refusal, above_zero, require};

/// Least distance from metal to surface that the rule counts [m] (memory).
const LEAST_DISTANCE: f64 = 0.013;

/// The zone around one metal rib.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zone {
    /// Width of the zone.
    pub width: Length,
    /// Its share of the area.
    pub share: Ratio,
    /// Resistance inside it, films included [m²K/W].
    pub resistance: f64,
    /// Of that, the layers that the rib bridges [m²K/W].
    pub bridged: f64,
}

/// Every way through a build-up: its sections, and the zone around a metal rib as one more, in
/// which one tight layer stands for the layers that the rib bridges.
pub(crate) fn ways(build_up: &BuildUp, films: Films) -> Result<Vec<Section>, Refusal> {
    let resolved = build_up.resolve(films)?;
    let mut ways = build_up.sections.clone();
    if let (Some(ribs), Some(clear), Some(between)) =
        (&build_up.metal, resolved.first(), build_up.sections.first())
    {
        let around = zone(ribs, build_up, clear)?;
        let mut layers = between.layers.clone();
        for layer in layers
            .iter_mut()
            .take(ribs.last_layer + 1)
            .skip(ribs.first_layer)
        {
            *layer = Layer::known(0.0, 0.0);
        }
        if let Some(first) = layers.get_mut(ribs.first_layer) {
            *first = Layer::known(around.bridged, ribs.vapour_metres);
        }
        ways.push(Section {
            share: around.share,
            layers,
        });
    }
    Ok(ways)
}

/// The zone around the ribs of a build-up whose clear section is given.
pub(super) fn zone(
    ribs: &MetalRibs,
    build_up: &BuildUp,
    clear: &Resolved,
) -> Result<Zone, Refusal> {
    check(ribs)?;
    let layers = build_up
        .sections
        .first()
        .map_or(&[][..], |section| &section.layers);
    let bridged = layers
        .get(ribs.first_layer..=ribs.last_layer)
        .unwrap_or(&[]);
    require(
        "last layer that the rib bridges, counted from 0",
        ribs.last_layer as f64,
        !bridged.is_empty(),
        "one of the layers, not before the first that it bridges",
    )?;
    let thickness = |from: usize, to: usize| -> f64 {
        layers.get(from..to).map_or(0.0, |part| {
            part.iter().map(|one| one.thickness.metres()).sum()
        })
    };
    let (before, after) = (ribs.first_layer, ribs.last_layer + 1);
    let distance = thickness(0, before)
        .max(thickness(after, layers.len()))
        .max(LEAST_DISTANCE);
    let width = (ribs.flange.metres() + 2.0 * distance).min(ribs.spacing.metres());
    let filled: f64 = clear
        .resistances
        .get(before..after)
        .map_or(0.0, |part| part.iter().sum());
    let rib = rib_resistance(ribs, width, thickness(before, after), filled)?;
    Ok(Zone {
        width: Length::from_metres(width),
        share: Ratio::from_fraction(width / ribs.spacing.metres()),
        resistance: clear.total() - filled + rib,
        bridged: rib,
    })
}

/// Resistance of the bridged layers within the zone: flange, web and flange, each beside the fill.
fn rib_resistance(ribs: &MetalRibs, width: f64, depth: f64, filled: f64) -> Result<f64, Refusal> {
    let sheet = ribs.sheet.metres();
    require(
        "thickness of the layers that the rib bridges [m]",
        depth,
        depth > 2.0 * sheet,
        "more than two thicknesses of the metal",
    )?;
    above_zero(
        "resistance of the layers that the rib bridges [m²K/W]",
        filled,
    )?;
    let (metal, fill) = (ribs.conductivity.watts_per_kelvin_metre(), depth / filled);
    let beside = |share: f64| metal * share + fill * (1.0 - share);
    let flange = (ribs.flange.metres() / width).min(1.0);
    let web = (ribs.webs as f64 * sheet / width).min(1.0);
    Ok(2.0 * sheet / beside(flange) + (depth - 2.0 * sheet) / beside(web))
}

fn check(ribs: &MetalRibs) -> Result<(), Refusal> {
    above_zero("spacing of the ribs [m]", ribs.spacing.metres())?;
    above_zero("flange of the rib [m]", ribs.flange.metres())?;
    above_zero("metal of the rib [m]", ribs.sheet.metres())?;
    above_zero("webs of the rib", ribs.webs as f64)?;
    above_zero(
        "conductivity of the rib [W/(m·K)]",
        ribs.conductivity.watts_per_kelvin_metre(),
    )?;
    crate::refusal::not_below_zero("s_d of the rib [m]", ribs.vapour_metres)?;
    require(
        "flange of the rib [m]",
        ribs.flange.metres(),
        ribs.flange < ribs.spacing,
        "less than the spacing",
    )
}
