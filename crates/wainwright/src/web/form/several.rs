//! Fields that hold several values: twelve months or parts of a day side by side, hours and choices as boxes, days as
//! ranges. Not here: fields with one value (`field`).

use super::Form;
use super::choices::{Choice, items, rows};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_model::schema::{FieldSpec, Target, ValueKind};
use wainwright_reference::climate::{Month, months};
use wainwright_units::{Quantity, Speed};

/// Lists of twelve: the months of a climate, the two-hour parts of a day.
const TWELVE: [&str; 8] = [
    "clearness",
    "sun",
    "mean",
    "coldest",
    "warmest",
    "wind",
    "humidity",
    "light",
];

const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// Hours of a day.
const HOURS: usize = 24;

/// Longest stretch of days that a range may stand for.
const MOST_DAYS: usize = 366;

/// How the values of a field are laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Twelve inputs.
    Twelve,
    /// A box for each hour of the day.
    Hours,
    /// A box for each choice.
    Boxes,
}

/// The shape of a field; none when it has one value, or is typed in a line.
pub fn shape(spec: &FieldSpec) -> Option<Shape> {
    let ValueKind::List(inner) = &spec.value else {
        return None;
    };
    match inner {
        ValueKind::Number { .. } | ValueKind::Quantity { .. } if TWELVE.contains(&spec.name) => {
            Some(Shape::Twelve)
        }
        ValueKind::Integer { .. } if spec.name == "hours" => Some(Shape::Hours),
        ValueKind::Choice(_) | ValueKind::Reference(Target::Item | Target::Trip) => {
            Some(Shape::Boxes)
        }
        _ => None,
    }
}

/// The inputs of such a field.
pub fn inputs(view: &View, form: &Form, spec: &'static FieldSpec, shape: Shape) -> Markup {
    match shape {
        Shape::Twelve => twelve(view, form, spec),
        Shape::Hours => {
            let hours = (0..HOURS).map(|hour| Choice::plain(&hour.to_string()));
            boxes(form, spec, &hours.collect::<Vec<_>>())
        }
        Shape::Boxes => boxes(form, spec, &choices(view, spec)),
    }
}

/// What is chosen among.
fn choices(view: &View, spec: &FieldSpec) -> Vec<Choice> {
    match &spec.value {
        ValueKind::List(ValueKind::Choice(words)) => {
            words.iter().map(|word| Choice::plain(word)).collect()
        }
        ValueKind::List(ValueKind::Reference(Target::Trip)) => rows(view, "trip"),
        _ => items(view, spec.name),
    }
}

/// A box for every value that may be on the list.
fn boxes(form: &Form, spec: &FieldSpec, choices: &[Choice]) -> Markup {
    let given = form.texts(spec.name);
    let strange = given
        .iter()
        .filter(|text| !choices.iter().any(|choice| choice.value == **text));
    html! {
        div.switches.hours[shape(spec) == Some(Shape::Hours)] {
            @for choice in choices {
                label.switch {
                    input type="checkbox" name=(spec.name) value=(choice.value) checked[given.contains(&choice.value)];
                    span { (choice.words) }
                }
            }
            @for text in strange {
                label.switch {
                    input type="checkbox" name=(spec.name) value=(text) checked;
                    span { (text) " (as typed)" }
                }
            }
        }
    }
}

/// Twelve inputs with what stands in for each while it is empty.
fn twelve(view: &View, form: &Form, spec: &FieldSpec) -> Markup {
    let texts = form.texts(spec.name);
    let stand_ins = listed(view, form, spec.name);
    let wrong = form.errors.contains_key(spec.name);
    html! {
        p.hint { (rest_words(spec)) }
        div.twelve {
            @for number in 0..MONTHS.len() {
                @let id = format!("input-{}-{}", spec.name, number + 1);
                div {
                    label for=(id) { (name(spec, number)) }
                    input id=(id) name=(spec.name) value=(texts.get(number).map_or("", String::as_str)) autocomplete="off" spellcheck="false"
                        placeholder=(stand_ins.get(number).map_or("", String::as_str)) aria-invalid[wrong];
                }
            }
        }
    }
}

fn rest_words(spec: &FieldSpec) -> &'static str {
    match &spec.value {
        ValueKind::List(ValueKind::Quantity { .. }) => {
            "A unit is needed once; numbers after it take the same. Twelve values with commas between can be put in the first place."
        }
        _ => "Twelve values with commas between can be put in the first place.",
    }
}

/// What one of the twelve is called.
fn name(spec: &FieldSpec, number: usize) -> String {
    match spec.name {
        "light" => format!("{} to {} h", 2 * number, 2 * number + 2),
        _ => MONTHS
            .get(number)
            .map_or_else(String::new, |month| (*month).to_owned()),
    }
}

