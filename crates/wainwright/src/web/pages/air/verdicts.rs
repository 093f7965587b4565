//! One card for each question, with a word. Not here: what they rest on, which stands below.

use super::words::{self, Fare, pill};
use crate::web::html::bar::bar;
use crate::web::html::count;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::indoors::{
    AirCurve, ColdNight, DampResult, DampSide, DampWay, FreshAir, IndoorsResult, SunnyDay,
};
use wainwright_model::Side;

/// All cards.
pub fn verdicts(view: &View, found: &IndoorsResult) -> Markup {
    html! {
        section.indoor-cards #verdicts aria-label="What it is like" {
            (warm(view, found.night.as_ref()))
            (cool(view, found.day.as_ref()))
            (dry(view, found))
            (air(view, found.air.as_ref()))
            (mind(found))
        }
    }
}

fn card(id: &str, question: &str, said: &(Fare, &str), body: &Markup, more: &str) -> Markup {
    html! {
        article.indoor-card id=(id) {
            h2 { (question) }
            p { (pill(said.0, said.1)) }
            (body)
            @if !more.is_empty() { p.hint { a href=(more) { "More" span.unseen { ": " (question) } } } }
        }
    }
}

fn unknown(id: &str, question: &str, wants: &str, place: &str) -> Markup {
    html! {
        article.indoor-card id=(id) {
            h2 { (question) }
            p { (pill(Fare::Plain, "not known yet")) }
            p { (wants) }
            p.row { a.button href=(place) { "Type it" } }
        }
    }
}

/// How the heaters fare against what leaves.
fn heaters(night: &ColdNight) -> (Fare, &'static str) {
    if night.heaters.is_empty() {
        (Fare::Bad, "no heater")
    } else if night.there < night.total {
        (Fare::Bad, "too cold")
    } else if night.there < night.advised.0 {
        (Fare::Near, "just enough")
    } else {
        (Fare::Good, "warm enough")
    }
}

fn warm(view: &View, night: Option<&ColdNight>) -> Markup {
    let question = "Warm enough?";
    let Some(night) = night else {
        return unknown(
            "warm",
            question,
            "Say how cold it gets outside, and how warm it is to be inside.",
            "/edit/living?back=/lining/air",
        );
    };
    let body = html! {
        p {
            b { (words::heat(night.total)) } " leave on the coldest night: " (view.show(night.outside.value)) " outside, "
            (view.show(night.inside.value)) " inside. "
            @if night.heaters.is_empty() { "No heater with a known power is listed." }
            @else if night.heaters.len() == 1 { "The heater gives " (words::heat(night.there)) "." }
            @else { (night.heaters.len()) " heaters give " (words::heat(night.there)) "." }
        }
        @if !night.heaters.is_empty() {
            (bar(night.total.watts(), 0.0, night.there.watts(), &format!("{} of {}", words::heat(night.total), words::heat(night.there))))
        }
        p { "To warm up from cold as well, " (words::heat(night.advised.0)) " to " (words::heat(night.advised.1)) " is advised." }
        @if let Some(time) = night.warm_up.and_then(|warm| warm.time) {
            p { "From cold to warm takes " (words::time(time)) ", without what stands in the room." }
        }
    };
    card("warm", question, &heaters(night), &body, "#leaving")
}

fn cool(view: &View, day: Option<&SunnyDay>) -> Markup {
    let question = "Cool enough?";
    let Some(day) = day else {
        return unknown(
            "cool",
            question,
            "Choose a climate to know the sun of its hottest month.",
            "/edit/living?back=/lining/air",
        );
    };
    let body = html! {
        p {
            b { (words::heat(day.total)) } " must be taken out to keep " (view.show(day.inside.value)) " at "
            (format!("{:.0}", day.hour)) " o'clock on a clear day in " (words::month(day.month)) ", with "
            (view.show(day.outside.value)) " outside. Without a cooler it gets warmer inside than out."
        }
    };
    let said = if day.total.watts() > 0.0 {
        (Fare::Near, "needs shade or cooling")
    } else {
        (Fare::Good, "cool enough")
    };
    card("cool", question, &said, &body, "#sunny")
}

/// The way of a side with the most water.
pub fn wettest(side: &DampSide) -> Option<&DampWay> {
    side.ways
        .iter()
        .max_by(|one, other| one.peak.total_cmp(&other.peak))
}

/// How a way may fare, the worst first.
const GRADES: [(Fare, &str); 5] = [
    (Fare::Bad, "stays wet"),
    (Fare::Bad, "water runs"),
    (Fare::Bad, "mould likely"),
    (Fare::Near, "wet for a time"),
    (Fare::Good, "dry"),
];

/// Place of a way in the grades: water, then mould.
fn grade(damp: &DampResult, way: &DampWay) -> usize {
    if !way.dries {
        0
    } else if way.runs_off {
        1
    } else if !way.mould.holds {
        2
    } else if way.peak > damp.counts_from {
        3
    } else {
        4
    }
}

fn graded(grade: usize) -> (Fare, &'static str) {
    let known = GRADES.get(grade);
    known.copied().unwrap_or((Fare::Plain, "not known"))
}

