//! Damp and air as plain data. Not here: words (`words`).

use super::words;
use crate::views::energy::words::month;
use serde::Serialize;
use wainwright_analysis::result::indoors::{
    AirCurve, DampResult, DampSide, DampWay, FreshAir, IndoorsResult, SideHeat,
};
use wainwright_model::Project;
use wainwright_units::{Quantity, System};

/// A year of damp.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DampView {
    /// What it is reckoned with, as a sentence.
    pub with: String,
    /// Sides with a described build-up.
    pub sides: Vec<DampSideView>,
    /// Water from which on it runs off, in words.
    pub runs_off: String,
}

/// A side through a year.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DampSideView {
    /// Which.
    pub side: &'static str,
    /// Neither water nor mould.
    pub well: bool,
    /// Ways through it.
    pub ways: Vec<DampWayView>,
    /// What helps, the most thorough first, as sentences.
    pub helps: Vec<String>,
}

/// One way through a side.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DampWayView {
    /// Which, in words.
    pub way: &'static str,
    /// Its share of the side.
    pub share: f64,
    /// Water at the end of each month, January first [g/m²].
    pub stored_grams_per_m2: Vec<f64>,
    /// Most of it [g/m²].
    pub peak_grams_per_m2: f64,
    /// The same in words.
    pub peak: String,
    /// Month of it.
    pub peak_month: Option<&'static str>,
    /// Where it is, the wettest place first.
    pub places: Vec<String>,
    /// Left after a year [g/m²].
    pub left_grams_per_m2: f64,
    /// Whether it dries within the year.
    pub dries: bool,
    /// Whether it runs off.
    pub runs_off: bool,
    /// Inner surface in the coldest month, behind furniture [°C].
    pub surface_celsius: f64,
    /// Humidity of the air at it; above one: water.
    pub surface_humidity: f64,
    /// Whether mould stays away.
    pub mould_free: bool,
    /// How warm the surface stays, 1 as warm as the room (f_Rsi), and what it must be.
    pub factor: (f64, Option<f64>),
    /// Humidity of the room up to which mould stays away.
    pub humidity_allowed: f64,
    /// Verdict as a sentence.
    pub verdict: String,
}

/// Air through a night.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AirView {
    /// Who sleeps how long, as a sentence.
    pub with: String,
    /// Good air, and the most [ppm].
    pub limits_ppm: (f64, f64),
    /// Curves for a chart.
    pub curves: Vec<AirCurveView>,
    /// What is open, as a sentence.
    pub open: String,
    /// What would be enough, as sentences.
    pub needed: Vec<String>,
}

/// A night with air from somewhere.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AirCurveView {
    /// From where, in words.
    pub from: &'static str,
    /// How much, in words.
    pub airflow: String,
    /// Hours since they lay down, and ppm.
    pub points: Vec<(f64, f64)>,
    /// At the end [ppm].
    pub end_ppm: f64,
    /// Humidity where it settles on the coldest night, by breath alone.
    pub humidity: Option<f64>,
    /// Whether it stays below the most.
    pub holds: bool,
}

pub(super) fn damp(found: &IndoorsResult, project: &Project, units: System) -> Option<DampView> {
    let damp = found.damp.as_ref()?;
    let sides = damp.sides.iter().filter_map(|side| {
        let heat = found.side(side.side)?;
        Some(self::side(damp, side, heat, project, units))
    });
    Some(DampView {
        with: format!(
            "Lived in on every day of the year, in the climate {}: {} inside at {:.0} % humidity. The coldest month is {}.",
            project.label_or_id("climate", damp.climate.as_str()),
            damp.inside.value.show(units),
            damp.humidity.value.percent(),
            month(damp.coldest),
        ),
        runs_off: words::water(damp.runs_off, units),
        sides: sides.collect(),
    })
}

fn side(
    damp: &DampResult,
    found: &DampSide,
    heat: &SideHeat,
    project: &Project,
    units: System,
) -> DampSideView {
    let well = |way: &DampWay| way.dries && !way.runs_off && way.mould.holds;
    let helps = found.helps.iter();
    DampSideView {
        side: words::side(found.side),
        well: found.ways.iter().all(well),
        ways: found
            .ways
            .iter()
            .map(|way| self::way(damp, way, found.ways.len() == 1, heat, units))
            .collect(),
        helps: helps
            .map(|help| words::help(help, heat, project, units))
            .collect(),
    }
}

