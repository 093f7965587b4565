//! The working behind odds and sums of a trip. Not here: simulating it.

use super::words;
use crate::views::basis::BasisView;
use crate::views::working::{InputView, StepView, WorkingView};
use wainwright_analysis::result::trip::{Chance, Help, TripOutlook};
use wainwright_units::{Quantity, Ratio, System};

/// How odds came about: counted, with the interval of Wilson.
pub fn of_chance(chance: Chance, runs: usize) -> WorkingView {
    let count = (chance.share.fraction() * runs as f64).round();
    let share = percent(chance.share);
    WorkingView {
        steps: vec![
            StepView {
                symbol: "p".into(),
                formula: "p = trips in which it happens / trips that were simulated".into(),
                numbers: format!("{count:.0} / {runs}"),
                result: share,
                inputs: vec![
                    computed("trips in which it happens", format!("{count:.0}")),
                    computed("trips that were simulated", format!("{runs}")),
                ],
            },
            StepView {
                symbol: "interval".into(),
                formula: "(p + z²/2n ± z √(p(1−p)/n + z²/4n²)) / (1 + z²/n), Wilson, 95 %".into(),
                numbers: format!("n = {runs}, z = 1.96"),
                result: format!("{} to {}", percent(chance.low), percent(chance.high)),
                inputs: Vec::new(),
            },
        ],
    }
}

/// How the gain of a change came about.
pub fn of_help(help: &Help, before: Ratio) -> WorkingView {
    WorkingView {
        steps: vec![StepView {
            symbol: "gain".into(),
            formula: "gain = mean of (runs out without it − runs out with it), over pairs of trips in the same weather".into(),
            numbers: format!("odds now {}, with it {}", percent(before), percent(help.chance.share)),
            result: format!("{} ± {}", percent(help.gain), percent(help.margin)),
            inputs: Vec::new(),
        }],
    }
}

/// How the sums of energy hang together.
pub fn of_energy(outlook: &TripOutlook, units: System) -> WorkingView {
    let energy = &outlook.energy;
    let given = energy
        .given
        .iter()
        .map(|one| format!("{} {}", one.label, one.energy.show(units)));
    let taken = energy
        .taken
        .iter()
        .map(|one| format!("{} {}", one.label, one.energy.show(units)));
    WorkingView {
        steps: vec![
            StepView {
                symbol: "in".into(),
                formula: "what the sources give + what is taken out of the battery".into(),
                numbers: given.collect::<Vec<_>>().join(" + "),
                result: format!("battery gives {}", energy.from_battery.show(units)),
                inputs: Vec::new(),
            },
            StepView {
                symbol: "out".into(),
                formula: "what is used + what is lost in the battery; each the mean of all trips, over the whole trip".into(),
                numbers: taken.collect::<Vec<_>>().join(" + "),
                result: format!("lost in the battery {}", energy.battery_losses.show(units)),
                inputs: Vec::new(),
            },
        ],
    }
}

fn computed(symbol: &str, value: String) -> InputView {
    InputView {
        symbol: symbol.into(),
        value,
        basis: BasisView::Computed,
    }
}

/// To a tenth of a percent: here exactness is asked for.
fn percent(share: Ratio) -> String {
    let text = format!("{:.1}", share.fraction() * 100.0);
    format!("{} %", text.strip_suffix(".0").unwrap_or(&text))
}

/// What the interval says, for a hint.
pub fn sure(chance: Chance, runs: usize) -> String {
    let mut text = words::interval(chance);
    text.push_str(&format!(", from {runs} simulated trips"));
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_count_is_that_of_the_trips() {
        let ratio = Ratio::from_fraction;
        let chance = Chance {
            share: ratio(0.035),
            low: ratio(0.023),
            high: ratio(0.053),
        };
        let working = of_chance(chance, 600);
        assert_eq!(working.steps[0].numbers, "21 / 600");
        assert_eq!(working.steps[1].result, "2.3 % to 5.3 %");
    }
}
