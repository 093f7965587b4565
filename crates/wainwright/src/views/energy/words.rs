//! What trips and their odds are called by people. Not here: the odds.

use wainwright_analysis::result::trip::{Band, Chance, HelpKind, RunsOut, TripOdds, TripOutlook};
use wainwright_model::{Id, Project};
use wainwright_units::{Quantity, Ratio, System};

/// Names of the months, January first.
pub const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// What a month is called; 1 is January.
pub fn month(number: u32) -> &'static str {
    let index = (number as usize).checked_sub(1);
    index
        .and_then(|index| MONTHS.get(index))
        .unwrap_or(&"an unknown month")
}

/// How odds stand to those that are accepted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Even the upper end of the interval is accepted.
    Lasts,
    /// It is about as often as is accepted: the accepted odds lie in the interval.
    Close,
    /// Even the lower end is more than is accepted.
    TooOften,
}

impl Verdict {
    /// For people, beside a colour.
    pub fn word(self) -> &'static str {
        match self {
            Self::Lasts => "Lasts",
            Self::Close => "Close",
            Self::TooOften => "Too often",
        }
    }

    /// For machines.
    pub fn id(self) -> &'static str {
        match self {
            Self::Lasts => "lasts",
            Self::Close => "close",
            Self::TooOften => "too-often",
        }
    }
}

/// How odds stand to those that are accepted.
pub fn verdict(chance: Chance, accepted: Ratio) -> Verdict {
    if chance.high <= accepted {
        Verdict::Lasts
    } else if chance.low > accepted {
        Verdict::TooOften
    } else {
        Verdict::Close
    }
}

/// What happens when it runs out.
pub fn runs_out(what: RunsOut) -> &'static str {
    match what {
        RunsOut::Energy => "the battery runs empty",
        RunsOut::Water => "the fresh water runs out",
        RunsOut::Waste => "the waste water tank runs over",
        RunsOut::Fuel => "the heater runs out of fuel",
    }
}

/// What it is called.
pub fn name(what: RunsOut) -> &'static str {
    match what {
        RunsOut::Energy => "Energy",
        RunsOut::Water => "Fresh water",
        RunsOut::Waste => "Waste water",
        RunsOut::Fuel => "Heater fuel",
    }
}

/// The same for machines.
pub fn id(what: RunsOut) -> &'static str {
    match what {
        RunsOut::Energy => "energy",
        RunsOut::Water => "water",
        RunsOut::Waste => "waste",
        RunsOut::Fuel => "fuel",
    }
}

/// Odds that a change is held against: those of what it helps against, as the trip is now.
pub fn before(outlook: &TripOutlook, of: RunsOut) -> Ratio {
    let mut all = outlook.odds.iter();
    let odds = all.find(|odds| odds.what == of);
    odds.map_or(outlook.any.share, |odds| odds.chance.share)
}

/// The verdict on the whole trip: on what can run out, for a tank that runs over ends no trip.
pub fn headline(outlook: &TripOutlook) -> String {
    match verdict(outlook.any, outlook.accepted.value) {
        Verdict::Lasts => "It lasts".into(),
        Verdict::Close => "It is close".into(),
        Verdict::TooOften => {
            let worst = outlook
                .odds
                .iter()
                .filter(|odds| odds.what != RunsOut::Waste)
                .max_by(|one, other| one.chance.share.total_cmp(&other.chance.share));
            worst.map_or_else(
                || "It runs out too often".into(),
                |worst| format!("Too often {}", runs_out(worst.what)),
            )
        }
    }
}

/// "12 of 100", never a zero for something that happens.
pub fn of_hundred(share: Ratio) -> String {
    let hundredths = share.fraction() * 100.0;
    match hundredths {
        none if none <= 0.0 => "0 of 100".into(),
        few if few < 1.0 => "fewer than 1 of 100".into(),
        all if all >= 100.0 => "100 of 100".into(),
        many if many > 99.0 => "more than 99 of 100".into(),
        _ => format!("{hundredths:.0} of 100"),
    }
}

/// Short, for charts and tables: "12 %".
pub fn percent(share: Ratio) -> String {
    let hundredths = share.fraction() * 100.0;
    match hundredths {
        few if few > 0.0 && few < 1.0 => "<1 %".into(),
        many if many > 99.0 && many < 100.0 => ">99 %".into(),
        _ => format!("{hundredths:.0} %"),
    }
}

/// "In 12 of 100 trips like this the battery runs empty."
pub fn odds(odds: &TripOdds, runs: usize) -> String {
    let what = runs_out(odds.what);
    let share = odds.chance.share.fraction();
    if share <= 0.0 {
        format!("In none of {runs} trips like this {what}.")
    } else if share >= 1.0 {
        format!("In every trip like this {what}.")
    } else {
        format!(
            "In {} trips like this {what}.",
            of_hundred(odds.chance.share)
        )
    }
}

