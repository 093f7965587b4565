//! Where heat goes on the coldest night, and where it comes from on a sunny day. Not here: what a side is made of.

use super::words;
use crate::views::basis::BasisView;
use crate::views::working::{InputView, StepView, WorkingView};
use crate::web::html::working::working;
use crate::web::view::{View, marked};
use maud::{Markup, html};
use wainwright_analysis::result::indoors::{ColdNight, IndoorsResult, SunnyDay};
use wainwright_units::Power;

/// Bars of what leaves.
pub fn leaving(view: &View, found: &IndoorsResult) -> Markup {
    let Some(night) = &found.night else {
        return html! {};
    };
    let bars = night
        .leaving
        .iter()
        .map(|one| (words::leaving(view, &one.by), one.heat));
    html! {
        section #leaving aria-labelledby="leaving-heading" {
            h2 #leaving-heading { "Where heat goes on the coldest night" }
            p {
                b { (words::heat(night.total)) } " in all, with "
                (marked(&view.show(night.outside.value), &BasisView::of(&night.outside.basis))) " outside and "
                (marked(&view.show(night.inside.value), &BasisView::of(&night.inside.basis))) " inside. People give back about "
                (words::heat(night.people)) "; that is not counted."
            }
            (bars_of(&bars.collect::<Vec<_>>(), ""))
            @if !night.heaters.is_empty() {
                h3 { "What warms it" }
                ul.plain { @for heater in &night.heaters { li {
                    a href=(format!("/edit/item/{}?back=/lining/air", crate::web::html::encoded(heater.item.as_str()))) { (words::item(view, &heater.item)) }
                    ": " (marked(&view.show(heater.heat.value), &BasisView::of(&heater.heat.basis)))
                } } }
            }
            p.row {
                a.button href="/edit/living?back=/lining/air" { "Change cold and warmth" }
                @if night.heaters.is_empty() { a.button href="/add/item?back=/lining/air" { "Add a heater" } }
            }
            details.how #how-leaving { summary { "Working" span.unseen { " of what leaves" } } (working(&of_night(view, found, night))) }
        }
    }
}

fn bars_of(bars: &[(String, Power)], class: &str) -> Markup {
    let most = bars
        .iter()
        .map(|(_, heat)| heat.watts().abs())
        .fold(1.0, f64::max);
    html! {
        ul.plain.energy-bars.heat-bars {
            @for (name, heat) in bars {
                li {
                    span.energy-name { (name) }
                    svg class={ "energy-bar " (class) } viewBox="0 0 100 12" preserveAspectRatio="none" role="img" aria-label={ (name) ": " (words::heat(*heat)) } {
                        rect.level x="0" y="1" width=(format!("{:.1}", (heat.watts().abs() / most * 100.0).min(100.0))) height="10" {}
                    }
                    span.energy-value { (words::heat(*heat)) }
                }
            }
        }
    }
}

fn of_night(view: &View, found: &IndoorsResult, night: &ColdNight) -> WorkingView {
    let difference = night.inside.value.celsius() - night.outside.value.celsius();
    let sides = found.sides.iter().map(|side| InputView {
        symbol: words::side(side.side).into(),
        value: format!(
            "{:.2} W/(m²K) · {:.2} m²",
            side.u.value,
            side.area.square_metres()
        ),
        basis: BasisView::of(&side.u.basis),
    });
    let panes = found.panes.iter().map(|pane| InputView {
        symbol: crate::views::road::words::opening(&view.study().project, pane.opening.as_str()),
        value: format!(
            "{:.2} W/(m²K) · {:.2} m²",
            pane.u.value,
            pane.area.square_metres()
        ),
        basis: BasisView::of(&pane.u.basis),
    });
    let air = InputView {
        symbol: "Changes of air".into(),
        value: format!("{:.2} in an hour, everything shut", night.air_changes.value),
        basis: BasisView::of(&night.air_changes.basis),
    };
    WorkingView {
        steps: vec![StepView {
            symbol: "Heat".into(),
            formula: "Heat = (U·A of every side and opening + heat of the air that leaves) · (inside − outside)".into(),
            numbers: format!("{:.1} W/K · {difference:.1} K, and air through open vents", found.lost_per_kelvin.value),
            result: format!("{:.0} W", night.total.watts()),
            inputs: sides.chain(panes).chain([air]).collect(),
        }],
    }
}

/// The hottest hour of a sunny day.
pub fn sunny(view: &View, found: &IndoorsResult) -> Markup {
    let Some(day) = &found.day else {
        return html! {};
    };
    html! {
        section #sunny aria-labelledby="sunny-heading" {
            h2 #sunny-heading { "Where heat comes from on a sunny day" }
            p {
                "A clear day in " (words::month(day.month)) ", " (format!("{:.0}", day.hour)) " o'clock sun time, "
                (view.show(day.outside.value)) " outside, parked the worst way round. To keep " (view.show(day.inside.value)) " inside, "
                b { (words::heat(day.total)) } " must be taken out, " (words::heat(day.latent)) " of it as the water of breath."
            }
            (bars_of(&sources(view, day), "lost"))
            details.how #sunny-hours {
                summary { "Hour by hour" }
                table.cards {
                    thead { tr { th scope="col" { "Hour" } th.number scope="col" { "To take out" } } }
                    tbody { @for (hour, heat) in &day.hours { tr {
                        th scope="row" { (format!("{hour:.0}")) } td.number data-label="To take out" { (words::heat(*heat)) }
                    } } }
                }
            }
        }
    }
}

fn sources(view: &View, day: &SunnyDay) -> Vec<(String, Power)> {
    let mut all: Vec<(String, Power)> = day
        .sides
        .iter()
        .map(|side| (words::side(side.side).to_owned(), side.heat))
        .collect();
    all.extend(day.panes.iter().map(|pane| {
        let name = crate::views::road::words::opening(&view.study().project, pane.opening.as_str());
        (name, pane.conducted + pane.sun)
    }));
    all.push(("Air".into(), day.air));
    all.push(("People".into(), day.people + day.latent));
    all.retain(|(_, heat)| heat.watts() > 0.5);
    all.sort_by(|one, other| other.1.total_cmp(&one.1));
    all
}
