//! What cuts loads off at a low voltage, with what is set on it, as the engine sees it. Not here: chargers, cards.

use super::desk::Desk;
use super::devices::{Device, Ground, SMALL, Set, figure, wire};
use crate::known::Known;
use crate::result::settings::{DeviceKind, Figure, SettingKind};
use wainwright_engines::charging::{Disconnect, DisconnectKind, DisconnectSettings};
use wainwright_model::{Field, FieldExt, Id, Inverter, SolarController, Spec, Switch};
use wainwright_units::{Current, Voltage};

/// The disconnects but inverters, then the inverters, each in file order.
pub(super) fn disconnects(
    desk: &mut Desk<'_>,
    ground: &Ground,
) -> (Vec<Device<Disconnect>>, Vec<Device<Disconnect>>) {
    let project = desk.project;
    let (mut relays, mut inverters) = (Vec::new(), Vec::new());
    for (id, item) in project.items.iter() {
        match &item.spec {
            Spec::SolarController(spec) if told(&spec.load_off, &spec.load_on) => {
                relays.push(load_output(desk, ground, id, spec));
            }
            Spec::Switch(spec) if told(&spec.load_off, &spec.load_on) => {
                relays.push(relay(desk, ground, id, spec));
            }
            Spec::Inverter(spec) => inverters.extend(inverter(desk, ground, id, spec)),
            _ => {}
        }
    }
    (relays, inverters)
}

fn told(off: &Field<Voltage>, on: &Field<Voltage>) -> bool {
    off.is_some() || on.is_some()
}

fn load_output(
    desk: &mut Desk<'_>,
    ground: &Ground,
    id: &Id,
    spec: &SolarController,
) -> Device<Disconnect> {
    let through = through(desk, &spec.output_current);
    let fields = (&spec.load_off, "load_off", &spec.load_on, "load_on");
    disconnect(desk, ground, id, DeviceKind::LoadOutput, through, fields)
}

fn relay(desk: &mut Desk<'_>, ground: &Ground, id: &Id, spec: &Switch) -> Device<Disconnect> {
    let through = through(desk, &spec.rating);
    let fields = (&spec.load_off, "load_off", &spec.load_on, "load_on");
    disconnect(desk, ground, id, DeviceKind::Relay, through, fields)
}

/// All loads but inverters, as far as the device bears them.
fn through(desk: &Desk<'_>, rating: &Field<Current>) -> Known<Current> {
    let drawn = desk.facts.drawn;
    let rated = rating.value().copied().unwrap_or(SMALL);
    Known::computed(match drawn > Current::ZERO {
        true => drawn.min(rated.max(SMALL)),
        false => rated,
    })
}

fn inverter(
    desk: &mut Desk<'_>,
    ground: &Ground,
    id: &Id,
    spec: &Inverter,
) -> Option<Device<Disconnect>> {
    let drawn = desk.facts.inverters.iter().find(|(of, _)| of == id);
    let Some(most) = drawn.map(|(_, amps)| Known::computed(*amps)) else {
        let path = vec!["item".into(), id.to_string(), "power".into()];
        desk.lacking.push(path);
        return None;
    };
    let fields = (
        &spec.low_cutoff,
        "low_cutoff",
        &spec.low_release,
        "low_release",
    );
    Some(disconnect(
        desk,
        ground,
        id,
        DeviceKind::Inverter,
        most,
        fields,
    ))
}

fn disconnect(
    desk: &mut Desk<'_>,
    ground: &Ground,
    id: &Id,
    kind: DeviceKind,
    most: Known<Current>,
    (off, off_key, on, on_key): (&Field<Voltage>, &str, &Field<Voltage>, &str),
) -> Device<Disconnect> {
    let name = id.as_str();
    let wire = wire(desk, ground, id, most.value);
    let path = |key: &str| vec!["item".to_owned(), name.to_owned(), key.to_owned()];
    let set = |what, key: &str, field: &Field<Voltage>| Set {
        what,
        path: path(key),
        now: figure(desk.notes.given(field), Figure::Voltage),
    };
    let cells = ground.cells();
    let settings = told(off, on).then(|| DisconnectSettings {
        off: off
            .value()
            .copied()
            .unwrap_or(ground.profile.disconnect * cells),
        on: on
            .value()
            .copied()
            .unwrap_or(ground.profile.reconnect * cells),
    });
    let sets = vec![
        set(SettingKind::Off, off_key, off),
        set(SettingKind::On, on_key, on),
    ];
    if off.is_none() {
        desk.lacking.push(path(off_key));
    }
    Device {
        item: id.clone(),
        label: desk.project.label_or_id("item", name).to_owned(),
        kind,
        sets,
        engine: Disconnect {
            kind: match kind {
                DeviceKind::Inverter => DisconnectKind::Inverter,
                _ => DisconnectKind::Relay,
            },
            most: most.value,
            wire: wire.value,
            settings,
        },
        wire,
        most,
    }
}
