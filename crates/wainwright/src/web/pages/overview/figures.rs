//! The few figures worth knowing by heart. Not here: tables.

use crate::views::state::state_label;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::{Assessment, Outcome, Role};
use wainwright_units::{Current, Power};

/// One figure with its name.
struct Figure {
    name: &'static str,
    value: String,
    note: String,
    place: String,
}

/// The figures.
pub fn figures(view: &View) -> Markup {
    html! {
        dl.figures-row #key-figures {
            @for figure in all(view) {
                div {
                    dt { (figure.name) }
                    dd { a href=(figure.place) { b { (figure.value) } } " " span { (figure.note) } }
                }
            }
        }
    }
}

fn all(view: &View) -> Vec<Figure> {
    let assessment = &view.study().assessment;
    let volts = assessment.system_volts.as_ref().map(|volts| Figure {
        name: "System voltage",
        value: view.show(volts.value),
        note: "nominal".into(),
        place: "/wiring".into(),
    });
    let battery = assessment.capacity.map(|capacity| Figure {
        name: "Battery",
        value: view.show(capacity),
        note: "usable".into(),
        place: "/circuits?show=gear".into(),
    });
    let fault = at_battery(assessment).map(|(item, amps)| Figure {
        name: "Short circuit at the battery",
        value: view.show(amps),
        note: "at its strongest".into(),
        place: format!("/wiring?select=item.{item}#panel"),
    });
    let lost = most_lost(assessment).map(|(state, lost)| Figure {
        name: "Most lost on the way",
        value: view.show(lost),
        note: assessment
            .states
            .get(state)
            .map(state_label)
            .unwrap_or_default(),
        place: state_place(assessment, state),
    });
    let hot = hottest(view).into_iter();
    [volts, battery, fault, lost]
        .into_iter()
        .flatten()
        .chain(hot)
        .collect()
}

fn at_battery(assessment: &Assessment) -> Option<(String, Current)> {
    let battery = assessment
        .consumers
        .iter()
        .find(|gear| gear.role == Role::Battery)?;
    let (plus, _) = battery.nodes?;
    let fault = assessment.faults.iter().find(|fault| fault.node == plus)?;
    Some((battery.item.to_string(), fault.largest.amps))
}

fn most_lost(assessment: &Assessment) -> Option<(usize, Power)> {
    let lasting = assessment
        .states
        .iter()
        .enumerate()
        .filter(|(_, state)| state.lasting);
    let losses = lasting.filter_map(|(index, state)| match state.outcome {
        Outcome::Steady { losses, .. } => Some((index, losses)),
        _ => None,
    });
    losses.max_by(|a, b| a.1.watts().total_cmp(&b.1.watts()))
}

fn state_place(assessment: &Assessment, state: usize) -> String {
    let id = assessment
        .states
        .get(state)
        .map(|s| crate::views::state::state_id(&s.kind));
    format!("/wiring?state={}", id.unwrap_or_default())
}

/// The conductor that comes nearest to its limit or furthest over it.
fn hottest(view: &View) -> Option<Figure> {
    let assessment = &view.study().assessment;
    let hot = assessment.wires.iter().filter_map(|wire| {
        let there = wire.states.get(wire.worst?)?;
        Some((
            wire,
            there.temperature,
            wire.limit.celsius() - there.temperature.celsius(),
        ))
    });
    let (wire, temperature, _) = hot.min_by(|a, b| a.2.total_cmp(&b.2))?;
    Some(Figure {
        name: "Wire nearest its limit",
        value: view.show(temperature),
        note: format!("{}, limit {}", wire.label, view.show(wire.limit)),
        place: format!("/wiring?select=wire.{}&colour=temperature#panel", wire.id),
    })
}
