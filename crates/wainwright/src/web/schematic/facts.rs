//! The short facts below the title of a block, as typed. Not here: computed
//! values.

use wainwright_model::{Field, Spec};

/// At most two facts.
pub fn facts(spec: &Spec) -> Vec<String> {
    let fact = match spec {
        Spec::Battery(it) => joined(&[text(&it.capacity), text(&it.chemistry)]),
        Spec::SolarModule(it) => joined(&[text(&it.power)]),
        Spec::SolarController(it) => joined(&[text(&it.tracking), text(&it.output_current)]),
        Spec::ShoreCharger(it) => joined(&[text(&it.output_current)]),
        Spec::DcdcCharger(it) => joined(&[text(&it.output_current)]),
        Spec::VehicleSupply(it) => joined(&[text(&it.voltage), text(&it.output_current)]),
        Spec::Inverter(it) => joined(&[text(&it.power)]),
        Spec::Fuse(it) => joined(&[text(&it.rating), text(&it.family)]),
        Spec::Breaker(it) => joined(&[text(&it.rating), text(&it.reset)]),
        Spec::FuseBlock(it) => joined(&[text(&it.family)]),
        Spec::BusBar(it) => joined(&[text(&it.rating)]),
        Spec::Switch(it) if it.closed.as_ref().is_some_and(|closed| !closed.value) => {
            Some("off".into())
        }
        Spec::Switch(it) => joined(&[text(&it.rating)]),
        Spec::SwitchBank(it) => joined(&[text(&it.rating)]),
        Spec::Shunt(it) => joined(&[text(&it.resistance)]),
        Spec::Outlet(it) => joined(&[text(&it.current)]),
        Spec::Load(it) => text(&it.power)
            .or(text(&it.current))
            .or(text(&it.resistance))
            .map(str::to_owned),
        Spec::Frame(it) => joined(&[text(&it.resistance)]),
        Spec::Splice(it) => joined(&[text(&it.resistance)]),
        Spec::Tank(_) | Spec::Furniture(_) | Spec::Cargo(_) | Spec::Person(_) => None,
        Spec::Unknown => Some("kind not said".into()),
    };
    fact.into_iter().collect()
}

fn text<T>(field: &Field<T>) -> Option<&str> {
    field.as_ref().map(|given| given.text.as_str())
}

fn joined(parts: &[Option<&str>]) -> Option<String> {
    let parts: Vec<&str> = parts.iter().flatten().copied().collect();
    (!parts.is_empty()).then(|| parts.join(" "))
}