fn way(
    damp: &DampResult,
    way: &DampWay,
    lone: bool,
    heat: &SideHeat,
    units: System,
) -> DampWayView {
    let mould = way.mould;
    let wet = way.places.iter().filter(|wet| wet.grams > damp.counts_from);
    DampWayView {
        way: words::way(way.kind, lone),
        share: way.share.fraction(),
        stored_grams_per_m2: way
            .months
            .iter()
            .map(|month| month.stored.max(0.0))
            .collect(),
        peak_grams_per_m2: way.peak,
        peak: words::water(way.peak, units),
        peak_month: way.peak_month.map(month),
        places: wet
            .map(|wet| words::place(wet.place, way.kind, heat))
            .collect(),
        left_grams_per_m2: way.left,
        dries: way.dries,
        runs_off: way.runs_off,
        surface_celsius: mould.temperature.celsius(),
        surface_humidity: mould.humidity.fraction(),
        mould_free: mould.holds,
        factor: (mould.factor, mould.factor_needed),
        humidity_allowed: mould.humidity_allowed.fraction(),
        verdict: verdict(damp, way, lone, heat, units),
    }
}

fn verdict(damp: &DampResult, way: &DampWay, lone: bool, heat: &SideHeat, units: System) -> String {
    let water = if way.peak < damp.counts_from {
        "stays dry inside".to_owned()
    } else {
        let at = way.places.first();
        let at = at.map_or_else(String::new, |wet| {
            format!(" {}", words::place(wet.place, way.kind, heat))
        });
        let by = way.peak_month.map_or("", month);
        let end = match (way.dries, way.runs_off) {
            (_, true) => "it runs off",
            (true, false) => "it dries by summer",
            (false, false) => "some of it stays",
        };
        format!(
            "{} of water{at} by {by}, {end}",
            words::water(way.peak, units)
        )
    };
    let surface = way.mould.temperature.show(units);
    let mould = if way.mould.humidity.fraction() >= 1.0 {
        format!("the surface is at {surface} in the coldest month: water forms on it")
    } else if way.mould.holds {
        format!("no mould at {surface}")
    } else {
        format!("mould: the surface is at {surface} in the coldest month")
    };
    let kind = words::way(way.kind, lone);
    let mut letters = kind.chars();
    let capital: String = letters
        .next()
        .map(|first| first.to_uppercase().collect::<String>())
        .unwrap_or_default()
        + letters.as_str();
    format!("{capital}: {water}; {mould}.")
}

pub(super) fn air(air: &FreshAir, people: u32, units: System) -> AirView {
    let curve = |curve: &AirCurve| AirCurveView {
        from: words::air(curve.from),
        airflow: curve.airflow.show(units),
        points: curve.points.clone(),
        end_ppm: curve.end_ppm,
        humidity: curve.humidity.map(wainwright_units::Ratio::fraction),
        holds: curve.end_ppm <= air.most_ppm,
    };
    let open = if air.openings.is_empty() {
        "Nothing is always open.".to_owned()
    } else {
        let apart = air.height.map_or_else(
            || "at one height: no air rises through them".to_owned(),
            |height| format!("{} apart", height.show(units)),
        );
        format!(
            "Always open: {} low, {} high, {apart}.",
            words::small(air.low, units),
            words::small(air.high, units)
        )
    };
    AirView {
        with: format!(
            "{people} asleep for {}; {} outside.",
            air.night.show(units),
            air.outside.show(units)
        ),
        limits_ppm: (air.good_ppm, air.most_ppm),
        curves: air.curves.iter().map(curve).collect(),
        open,
        needed: needed(air, units),
    }
}

fn needed(air: &FreshAir, units: System) -> Vec<String> {
    let mut all = Vec::new();
    let needed = &air.needed;
    if let Some(flow) = needed.airflow {
        all.push(format!(
            "{} of fresh air keep the night below {:.0} ppm.",
            flow.show(units),
            air.most_ppm
        ));
    }
    if let Some(opening) = needed.opening {
        all.push(format!(
            "In calm air, shut otherwise, that takes a low and a high opening of {} each, {} apart.",
            words::small(opening, units),
            needed.height.value.show(units)
        ));
    }
    match needed.for_humidity {
        Some(flow) => all.push(format!(
            "{} of it carry the water of people's breath away on the coldest night.",
            flow.show(units)
        )),
        None => all.push("Outside is as humid: fresh air does not dry the room.".to_owned()),
    }
    if let Some((low, high)) = air.guidance {
        all.push(format!(
            "Published guidance for rooms of this size: at least {} low and {} high, never shut; more for any flame that takes its air from the room.",
            words::small(low, units),
            words::small(high, units)
        ));
    }
    all
}
