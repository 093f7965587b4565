//! Combinations of modules and batteries as plain data and in words. Not here: their odds.

use super::ChanceView;
use super::words::{self, Verdict, verdict};
use serde::Serialize;
use wainwright_analysis::result::trip::{NoOutlook, SizeChart, SizePoint};
use wainwright_model::Project;
use wainwright_units::{Quantity, System};

/// Version of [`SizeReport`].
pub const SIZE_VERSION: u32 = 1;

/// How large battery and modules would have to be, for machines.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SizeReport {
    /// [`SIZE_VERSION`].
    pub size_report: u32,
    /// Version of the program.
    pub program: &'static str,
    /// The file, when there is one.
    pub file: Option<String>,
    /// The trip's id.
    pub trip: String,
    /// Why there is nothing; none when there is.
    pub why_none: Option<String>,
    /// Odds that are accepted.
    pub accepted_share: Option<f64>,
    /// Trips that each combination was simulated with.
    pub runs: Option<usize>,
    /// The sentence on the smallest ones.
    pub words: Option<String>,
    /// Every combination.
    pub points: Vec<SizeView>,
}

/// One combination.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SizeView {
    /// Number of modules.
    pub modules: u32,
    /// Number of batteries.
    pub batteries: u32,
    /// Power of the modules.
    pub watts: f64,
    /// Energy of the batteries.
    pub watt_hours: f64,
    /// Odds that the battery runs empty.
    pub chance: ChanceView,
    /// Mass of all.
    pub kilograms: Option<f64>,
    /// Price of those that are not there yet.
    pub price: Option<f64>,
    /// It holds the accepted odds.
    pub holds: bool,
    /// No other one that holds them has fewer of one and no more of the other.
    pub smallest: bool,
    /// It is there now.
    pub now: bool,
}

impl SizeReport {
    /// The same as plain data.
    pub fn of(
        found: &Result<SizeChart, NoOutlook>,
        trip: &str,
        project: &Project,
        units: System,
        file: Option<&str>,
    ) -> Self {
        let chart = found.as_ref().ok();
        Self {
            size_report: SIZE_VERSION,
            program: env!("CARGO_PKG_VERSION"),
            file: file.map(str::to_owned),
            trip: trip.to_owned(),
            why_none: found.as_ref().err().map(super::why_none),
            accepted_share: chart.map(|chart| chart.accepted.fraction()),
            runs: chart.map(|chart| chart.runs),
            words: chart.map(|chart| sentence(chart, project, units)),
            points: chart.map(views).unwrap_or_default(),
        }
    }
}

fn views(chart: &SizeChart) -> Vec<SizeView> {
    let all = chart.points.iter().enumerate();
    all.map(|(at, point)| SizeView {
        modules: point.modules,
        batteries: point.batteries,
        watts: point.power.watts(),
        watt_hours: point.energy.watt_hours(),
        chance: ChanceView::of(point.chance),
        kilograms: point.mass.map(|mass| mass.kilograms()),
        price: point.price,
        holds: holds(chart, point),
        smallest: chart.best.contains(&at),
        now: chart.now == Some(at),
    })
    .collect()
}

/// Whether it holds the accepted odds.
pub fn holds(chart: &SizeChart, point: &SizePoint) -> bool {
    point.chance.share <= chart.accepted
}

/// How sure that is.
pub fn fares(chart: &SizeChart, point: &SizePoint) -> Verdict {
    verdict(point.chance, chart.accepted)
}

/// "2 modules and 1 battery": what a combination is.
pub fn combination(modules: u32, batteries: u32) -> String {
    let count = |number: u32, one: &str, many: &str| match number {
        0 => format!("no {one}"),
        1 => format!("1 {one}"),
        _ => format!("{number} {many}"),
    };
    format!(
        "{} and {}",
        count(modules, "module", "modules"),
        count(batteries, "battery", "batteries")
    )
}

/// What is there now, and the smallest combinations that hold.
pub fn sentence(chart: &SizeChart, project: &Project, units: System) -> String {
    let now = chart.now.and_then(|at| chart.points.get(at));
    let now = now.map(|point| {
        format!(
            "With {}, as it is now, the battery runs empty in {} trips in {}.",
            combination(point.modules, point.batteries),
            words::of_hundred(point.chance.share),
            words::month(chart.month)
        )
    });
    let best: Vec<String> = chart
        .best
        .iter()
        .filter_map(|at| chart.points.get(*at))
        .map(|point| combination(point.modules, point.batteries))
        .collect();
    let kept = words::of_hundred(chart.accepted);
    let kind = chart
        .module
        .as_ref()
        .map(|id| project.label_or_id("item", id.as_str()));
    let kind = kind.map_or_else(String::new, |name| {
        format!(
            " A module here is one like {name}, {}.",
            chart.module_power.show(units)
        )
    });
    let smallest = match best.as_slice() {
        [] => format!("None of the combinations that were tried keeps to {kept}."),
        [only] => format!("The smallest that keeps to {kept}: {only}."),
        [all @ .., last] => format!(
            "The smallest that keep to {kept}: {}, or {last}.",
            all.join(", ")
        ),
    };
    [now, Some(format!("{smallest}{kind}"))]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use wainwright_analysis::result::trip::Chance;
    use wainwright_units::{Energy, Power, Ratio};

    fn point(modules: u32, batteries: u32, share: f64) -> SizePoint {
        let ratio = Ratio::from_fraction;
        SizePoint {
            modules,
            batteries,
            power: Power::from_watts(200.0 * f64::from(modules)),
            energy: Energy::from_watt_hours(1280.0 * f64::from(batteries)),
            chance: Chance {
                share: ratio(share),
                low: ratio(share * 0.8),
                high: ratio(share * 1.2),
            },
            mass: None,
            price: None,
        }
    }

    #[test]
    fn the_sentence_names_what_is_there_and_the_smallest() {
        let mut chart = SizeChart {
            accepted: Ratio::from_fraction(0.05),
            month: 10,
            module: None,
            module_power: Power::from_watts(200.0),
            battery: None,
            points: vec![point(1, 1, 0.3), point(2, 1, 0.04), point(1, 2, 0.03)],
            best: vec![1, 2],
            now: Some(0),
            runs: 150,
        };
        let project = Project::default();
        assert_eq!(
            sentence(&chart, &project, System::Us),
            "With 1 module and 1 battery, as it is now, the battery runs empty in 30 of 100 trips in October. \
             The smallest that keep to 5 of 100: 2 modules and 1 battery, or 1 module and 2 batteries."
        );
        chart.best.clear();
        assert!(sentence(&chart, &project, System::Us).contains("None of the combinations"));
    }
}