/// "Between 10 and 15 of 100, as far as so many tries tell."
pub fn interval(chance: Chance) -> String {
    let end = |share: Ratio| {
        let hundredths = share.fraction() * 100.0;
        // Near the ends a tenth tells something.
        let decimals = usize::from(!(10.0..=90.0).contains(&hundredths));
        let text = format!("{hundredths:.decimals$}");
        text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
    };
    format!(
        "between {} and {} of 100",
        end(chance.low),
        end(chance.high)
    )
}

/// When it first happens: "mostly on day 5 (day 3 to 7)".
pub fn day(day: Band) -> String {
    let (low, middle, high) = (day.low.round(), day.middle.round(), day.high.round());
    if low == high {
        format!("on day {middle:.0}")
    } else {
        format!("mostly around day {middle:.0}, seldom before day {low:.0} or after day {high:.0}")
    }
}

/// With a capital letter first.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters
        .next()
        .map(|letter| letter.to_uppercase().to_string());
    format!("{}{}", first.unwrap_or_default(), letters.as_str())
}

/// What could be done.
pub fn help(project: &Project, what: &HelpKind, units: System) -> String {
    let item = |id: &Id| project.label_or_id("item", id.as_str()).to_owned();
    let used = |id: &Id| use_name(project, id);
    match what {
        HelpKind::OneMoreModule(id) => format!("One more module like {}", item(id)),
        HelpKind::Tilt(degrees) => format!("Tilt the flat modules by {degrees:.0}°"),
        HelpKind::OneMoreBattery(id) => format!("One more battery like {}", item(id)),
        HelpKind::InverterOff(id) => format!("{} on only while something is used on it", item(id)),
        HelpKind::HalfOf(id) => format!("Use {} half as long", used(id)),
        HelpKind::MoreWater(volume) => format!("Fresh water for {} in all", volume.show(units)),
        HelpKind::MoreWaste(volume) => format!("A waste tank for {} in all", volume.show(units)),
        HelpKind::ShoreDay(day) => format!("Shore power on day {day}, noon to noon"),
        HelpKind::TapDay(day) => format!("Fill up and empty the tanks on day {day}"),
        HelpKind::DriveLonger => "Drive an hour longer on each driving day".into(),
    }
}

/// What a use is called: its own name, or that of its item.
pub fn use_name(project: &Project, id: &Id) -> String {
    use wainwright_model::FieldExt;
    let Some(given) = project.uses.get(id.as_str()) else {
        return id.to_string();
    };
    match (given.label.value(), given.of.value()) {
        (Some(label), _) => label.clone(),
        (None, Some(item)) => project.label_or_id("item", item).to_owned(),
        (None, None) => id.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chance(share: f64, low: f64, high: f64) -> Chance {
        let ratio = Ratio::from_fraction;
        Chance {
            share: ratio(share),
            low: ratio(low),
            high: ratio(high),
        }
    }

    #[test]
    fn rare_things_are_not_shown_as_never_nor_common_ones_as_always() {
        let words = |share| of_hundred(Ratio::from_fraction(share));
        assert_eq!(words(0.0), "0 of 100");
        assert_eq!(words(0.004), "fewer than 1 of 100");
        assert_eq!(words(0.12), "12 of 100");
        assert_eq!(words(0.998), "more than 99 of 100");
        assert_eq!(words(1.0), "100 of 100");
    }

    #[test]
    fn the_verdict_is_only_sure_when_the_whole_interval_is_on_one_side() {
        let accepted = Ratio::from_fraction(0.05);
        assert_eq!(verdict(chance(0.01, 0.005, 0.02), accepted), Verdict::Lasts);
        assert_eq!(verdict(chance(0.04, 0.03, 0.06), accepted), Verdict::Close);
        assert_eq!(verdict(chance(0.06, 0.04, 0.08), accepted), Verdict::Close);
        assert_eq!(
            verdict(chance(0.2, 0.17, 0.23), accepted),
            Verdict::TooOften
        );
    }

    #[test]
    fn odds_are_a_sentence() {
        let mut one = TripOdds {
            what: RunsOut::Water,
            chance: chance(0.12, 0.1, 0.145),
            day: None,
        };
        assert_eq!(
            odds(&one, 600),
            "In 12 of 100 trips like this the fresh water runs out."
        );
        assert_eq!(interval(one.chance), "between 10 and 14 of 100");
        one.chance = chance(0.0, 0.0, 0.0064);
        assert_eq!(
            odds(&one, 600),
            "In none of 600 trips like this the fresh water runs out."
        );
        assert_eq!(interval(one.chance), "between 0 and 0.6 of 100");
    }

    #[test]
    fn days_have_one_number_when_they_are_one() {
        let band = |low, middle, high| Band { low, middle, high };
        assert_eq!(day(band(3.0, 3.0, 3.0)), "on day 3");
        assert_eq!(
            day(band(3.0, 5.0, 6.0)),
            "mostly around day 5, seldom before day 3 or after day 6"
        );
    }
}
