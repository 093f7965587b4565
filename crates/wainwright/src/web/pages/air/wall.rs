//! The chosen side cut through: drawing, list of its layers, working. Not here: water through the year (`damp`).

use super::verdicts::wettest;
use super::words;
use crate::views::basis::BasisView;
use crate::views::working::{InputView, StepView, WorkingView};
use crate::web::html::encoded;
use crate::web::html::working::working;
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::indoors::{
    DampSide, IndoorsResult, SideHeat, SideLayer, WetPlace,
};
use wainwright_drawing::chart::{BuildUp, Ply, WetMark, build_up};
use wainwright_drawing::{Css, Style};
use wainwright_units::Length;

/// Widths on a desk and on a phone [px].
const WIDE: f64 = 900.0;
const NARROW: f64 = 340.0;

/// The side.
pub fn wall(view: &View, found: &IndoorsResult, side: &SideHeat) -> Markup {
    let name = words::side(side.side);
    html! {
        section #wall aria-labelledby="wall-heading" {
            h2 #wall-heading { (name) ", cut through" }
            @if side.described { (drawn(view, found, side)) (layers(view, side)) }
            @else { p { "No layer of this side is described; a usual figure of a bare skin stands in: " (words::u(view, side.u.value)) "." } }
            p {
                b { (words::u(view, side.u.value)) } " over all of it"
                @if side.u_ribs.is_some() { ", ribs counted; " (words::u(view, side.u_clear)) " between them" }
                @if let Some(ribs) = side.u_ribs { ", " (words::u(view, ribs)) " at them" }
                ". " (words::area(view, side.area)) " without its openings."
            }
            p.row {
                a.button href="/add/layer?back=/lining/air" { "Add a layer" }
                a.button href="/edit/living?back=/lining/air" { "Living" }
                a.button href="/edit/trailer?back=/lining/air" { "Trailer and its ribs" }
            }
            details.how #how-wall {
                summary { "Working" span.unseen { " of the " (name.to_lowercase()) } }
                (working(&of_side(view, side)))
            }
        }
    }
}

fn drawn(view: &View, found: &IndoorsResult, side: &SideHeat) -> Markup {
    let chart = chart(view, found, side);
    let title = format!(
        "{} cut through, outside on the left: {} layers, the temperature through them on the coldest night, and where water forms",
        words::side(side.side),
        side.layers.len()
    );
    let one = |width: f64, prefix: &str| {
        build_up(&chart, width).svg(&Style {
            title: title.clone(),
            id_prefix: prefix.into(),
            css: Css::OnPage,
        })
    };
    html! {
        figure.trip-chart {
            div.for-wide { (PreEscaped(one(WIDE, "w-"))) }
            div.for-narrow { (PreEscaped(one(NARROW, "n-"))) }
        }
        p.hint {
            "Layers are as thick as they are. The red line is the temperature on the coldest night; a drop on a blue line is where water forms, with the most there is of it in a year."
        }
    }
}

fn chart(view: &View, found: &IndoorsResult, side: &SideHeat) -> BuildUp {
    let air = found.night.as_ref().map(|night| {
        (
            night.outside.value.celsius(),
            night.inside.value.celsius(),
            view.show(night.outside.value),
            view.show(night.inside.value),
        )
    });
    let damp = found.damp.as_ref();
    let damp = damp.and_then(|damp| damp.sides.iter().find(|one| one.side == side.side));
    let plies = side.layers.iter().enumerate().map(|(index, layer)| Ply {
        thickness_m: layer.thickness.value.metres(),
        class: words::class(layer.of),
        number: (index + 1).to_string(),
        faces: layer
            .faces
            .map(|(outer, inner)| (outer.celsius(), inner.celsius())),
    });
    let whole: f64 = side
        .layers
        .iter()
        .map(|layer| layer.thickness.value.metres())
        .sum();
    let (span, marks) = match &air {
        Some((low, high, ..)) => words::degrees(view, *low, *high),
        None => ((0.0, 1.0), Vec::new()),
    };
    BuildUp {
        plies: plies.collect(),
        outside: air.as_ref().map_or((None, "outside".into()), |air| {
            (Some(air.0), format!("outside {}", air.2))
        }),
        inside: air.as_ref().map_or((None, "inside".into()), |air| {
            (Some(air.1), format!("inside {}", air.3))
        }),
        span,
        marks,
        wet: damp
            .map(|damp| wet(damp, side.layers.len()))
            .unwrap_or_default(),
        thick: format!("{} in all", view.show(Length::from_metres(whole))),
    }
}

