//! The tow vehicle once coupled, and its fuel. Not here: its ratings (`margins`).

use crate::views::road::words;
use crate::web::pages::layout::road_of;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::road::{AttitudeResult, HitchResult};
use wainwright_units::{Mass, System};

/// Axles of the tow vehicle and how the trailer stands behind it.
pub fn vehicle(view: &View) -> Markup {
    let road = road_of(view);
    let state = road
        .worst
        .and_then(|worst| Some((worst.most_tongue, road.states.get(worst.most_tongue)?)));
    let hitch = state.and_then(|(_, state)| state.hitch);
    let attitude = state.and_then(|(_, state)| state.attitude.as_ref());
    html! {
        section #vehicle aria-labelledby="vehicle-heading" {
            h2 #vehicle-heading { "Tow vehicle" }
            @match hitch {
                Some(hitch) => {
                    p.hint { "In the state with most load on the ball: "
                        @if let Some((index, _)) = state { (words::state(&view.study().project, road, index)) } }
                    (axles(view, &hitch))
                },
                None => {
                    p { "Weigh its front and rear axle, ready to drive and without the trailer; then you see what the trailer does to them." }
                    p { a.button.primary href="/edit/vehicle?back=/layout/road" { "Type its axle loads" } }
                },
            }
            @match attitude {
                Some(attitude) => (attitude_words(view, attitude)),
                None => p.hint {
                    "Type the height of the ball "
                    a href="/edit/vehicle?back=/layout/road#field-ball-height" { "with the trailer coupled" }
                    " to see whether it is towed nose up or nose down."
                },
            }
        }
    }
}

fn axles(view: &View, hitch: &HitchResult) -> Markup {
    html! {
        dl.small-figures.three {
            div { dt { "Its front axle" } dd { (view.show(hitch.front)) span.hint { (changed(view, hitch.front_change)) } } }
            div { dt { "Its rear axle" } dd { (view.show(hitch.rear)) span.hint { (changed(view, hitch.rear_change)) } } }
            div { dt { "Vehicle and trailer" } dd { (view.show(hitch.combination)) } }
        }
    }
}

fn changed(view: &View, by: Mass) -> String {
    let word = if by.kilograms() < 0.0 { "less" } else { "more" };
    format!("{} {word} by coupling", view.show(by.abs()))
}

fn attitude_words(view: &View, attitude: &AttitudeResult) -> Markup {
    let degrees = attitude.nose_up.degrees();
    let word = if degrees > 0.0 {
        "nose up"
    } else {
        "nose down"
    };
    html! {
        p #attitude {
            @if degrees.abs() < 0.05 { "It is towed level." } @else {
                "It is towed " b { (view.show(attitude.nose_up.abs())) " " (word) } ", which makes the load on the ball "
                (view.show(attitude.tongue)) " (" (view.show(attitude.share)) "). Level is best; change the height of the ball mount."
            }
        }
    }
}

/// Fuel alone and with the trailer.
pub fn fuel(view: &View) -> Markup {
    html! {
        @if let Some(fuel) = &road_of(view).fuel {
            section #fuel aria-labelledby="fuel-heading" {
                h2 #fuel-heading { "Fuel, an estimate" }
                p { "At " (view.show(fuel.speed)) " on a level road without wind; the estimate is rough, the difference tells more than the figures." }
                dl.small-figures {
                    div { dt { "Alone" } dd { (burnt(view.units(), fuel.alone.litres_per_100_km, fuel.alone.miles_per_gallon)) } }
                    div { dt { "With the trailer" } dd { (burnt(view.units(), fuel.towing.litres_per_100_km, fuel.towing.miles_per_gallon)) } }
                }
            }
        }
    }
}

fn burnt(units: System, litres: f64, miles: f64) -> String {
    match units {
        System::Us => format!("about {miles:.0} miles on a gallon"),
        System::Metric => format!("about {litres:.1} L on 100 km"),
    }
}
