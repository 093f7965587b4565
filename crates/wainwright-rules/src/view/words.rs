//! Figures and lists in the words of a headline. Rounding happens here and
//! nowhere else in this crate. Not here: names of gear (see `names`).

use wainwright_units::{
    Current, Duration, Length, Power, Quantity, Ratio, Resistance, System, Temperature, Voltage,
};

/// A current: `21.5 A`.
pub(crate) fn amps(current: Current) -> String {
    current.abs().show(System::Metric)
}

/// A voltage to a hundredth of a volt below 20 V: `11.94 V`.
pub(crate) fn volts(voltage: Voltage) -> String {
    voltage.show(System::Metric)
}

/// A power: `4.6 W`.
pub(crate) fn watts(power: Power) -> String {
    power.show(System::Metric)
}

/// A resistance: `2.1 mΩ`.
pub(crate) fn ohms(resistance: Resistance) -> String {
    resistance.show(System::Metric)
}

/// A time: `0.34 s`.
pub(crate) fn time(duration: Duration) -> String {
    duration.show(System::Metric)
}

/// A length in the project's own units.
pub(crate) fn length(length: Length, system: System) -> String {
    length.show(system)
}

/// Copper melts at 1085 °C; the models are not valid above, and no larger
/// figure means anything [°C].
pub(crate) const COPPER_MELTS: f64 = 1085.0;

/// A temperature of metal or insulation, in degrees Celsius everywhere,
/// because insulation is printed and rated so.
pub(crate) fn heat(temperature: Temperature) -> String {
    metal(temperature.celsius(), 0)
}

/// A temperature and the limit it is over, with a decimal where whole degrees
/// would read alike.
pub(crate) fn heats(temperature: Temperature, limit: Temperature) -> (String, String) {
    let (value, limit) = (temperature.celsius(), limit.celsius());
    let alike = value.round() == limit.round();
    let decimals = usize::from(alike);
    (metal(value, decimals), metal(limit, decimals))
}

fn metal(celsius: f64, decimals: usize) -> String {
    if celsius >= COPPER_MELTS {
        return format!("{COPPER_MELTS:.0} °C, where copper melts,");
    }
    format!("{celsius:.decimals$} °C")
}

/// A temperature of air in the units of the project.
pub(crate) fn air(temperature: Temperature, system: System) -> String {
    match system {
        System::Metric => format!("{:.0} °C", temperature.celsius()),
        System::Us => format!("{:.0} °F", temperature.celsius() * 1.8 + 32.0),
    }
}

/// A share: `8.4 %`.
pub(crate) fn percent(ratio: Ratio) -> String {
    let percent = ratio.fraction() * 100.0;
    let decimals = usize::from(percent.abs() < 10.0);
    let text = format!("{percent:.decimals$}");
    let short = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    format!("{short} %")
}

/// A share and the limit it is over, with two decimals where they would read
/// alike.
pub(crate) fn percents(value: Ratio, limit: Ratio) -> (String, String) {
    let short = (percent(value), percent(limit));
    if short.0 != short.1 {
        return short;
    }
    let long = |ratio: Ratio| format!("{:.2} %", ratio.fraction() * 100.0);
    (long(value), long(limit))
}

/// A small count spelled out: `five`, `14`.
pub(crate) fn count(number: usize) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve",
    ];
    match WORDS.get(number) {
        Some(word) => (*word).to_string(),
        None => number.to_string(),
    }
}

/// A count with its noun in the right number: `one wire`, `five wires`.
pub(crate) fn counted(number: usize, noun: &str) -> String {
    let plural = match number {
        1 => noun.to_string(),
        _ => format!("{noun}{}", if noun.ends_with('s') { "es" } else { "s" }),
    };
    format!("{} {plural}", count(number))
}

/// `a`, `a and b`, `a, b and c`; more than `most` are cut short with a count.
pub(crate) fn list(names: &[String], most: usize) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        _ if names.len() > most.max(1) => {
            let shown = names
                .iter()
                .take(most.max(1))
                .cloned()
                .collect::<Vec<_>>()
                .join(", ");
            format!("{shown} and {} more", names.len() - most.max(1))
        }
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}

/// The text with its first letter in upper case.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_read_like_sentences() {
        let names: Vec<String> = ["a", "b", "c", "d"].map(str::to_string).to_vec();
        assert_eq!(list(&names[..1], 3), "a");
        assert_eq!(list(&names[..2], 3), "a and b");
        assert_eq!(list(&names[..3], 3), "a, b and c");
        assert_eq!(list(&names, 2), "a, b and 2 more");
    }

    #[test]
    fn counts_and_shares_are_short() {
        assert_eq!(counted(1, "wire"), "one wire");
        assert_eq!(counted(5, "bus"), "five buses");
        assert_eq!(count(14), "14");
        assert_eq!(percent(Ratio::from_fraction(0.084)), "8.4 %");
        assert_eq!(percent(Ratio::from_fraction(0.8)), "80 %");
        assert_eq!(percent(Ratio::from_fraction(0.03)), "3 %");
        assert_eq!(percent(Ratio::from_fraction(1.204)), "120 %");
    }

    #[test]
    fn heat_says_no_more_than_it_knows() {
        let hot = Temperature::from_celsius;
        assert_eq!(heat(hot(96.4)), "96 °C");
        assert_eq!(heat(hot(14_212.0)), "1085 °C, where copper melts,");
        assert_eq!(
            heats(hot(85.4), hot(85.0)),
            ("85.4 °C".into(), "85.0 °C".into())
        );
        assert_eq!(air(hot(40.0), System::Us), "104 °F");
        assert_eq!(air(hot(40.0), System::Metric), "40 °C");
    }
}
