//! What each fuse is for: a legend card for each block, to be printed and put
//! in its lid, and the fuses on their own.

use super::{framed, nothing_yet, schedules, take_along};
use crate::web::html::encoded;
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::{DeviceResult, Legend, LegendWay};
use wainwright_drawing::legend::{CardOptions, Corner, FuseCard, Order, Way, fuse_card};
use wainwright_drawing::{Css, Style, Tone};
use wainwright_units::Quantity;

/// Width of a card on a wide screen and on a narrow one [px].
const WIDE: f64 = 560.0;
const NARROW: f64 = 340.0;

/// The page.
pub async fn page(view: View) -> Response {
    let schedules = schedules(&view);
    let single: Vec<&DeviceResult> = view
        .study()
        .assessment
        .devices
        .iter()
        .filter(|device| device.way == 0)
        .collect();
    let main = html! {
        @if schedules.legends.is_empty() && single.is_empty() { (nothing_yet(&view)) } @else {
            (take_along("fuses"))
            div.fuse-cards { @for legend in &schedules.legends { (card(&view, legend)) } }
            @if !single.is_empty() { (on_their_own(&view, &single)) }
        }
    };
    view.page(framed(
        "/lists/fuses",
        "Fuses",
        "A card for the lid of each block, and the fuses on their own.",
        &html! {
            div #list data-region { (main) }
        },
    ))
}

fn card(view: &View, legend: &Legend) -> Markup {
    let data = FuseCard {
        title: legend.label.clone(),
        subtitle: format!("Circuits {}", legend.letter),
        first: Corner::TopLeft,
        order: Order::DownColumns,
        ways: legend
            .ways
            .iter()
            .map(|way| self::way(view, legend, way))
            .collect(),
        notes: vec!["Put in only fuses of the rating printed here.".into()],
    };
    let id = legend.item.as_str();
    html! {
        figure.fuse-card data-block=(id) {
            div.for-wide { (PreEscaped(drawn(&data, WIDE, &format!("c-{id}-w-")))) }
            div.for-narrow { (PreEscaped(drawn(&data, NARROW, &format!("c-{id}-n-")))) }
            figcaption { a href={ "/wiring?select=item." (encoded(id)) "#panel" } { (legend.label) " in the wiring" } }
        }
    }
}

fn drawn(card: &FuseCard, width: f64, prefix: &str) -> String {
    let options = CardOptions {
        width,
        id_prefix: prefix.to_owned(),
    };
    let style = Style {
        title: format!("Legend of {}", card.title),
        id_prefix: prefix.to_owned(),
        css: Css::OnPage,
    };
    still(&fuse_card(card, &options).svg(&style))
}

/// A drawing in which nothing can be pressed.
pub fn still(svg: &str) -> String {
    svg.replace(" tabindex=\"0\" role=\"button\"", " role=\"img\"")
}

fn way(view: &View, legend: &Legend, way: &LegendWay) -> Way {
    let rating = way
        .rating
        .map_or_else(String::new, |rating| rating.show(view.units()));
    let circuit = if way.circuit.is_empty() {
        "free".to_owned()
    } else {
        way.circuit.clone()
    };
    let colour = match (way.rating, way.fuse_colour) {
        (Some(_), Some(colour)) => colour.to_owned(),
        (Some(_), None) => "clear".into(),
        (None, _) => String::new(),
    };
    Way {
        id: format!("{}-{}", legend.item, way.way),
        number: way.way.to_string(),
        words: format!("Way {}: {rating}, {circuit}", way.way),
        rating,
        colour,
        circuit,
        detail: way.label.clone(),
        tone: if way.gear.is_empty() {
            Tone::Off
        } else {
            Tone::Calm
        },
        selected: false,
    }
}

fn on_their_own(view: &View, single: &[&DeviceResult]) -> Markup {
    html! {
        section aria-labelledby="single-fuses" {
            h2 #single-fuses { "On their own" }
            table.cards.list {
                thead { tr { th scope="col" { "Fuse or breaker" } th scope="col" { "Family" } th.number scope="col" { "Rating" } } }
                tbody {
                    @for device in single {
                        tr {
                            th scope="row" { a href={ "/wiring?select=item." (encoded(device.item.as_str())) "#panel" } { (device.label) } }
                            td data-label="Family" { (device.family.replace('-', " ")) }
                            td.number data-label="Rating" { (view.show(device.rating.value)) }
                        }
                    }
                }
            }
        }
    }
}
