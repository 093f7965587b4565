//! Figures and lists in the words of a headline. Rounding happens here and
//! nowhere else in this crate. Not here: names of gear (see `names`).

use wainwright_units::{
    Current, Duration, Length, Power, Quantity, Ratio, Resistance, System, Temperature, Voltage,
};

/// A current: `21.5 A`.
pub(crate) fn amps(current: Current) -> String {
    current.abs().show(System::Metric)
}

/// A voltage to a hundredth of a volt, below a tenth of a volt to a
/// millivolt: `11.94 V`, `1.46 V`, `88 mV`.
pub(crate) fn volts(voltage: Voltage) -> String {
    let volts = voltage.volts();
    if volts != 0.0 && volts.abs() < 0.0995 {
        let decimals = usize::from(volts.abs() < 0.00995);
        return format!("{} mV", trimmed(volts * 1000.0, decimals));
    }
    let decimals = if volts.abs() < 20.0 { 2 } else { 1 };
    format!("{} V", trimmed(volts, decimals))
}

/// A voltage and the limit it is held against, with more decimals where they
/// would read alike.
pub(crate) fn voltages(value: Voltage, limit: Voltage) -> (String, String) {
    let short = (volts(value), volts(limit));
    unlike(short, (value.volts(), limit.volts()), "V")
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
/// figure means anything \[°C\].
pub(crate) const COPPER_MELTS: f64 = 1085.0;

/// A temperature of metal in the units of the project.
pub(crate) fn heat(temperature: Temperature, system: System) -> String {
    metal(temperature.celsius(), system, 0)
}

/// The continuous limit of an insulation in the units of the project; the
/// trade names its classes in degrees Celsius, so that name is added:
/// `185 °F (85 °C class)`.
pub(crate) fn class(limit: Temperature, system: System) -> String {
    classed(limit, system, 0)
}

/// A temperature and the limit of the insulation it is over, with a decimal
/// where whole degrees would read alike.
pub(crate) fn heats(
    temperature: Temperature,
    limit: Temperature,
    system: System,
) -> (String, String) {
    let shown = |temperature: Temperature| degrees(temperature.celsius(), system).round();
    let decimals = usize::from(shown(temperature) == shown(limit));
    (
        metal(temperature.celsius(), system, decimals),
        classed(limit, system, decimals),
    )
}

fn classed(limit: Temperature, system: System, decimals: usize) -> String {
    let shown = metal(limit.celsius(), system, decimals);
    match system {
        System::Metric => shown,
        System::Us => format!("{shown} ({:.0} °C class)", limit.celsius()),
    }
}

fn metal(celsius: f64, system: System, decimals: usize) -> String {
    if celsius >= COPPER_MELTS {
        return format!("{} (copper melts)", metal_below(COPPER_MELTS, system, 0));
    }
    metal_below(celsius, system, decimals)
}

fn metal_below(celsius: f64, system: System, decimals: usize) -> String {
    let unit = match system {
        System::Metric => "°C",
        System::Us => "°F",
    };
    format!("{:.decimals$} {unit}", degrees(celsius, system))
}

/// Degrees of the project's units.
fn degrees(celsius: f64, system: System) -> f64 {
    match system {
        System::Metric => celsius,
        System::Us => celsius * 1.8 + 32.0,
    }
}

/// A temperature of air in the units of the project.
pub(crate) fn air(temperature: Temperature, system: System) -> String {
    metal_below(temperature.celsius(), system, 0)
}

/// A share: `8.4 %`.
pub(crate) fn percent(ratio: Ratio) -> String {
    let percent = ratio.fraction() * 100.0;
    let decimals = usize::from(percent.abs() < 10.0);
    format!("{} %", trimmed(percent, decimals))
}

/// A share and the limit it is held against, with more decimals where they
/// would read alike: `10.3 %` and `10 %`.
pub(crate) fn percents(value: Ratio, limit: Ratio) -> (String, String) {
    let short = (percent(value), percent(limit));
    let exact = (value.fraction() * 100.0, limit.fraction() * 100.0);
    unlike(short, exact, "%")
}

/// A current and the limit it is held against, with more decimals where they
/// would read alike.
pub(crate) fn currents(value: Current, limit: Current) -> (String, String) {
    let short = (amps(value), amps(limit));
    unlike(short, (value.abs().amperes(), limit.abs().amperes()), "A")
}

/// Most decimals tried to tell two figures apart.
const MOST_DECIMALS: usize = 4;

/// The short texts, or, where they are the same, the fewest decimals that
/// tell the figures apart.
fn unlike(short: (String, String), exact: (f64, f64), unit: &str) -> (String, String) {
    if short.0 != short.1 {
        return short;
    }
    (1..=MOST_DECIMALS)
        .map(|decimals| (trimmed(exact.0, decimals), trimmed(exact.1, decimals)))
        .find(|(value, limit)| value != limit)
        .map_or(short, |(value, limit)| {
            (format!("{value} {unit}"), format!("{limit} {unit}"))
        })
}

/// A number with at most so many decimals, none of them needless.
fn trimmed(number: f64, decimals: usize) -> String {
    let text = format!("{number:.decimals$}");
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_string(),
        false => text,
    }
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
        assert_eq!(heat(hot(96.4), System::Metric), "96 °C");
        assert_eq!(heat(hot(96.4), System::Us), "206 °F");
        assert_eq!(
            heat(hot(14_212.0), System::Metric),
            "1085 °C (copper melts)"
        );
        assert_eq!(
            heats(hot(85.4), hot(85.0), System::Metric),
            ("85.4 °C".into(), "85.0 °C".into())
        );
        assert_eq!(
            heats(hot(104.0), hot(85.0), System::Us),
            ("219 °F".into(), "185 °F (85 °C class)".into())
        );
        assert_eq!(air(hot(40.0), System::Us), "104 °F");
        assert_eq!(air(hot(40.0), System::Metric), "40 °C");
    }

    #[test]
    fn figures_and_limits_do_not_read_alike() {
        let share = |percent: f64| Ratio::from_fraction(percent / 100.0);
        let pair = |a: &str, b: &str| (a.to_string(), b.to_string());
        assert_eq!(percents(share(10.31), share(10.0)), pair("10.3 %", "10 %"));
        assert_eq!(percents(share(10.04), share(10.0)), pair("10.04 %", "10 %"));
        assert_eq!(percents(share(13.2), share(10.0)), pair("13 %", "10 %"));
        let volt = Voltage::from_volts;
        assert_eq!(
            voltages(volt(10.798), volt(10.8)),
            pair("10.798 V", "10.8 V")
        );
        let amp = Current::from_amperes;
        assert_eq!(currents(amp(200.4), amp(200.0)), pair("200.4 A", "200 A"));
    }

    #[test]
    fn volts_have_two_decimals_and_no_more() {
        let text = |v: f64| volts(Voltage::from_volts(v));
        assert_eq!(text(1.727), "1.73 V");
        assert_eq!(text(0.6841), "0.68 V");
        assert_eq!(text(0.0877), "88 mV");
        assert_eq!(text(0.0043), "4.3 mV");
        assert_eq!(text(11.0), "11 V");
        assert_eq!(text(26.42), "26.4 V");
        assert_eq!(text(0.0), "0 V");
    }
}