/// How a way fares.
pub fn fares(damp: &DampResult, way: &DampWay) -> (Fare, &'static str) {
    graded(grade(damp, way))
}

/// Place of a side in the grades: that of its worst way.
fn side_grade(damp: &DampResult, side: &DampSide) -> usize {
    let all = side.ways.iter().map(|way| grade(damp, way));
    all.min().unwrap_or(GRADES.len())
}

/// The side that fares worst; of those that fare alike the one with the most water.
pub fn worst_side(found: &IndoorsResult) -> Option<Side> {
    let damp = found.damp.as_ref()?;
    let peak = |side: &DampSide| wettest(side).map_or(0.0, |way| way.peak);
    let worst = damp.sides.iter().min_by(|one, other| {
        let grades = [one, other].map(|side| side_grade(damp, side));
        grades[0]
            .cmp(&grades[1])
            .then(peak(other).total_cmp(&peak(one)))
    });
    worst.map(|side| side.side)
}

fn dry(view: &View, found: &IndoorsResult) -> Markup {
    let question = "Dry?";
    let Some(damp) = &found.damp else {
        return unknown(
            "dry",
            question,
            "Choose a climate and describe the layers of a wall.",
            "/edit/living?back=/lining/air",
        );
    };
    let worst = worst_side(found).and_then(|side| damp.sides.iter().find(|one| one.side == side));
    let Some(worst) = worst else {
        return unknown(
            "dry",
            question,
            "No side has layers yet, so nothing can be said about water in it.",
            "/add/layer?back=/lining/air",
        );
    };
    let said = graded(side_grade(damp, worst));
    let layers = found.side(worst.side).map_or(&[][..], |side| &side.layers);
    let body = html! {
        @if let Some(way) = wettest(worst) {
            @if way.peak > damp.counts_from {
                p {
                    b { (words::side(worst.side)) } ", " (words::way(way.kind)) ": up to " (words::grams(way.peak))
                    @if let Some(wet) = way.places.first() { " " (words::place(layers, wet.place)) }
                    @if let Some(month) = way.peak_month { ", most at the end of " (words::month(month)) }
                    @if way.dries { "; it dries within the year." } @else { "; " (words::grams(way.left)) " are left after a year." }
                }
            } @else {
                p { "No water forms inside of the sides that are described." }
            }
        }
        @if worst.ways.iter().any(|way| !way.mould.holds) {
            p {
                "Mould can grow on the " (words::side(worst.side).to_lowercase()) ": its surface comes to "
                @if let Some(way) = worst.ways.iter().find(|way| !way.mould.holds) {
                    (words::percent(way.mould.humidity)) " humidity, the limit is " (words::percent(way.mould.limit)) "."
                }
            }
        }
        @for (index, (_, word)) in GRADES.iter().enumerate().take(3) {
            @let others: Vec<String> = damp.sides.iter().filter(|side| side.side != worst.side && side_grade(damp, side) == index)
                .map(|side| words::side(side.side).to_lowercase()).collect();
            @if !others.is_empty() { p { "Also " (word) ": " (others.join(", ")) "." } }
        }
        p.hint { "Lived in all year at " (view.show(damp.inside.value)) " and " (words::percent(damp.humidity.value)) " humidity." }
    };
    card("dry", question, &said, &body, "#damp")
}

/// The night with the most air there is.
pub fn best(air: &FreshAir) -> Option<&AirCurve> {
    air.curves.last()
}

/// How a night fares.
pub fn breathes(air: &FreshAir, curve: &AirCurve) -> (Fare, &'static str) {
    if curve.end_ppm > air.most_ppm {
        (Fare::Bad, "too little air")
    } else if curve.end_ppm > air.good_ppm {
        (Fare::Near, "stale at dawn")
    } else {
        (Fare::Good, "air enough")
    }
}

fn air(view: &View, air: Option<&FreshAir>) -> Markup {
    let question = "Air enough for sleepers?";
    let Some((air, curve)) = air.and_then(|air| Some((air, best(air)?))) else {
        return unknown(
            "sleep-air",
            question,
            "Say how many sleep in it.",
            "/edit/living?back=/lining/air",
        );
    };
    let body = html! {
        @for one in air.curves.iter().rev() {
            p { (words::from(one.from)) ": " b { (format!("{:.0} ppm", one.end_ppm)) } " of carbon dioxide after " (view.show(air.night)) " of sleep." }
        }
        p.hint { "Good air stays below " (format!("{:.0}", air.good_ppm)) " ppm; more than " (format!("{:.0}", air.most_ppm)) " ppm should not be." }
    };
    card(
        "sleep-air",
        question,
        &breathes(air, curve),
        &body,
        "#breath",
    )
}

fn mind(found: &IndoorsResult) -> Markup {
    let many = found.cautions.len();
    let said = match many {
        0 => (Fare::Good, "nothing found"),
        _ => (Fare::Near, "read this"),
    };
    let body = html! {
        p { @if many == 0 { "Nothing aboard that burns is without an alarm, and there is a way out." } @else { (count(many, "thing", "things")) " about fire, fumes and the way out." } }
    };
    card(
        "mind",
        "What to mind?",
        &said,
        &body,
        if many > 0 { "#cautions" } else { "" },
    )
}
