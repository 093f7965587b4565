//! Heat and air of a cabinet: verdict, what gives heat off, what would cool it, wires and fuses judged at that air.
//! Not here: reckoning it (the cabinet study).

use super::words;
use crate::views::basis::BasisView;
use crate::web::html::bar::bar;
use crate::web::pages::air::words::{Fare, area, difference, percent, pill};
use crate::web::view::{View, marked};
use maud::{Markup, html};
use wainwright_analysis::result::cabinet::{CabinetResult, Situation};
use wainwright_model::Id;

/// Nearer to the limit than this is near [K] (judgement).
const NEAR: f64 = 5.0;

/// How warm it gets, in a card, beside whether it fits.
pub fn verdicts(view: &View, cabinet: &CabinetResult) -> Markup {
    let air = &cabinet.air;
    let limit = air.limit.0.value;
    let said = match air.inside {
        None => (Fare::Plain, "not known yet"),
        Some(inside) if inside > limit => (Fare::Bad, "too hot"),
        Some(inside) if limit.celsius() - inside.celsius() < NEAR => (Fare::Near, "near its limit"),
        Some(_) => (Fare::Good, "cool enough"),
    };
    let hottest = air.limit.1.as_ref().map(|id| name(view, id));
    let troubles = cabinet
        .devices
        .iter()
        .filter(|device| super::checks::trouble(cabinet, device))
        .count();
    html! {
        section.indoor-cards #cabinet-verdicts aria-label="How this cabinet fares" {
            article.indoor-card #cabinet-air {
                h2 { "Cool enough inside?" }
                p { (pill(said.0, said.1)) }
                @match air.inside {
                    Some(inside) => {
                        p {
                            "The air inside comes to " b { (view.show(inside)) } " "
                            @if let Some(rise) = air.rise { "(" (difference(view, rise)) " warmer than around it) " }
                            (words::situation(air.situation)) ". "
                            @match &hottest { Some(device) => { (device) " bears " (view.show(limit)) "." }, None => { "Its devices bear " (view.show(limit)) "." } }
                        }
                        (bar(inside.celsius(), air.ambient.value.celsius(), limit.celsius(), &format!("{} of {}", view.show(inside), view.show(limit))))
                    },
                    None => p { "It is known when spot and size of the cabinet are typed." },
                }
            }
            article.indoor-card #cabinet-fits {
                h2 { "Does everything fit?" }
                p { @if troubles == 0 { (pill(Fare::Good, "nothing in the way")) } @else { (pill(Fare::Bad, "does not fit")) } }
                p {
                    @match troubles {
                        0 => "No device is in the way of another, sticks out or is too deep, as far as their sizes are typed.",
                        1 => "One device is in the way, sticks out or is too deep; see the checks.",
                        _ => { (troubles) " devices are in the way, stick out or are too deep; see the checks." },
                    }
                }
            }
        }
    }
}

fn name(view: &View, id: &Id) -> String {
    view.study()
        .project
        .label_or_id("item", id.as_str())
        .to_owned()
}

/// Heat of each device, and what would cool them.
pub fn heat(view: &View, cabinet: &CabinetResult) -> Markup {
    let air = &cabinet.air;
    let at = Situation::ALL
        .iter()
        .position(|one| *one == air.situation)
        .unwrap_or(0);
    let most = cabinet
        .devices
        .iter()
        .filter_map(|device| device.heat.get(at));
    let most = most.map(|heat| heat.watts()).fold(1.0, f64::max);
    let mut devices: Vec<_> = cabinet.devices.iter().collect();
    devices.sort_by(|one, other| {
        other
            .heat
            .get(at)
            .map(|heat| heat.watts())
            .unwrap_or(0.0)
            .total_cmp(&one.heat.get(at).map(|heat| heat.watts()).unwrap_or(0.0))
    });
    html! {
        section #cabinet-heat aria-labelledby="heat-heading" {
            h2 #heat-heading { "Heat inside" }
            p {
                b { (view.show(air.heat)) } " in all " (words::situation(air.situation)) ", when it is most. Around the cabinet: "
                (marked(&view.show(air.ambient.value), &BasisView::of(&air.ambient.basis))) ". What takes the heat out: " (words::cooling(view, air.cooling)) "."
            }
            ul.plain.energy-bars.heat-bars {
                @for device in devices {
                    @if let Some(heat) = device.heat.get(at).filter(|heat| heat.watts() > 0.005) {
                        li {
                            span.energy-name { (device.label) " " span.hint { (words::heat_from(device.heat_from)) } }
                            svg.energy-bar viewBox="0 0 100 12" preserveAspectRatio="none" role="img" aria-label={ (device.label) ": " (view.show(*heat)) } {
                                rect.level x="0" y="1" width=(format!("{:.1}", (heat.watts() / most * 100.0).min(100.0))) height="10" {}
                            }
                            span.energy-value { (view.show(*heat)) }
                        }
                    }
                }
            }
            (helps(view, cabinet))
            details.how #how-heat {
                summary { "Working" span.unseen { " of the heat" } }
                ol.working { li {
                    p.formula { "Heat of the devices = heat with the air + heat through the boards" }
                    p.formula.numbers { (view.show(air.heat)) " = " (view.show(air.by_air)) " + " (view.show(air.by_skin)) }
                    ul.inputs {
                        li { span.formula { (view.show(air.airflow)) " of air pass" } }
                        li { span.formula { (format!("{:.2} W/K", air.skin_watts_per_kelvin)) " through the boards" } }
                        @if let Some(rise) = air.rise { li { span.formula { "rise = " (difference(view, rise)) } } }
                    }
                } }
            }
            details.how #each-situation {
                summary { "Heat in each situation" }
                table.cards {
                    thead { tr { th scope="col" { "Device" } @for one in Situation::ALL { th.number scope="col" { (words::situation(one)) } } } }
                    tbody { @for device in &cabinet.devices { tr {
                        th scope="row" { (device.label) }
                        @for (one, heat) in Situation::ALL.iter().zip(device.heat) { td.number data-label=(words::situation(*one)) { (view.show(heat)) } }
                    } } }
                }
            }
        }
    }
}