/// The figures of the listed place that stand in for what is not typed.
fn listed(view: &View, form: &Form, field: &str) -> Vec<String> {
    let place = if form.element.name == "climate" {
        form.text("listed")
    } else {
        ""
    };
    let text = |month: &Month| match field {
        "clearness" => month
            .clearness
            .map_or_else(String::new, |share| format!("{share:.2}")),
        "sun" => format!("{:.1}", month.global),
        "mean" => month.mean.show(view.units()),
        "coldest" => month.low.show(view.units()),
        "warmest" => month.high.show(view.units()),
        "wind" => Speed::from_metres_per_second(month.wind).show(view.units()),
        _ => String::new(),
    };
    months(place)
        .iter()
        .map(|month| text(&month.value))
        .collect()
}

/// The texts sent for twelve inputs: all of them, so that each keeps its place, or none. A number without a unit takes
/// that of the one before.
pub fn twelve_texts<'t>(sent: impl Iterator<Item = &'t str>) -> Vec<String> {
    let sent: Vec<&str> = sent.map(str::trim).collect();
    let full: Vec<&str> = sent
        .iter()
        .copied()
        .filter(|text| !text.is_empty())
        .collect();
    let parts: Vec<&str> = match full.as_slice() {
        [] => return Vec::new(),
        [one] if one.contains([',', ';']) => one
            .split([',', ';'])
            .map(str::trim)
            .filter(|part| !part.is_empty())
            .collect(),
        _ => sent,
    };
    let mut unit = "";
    let mut out = Vec::with_capacity(parts.len());
    for text in parts {
        let number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '−');
        let own = text.trim_start_matches(number);
        if !own.is_empty() {
            unit = own;
        }
        out.push(match (text, own) {
            ("", _) => String::new(),
            (number, "") => format!("{number}{unit}"),
            (whole, _) => whole.to_owned(),
        });
    }
    out
}

/// Whole numbers with commas between; "3-6" is 3, 4, 5, 6.
pub fn number_texts(text: &str) -> Vec<String> {
    let parts = text.split([',', ' ']).map(str::trim);
    let parts = parts.filter(|part| !part.is_empty());
    parts.flat_map(range).collect()
}

fn range(part: &str) -> Vec<String> {
    let ends = part.split_once(['-', '–']);
    let ends =
        ends.and_then(|(from, to)| Some((from.parse::<usize>().ok()?, to.parse::<usize>().ok()?)));
    match ends {
        Some((from, to)) if from <= to && to - from < MOST_DAYS => {
            (from..=to).map(|day| day.to_string()).collect()
        }
        _ => vec![part.to_owned()],
    }
}

/// Places of the list, by country.
pub fn listed_places() -> Vec<Choice> {
    let mut all: Vec<Choice> = wainwright_reference::climate::sites()
        .into_iter()
        .map(|site| Choice {
            value: site.value.id.to_owned(),
            words: format!("{}, {}", site.value.name, site.value.region),
            group: Some(site.value.country.to_owned()),
        })
        .collect();
    all.sort_by(|one, other| (&one.group, &one.words).cmp(&(&other.group, &other.words)));
    all
}

/// Whether a field is such a list of places.
pub fn is_listed(form: &Form, spec: &FieldSpec) -> bool {
    (form.element.name, spec.name) == ("climate", "listed")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn twelve(texts: &[&str]) -> Vec<String> {
        twelve_texts(texts.iter().copied())
    }

    #[test]
    fn a_number_takes_the_unit_before_it() {
        assert_eq!(
            twelve(&["34 °F", "36", "-2.5", "1 °C", "3"]),
            ["34 °F", "36 °F", "-2.5 °F", "1 °C", "3 °C"]
        );
    }

    #[test]
    fn an_empty_place_stays_one_unless_all_are() {
        assert_eq!(twelve(&["", "0.5", ""]), ["", "0.5", ""]);
        assert!(twelve(&["", " ", ""]).is_empty());
    }

    #[test]
    fn a_pasted_line_is_shared_out() {
        assert_eq!(
            twelve(&["1 m/s, 2, 3", "", ""]),
            ["1 m/s", "2 m/s", "3 m/s"]
        );
    }

    #[test]
    fn days_may_be_ranges() {
        assert_eq!(number_texts("1, 3-5 9"), ["1", "3", "4", "5", "9"]);
        assert_eq!(number_texts("5-3, x, -2"), ["5-3", "x", "-2"]);
        assert_eq!(number_texts("0-999999999"), ["0-999999999"]);
    }
}