fn wet(damp: &DampSide, layers: usize) -> Vec<WetMark> {
    let Some(way) = wettest(damp) else {
        return Vec::new();
    };
    let place = |at: WetPlace| match at {
        WetPlace::Outer => 0.0,
        WetPlace::In(index) => index as f64 + 0.5,
        WetPlace::After(index) => index as f64 + 1.0,
        WetPlace::Inner => layers as f64,
    };
    way.places
        .iter()
        .filter(|wet| wet.grams >= 1.0)
        .map(|wet| WetMark {
            after: place(wet.place),
            text: words::grams(wet.grams),
        })
        .collect()
}

fn layers(view: &View, side: &SideHeat) -> Markup {
    html! {
        table.cards.layer-list {
            thead { tr {
                th.number scope="col" { "No." } th scope="col" { "Layer, outside first" } th.number scope="col" { "Thick" }
                th.number scope="col" { "Insulates" } th.number scope="col" { "Coldest night, outer to inner face" }
            } }
            tbody {
                @for (index, layer) in side.layers.iter().enumerate() {
                    tr {
                        td.number data-label="No." { (index + 1) }
                        th scope="row" {
                            @match &layer.layer {
                                Some(id) => a href=(format!("/edit/layer/{}?back=/lining/air", encoded(id.as_str()))) { (layer.label) },
                                None => (layer.label),
                            }
                            @if let Some(material) = &layer.material { " " span.hint { (material.value) } }
                        }
                        td.number data-label="Thick" { (view.show(layer.thickness.value)) }
                        td.number data-label="Insulates" { (resistance(view, layer)) }
                        td.number data-label="Faces" {
                            @match layer.faces { Some((outer, inner)) => { (view.show(outer)) " to " (view.show(inner)) }, None => "unknown" }
                        }
                    }
                }
            }
        }
    }
}

fn resistance(view: &View, layer: &SideLayer) -> String {
    if layer.resistance < 0.005 {
        return "next to nothing".into();
    }
    match view.units() {
        wainwright_units::System::Metric => format!("{:.2} m²K/W", layer.resistance),
        wainwright_units::System::Us => words::u(view, 1.0 / layer.resistance),
    }
}

/// Resistances between the ribs, and what the whole side lets through.
fn of_side(view: &View, side: &SideHeat) -> WorkingView {
    let inputs = side.layers.iter().enumerate().map(|(index, layer)| {
        let how = match &layer.conductivity {
            Some(conductivity) => format!(
                "{}: {} / {:.3} W/(m·K) = {:.3} m²K/W",
                layer.label,
                view.show(layer.thickness.value),
                conductivity.value,
                layer.resistance
            ),
            None => format!("{}: {:.3} m²K/W", layer.label, layer.resistance),
        };
        InputView {
            symbol: format!("R{}", index + 1),
            value: how,
            basis: layer
                .conductivity
                .as_ref()
                .map_or(BasisView::Computed, |known| BasisView::of(&known.basis)),
        }
    });
    let clear = StepView {
        symbol: "U between ribs".into(),
        formula: "U = 1 / (R outside + R1 + R2 + … + R inside), ISO 6946".into(),
        numbers: format!("1 / {:.3}", 1.0 / side.u_clear.max(1e-9)),
        result: format!("{:.3} W/(m²K)", side.u_clear),
        inputs: inputs.collect(),
    };
    let numbers = match (side.u_ribs, side.u_span) {
        (Some(ribs), Some((low, high))) => format!(
            "between {:.3} and {ribs:.3}; the limits of the method leave {low:.3} to {high:.3}",
            side.u_clear
        ),
        (Some(ribs), None) => format!("between {:.3} and {ribs:.3}", side.u_clear),
        (None, _) => format!("{:.3}", side.u_clear),
    };
    let whole = StepView {
        symbol: "U".into(),
        formula: "U = what clear parts and ribs let through, by their shares".into(),
        numbers,
        result: format!("{:.3} W/(m²K)", side.u.value),
        inputs: Vec::new(),
    };
    WorkingView {
        steps: vec![clear, whole],
    }
}