fn helps(view: &View, cabinet: &CabinetResult) -> Markup {
    let air = &cabinet.air;
    let holds = air
        .opening_for_limit
        .is_some_and(|area| area.square_metres() <= 0.0);
    html! {
        h3 { "What would cool it" }
        ul.plain.damp-helps {
            @if holds {
                li { "Closed it stays below " (view.show(air.limit.0.value)) ", the limit of its devices." }
            } @else {
                li {
                    "For the limit of " (view.show(air.limit.0.value)) ": "
                    @match (air.opening_for_limit, air.fan_for_limit) {
                        (Some(area_of), Some(fan)) => { b { (area(view, area_of)) } " low and as much high, or a fan that moves " b { (view.show(fan)) } " in place." },
                        (Some(area_of), None) => { b { (area(view, area_of)) } " low and as much high." },
                        (None, Some(fan)) => { "no opening is enough; a fan that moves " b { (view.show(fan)) } " in place is." },
                        (None, None) => { "neither opening nor fan is enough: the air around it is too hot, or it is not known." },
                    }
                }
            }
            @if air.opening_for_ten.is_some() || air.fan_for_ten.is_some() {
                li {
                    "For a rise of no more than " (difference(view, wainwright_units::TemperatureDifference::from_kelvins(10.0))) ": "
                    @if let Some(area_of) = air.opening_for_ten { (area(view, area_of)) " low and as much high" }
                    @if let Some(fan) = air.fan_for_ten { @if air.opening_for_ten.is_some() { ", or " } "a fan that moves " (view.show(fan)) }
                    "."
                }
            }
        }
    }
}

/// Wires and fuses that are judged at the air of this cabinet.
pub fn judged(view: &View, cabinet: &CabinetResult) -> Markup {
    let assessment = &view.study().assessment;
    let held = |id: &Id| cabinet.devices.iter().any(|device| device.item == *id);
    let fuses: Vec<_> = assessment
        .devices
        .iter()
        .filter(|device| held(&device.item))
        .filter_map(|device| Some((device, device.air.as_ref()?)))
        .collect();
    let inside = cabinet.air.for_wires;
    let wires: Vec<_> = assessment
        .wires
        .iter()
        .filter(|wire| held(&wire.from.0) && held(&wire.to.0))
        .filter(|wire| {
            inside.is_some_and(|inside| (wire.air.value.celsius() - inside.celsius()).abs() < 1e-6)
        })
        .collect();
    html! {
        @if !fuses.is_empty() || !wires.is_empty() {
            section #judged aria-labelledby="judged-heading" {
                h2 #judged-heading { "Wires and fuses judged at this air" }
                @if let Some(inside) = inside { p { "Wires and fuses in this cabinet are judged in air of " b { (view.show(inside)) } "; an air that is typed at a wire wins." } }
                @if !fuses.is_empty() {
                    table.cards {
                        thead { tr { th scope="col" { "Fuse or breaker" } th.number scope="col" { "Rating" } th.number scope="col" { "Air" } th.number scope="col" { "Left of its rating" } } }
                        tbody { @for (device, air) in &fuses { tr {
                            th scope="row" { (device.label) @if device.way > 0 { ", way " (device.way) } }
                            td.number data-label="Rating" { (view.show(device.rating.value)) }
                            td.number data-label="Air" { (view.show(air.value)) }
                            td.number data-label="Left" { (percent(device.warm_share)) }
                        } } }
                    }
                }
                @if !wires.is_empty() {
                    details.how #judged-wires {
                        summary { (crate::web::html::count(wires.len(), "wire", "wires")) " between devices of this cabinet" }
                        ul.plain { @for wire in &wires { li {
                            a href=(format!("/edit/wire/{}?back=/lining/cabinet", crate::web::html::encoded(wire.id.as_str()))) { (wire.label) }
                            ": bears " (view.show(wire.ampacity.in_force))
                        } } }
                    }
                }
            }
        }
    }
}
