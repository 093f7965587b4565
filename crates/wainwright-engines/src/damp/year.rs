//! A year of months through every way of a build-up. Not here: what to change (`ask`).

use wainwright_units::Ratio;

use super::month::{Month, MonthWater, pass};
use super::nodes::{Nodes, Wet};
use crate::heat_loss::{BuildUp, Films, ways};
use crate::refusal::{Refusal, require};

/// A year of one way through a build-up.
#[derive(Debug, Clone, PartialEq)]
pub struct WayYear {
    /// Its share of the area: of a section, or of the zone around a metal rib, which comes last.
    pub share: Ratio,
    /// Month of the list in which water first forms; `None` when it stays dry all year.
    pub begins: Option<usize>,
    /// Months from there on, as many as were given, each with its place in the list.
    pub months: Vec<(usize, MonthWater)>,
    /// Most water at once [g/m²].
    pub peak_grams_per_m2: f64,
    /// Month of the list at whose end that is.
    pub peak_month: Option<usize>,
    /// Water then, by place.
    pub peak_at: Vec<Wet>,
    /// Water that is left when the year is over [g/m²].
    pub left_grams_per_m2: f64,
    /// Whether all of it has dried by then.
    pub dries: bool,
    /// Months in which water forms on the inner surface itself.
    pub surface_wet_months: Vec<usize>,
}

/// A year of every way through a build-up: its sections in order, then the zone around a metal rib.
///
/// The year begins, dry, with the first month in which water forms after one in which none does.
///
/// # Errors
/// Layers, films or climates that cannot be, or no month.
pub fn year(build_up: &BuildUp, films: Films, months: &[Month]) -> Result<Vec<WayYear>, Refusal> {
    require(
        "number of months",
        months.len() as f64,
        !months.is_empty(),
        "one or more",
    )?;
    let mut years = Vec::new();
    for (index, way) in ways(build_up, films)?.iter().enumerate() {
        let at = |refusal: Refusal| refusal.at("section", index);
        let resolved = way
            .resolve(build_up.flow, build_up.air_layers_at, films)
            .map_err(at)?;
        let nodes = Nodes::new(&resolved).map_err(at)?;
        years.push(year_of(&nodes, months, way.share).map_err(at)?);
    }
    Ok(years)
}

fn year_of(nodes: &Nodes, months: &[Month], share: Ratio) -> Result<WayYear, Refusal> {
    let begins = begins(nodes, months)?;
    let mut water = vec![0.0; nodes.places.len()];
    let mut found = WayYear {
        share,
        begins,
        months: Vec::with_capacity(months.len()),
        peak_grams_per_m2: 0.0,
        peak_month: None,
        peak_at: Vec::new(),
        left_grams_per_m2: 0.0,
        dries: true,
        surface_wet_months: Vec::new(),
    };
    for step in 0..months.len() {
        let index = (begins.unwrap_or(0) + step) % months.len();
        let month = pass(nodes, &months[index], &mut water)?;
        let stored = month.stored_grams_per_m2();
        if stored > found.peak_grams_per_m2 {
            found.peak_grams_per_m2 = stored;
            found.peak_month = Some(index);
            found.peak_at.clone_from(&month.stored);
        }
        if month.inner_surface_wet {
            found.surface_wet_months.push(index);
        }
        found.months.push((index, month));
    }
    found.left_grams_per_m2 = 1000.0 * water.iter().sum::<f64>();
    found.dries = found.left_grams_per_m2 <= 0.0;
    Ok(found)
}

/// The first month in which water forms after one in which none does.
fn begins(nodes: &Nodes, months: &[Month]) -> Result<Option<usize>, Refusal> {
    let mut forms = Vec::with_capacity(months.len());
    for month in months {
        let mut dry = vec![0.0; nodes.places.len()];
        forms.push(pass(nodes, month, &mut dry)?.stored_grams_per_m2() > 0.0);
    }
    let count = forms.len();
    let after_dry = |index: &usize| forms[*index] && !forms[(*index + count - 1) % count];
    Ok((0..count)
        .find(after_dry)
        .or_else(|| forms.iter().position(|&wet| wet)))
}
