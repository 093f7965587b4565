//! Chargers of the project with what is set on them, as the engine sees them. Not here: disconnects, the bank, cards.

use super::desk::Desk;
use crate::known::{Assumption, Known};
use crate::result::settings::{DeviceKind, Figure, SettingKind};
use wainwright_engines::charging::{Charger, ChargerKind, Profile, Settings};
use wainwright_model::{
    DcdcCharger, Field, FieldExt, Id, ShoreCharger, SolarController, Spec, Tracking, VehicleSupply,
};
use wainwright_reference::device_class::{alternator_voltage, charge_wire_current, held_voltage};
use wainwright_units::{Current, Duration, Resistance, Temperature, Voltage};

/// Current of a charger when nobody said (judgement): a small one.
pub(super) const SMALL: Current = Current::from_amperes(10.0);
/// Equalising voltage of a lead-acid profile, which is what a charger does when it equalises, 12 V (class value of
/// controller manuals, as in the table of charging values).
const EQUALISES_AT: f64 = 15.0;
/// How far above the class value a converter without a lithium profile may hold [V, 12 V system] (judgement).
const HELD_SLACK: f64 = 0.05;

/// One setting as it is in the file.
pub(super) struct Set {
    pub(super) what: SettingKind,
    pub(super) path: Vec<String>,
    pub(super) now: Option<Known<Figure>>,
}

/// A device before its card.
pub(super) struct Device<E> {
    pub(super) item: Id,
    pub(super) label: String,
    pub(super) kind: DeviceKind,
    pub(super) sets: Vec<Set>,
    pub(super) wire: Known<Resistance>,
    pub(super) most: Known<Current>,
    pub(super) engine: E,
}

/// What the devices hang on.
pub(super) struct Ground {
    pub(super) nominal: Voltage,
    pub(super) series: u32,
    pub(super) lithium: bool,
    pub(super) profile: Profile,
    /// Open voltage of the modules of each controller on a cold morning.
    pub(super) cold_modules: Vec<(Id, Voltage)>,
}

impl Ground {
    /// Batteries of 12 V in series.
    pub(super) fn blocks(&self) -> f64 {
        (self.nominal.volts() / 12.4).round().max(1.0)
    }

    pub(super) fn cells(&self) -> f64 {
        f64::from(self.series)
    }
}

/// The six settings that all chargers share, and what else the engine asks.
struct Fields<'a> {
    kind: DeviceKind,
    current: &'a Field<Current>,
    voltage: &'a Field<Voltage>,
    float: &'a Field<Voltage>,
    time: &'a Field<Duration>,
    tail: &'a Field<Current>,
    compensation: &'a Field<Voltage>,
    equalise: &'a Field<bool>,
    lockout: &'a Field<Temperature>,
    needs_battery: bool,
    unloaded: Option<Voltage>,
}

macro_rules! fields {
    ($kind:expr, $spec:expr) => {
        Fields {
            kind: $kind,
            current: &$spec.output_current,
            voltage: &$spec.charge_voltage,
            float: &$spec.float_voltage,
            time: &$spec.absorption_time,
            tail: &$spec.tail_current,
            compensation: &$spec.compensation,
            equalise: &$spec.equalise,
            lockout: &$spec.cold_lockout,
            needs_battery: false,
            unloaded: None,
        }
    };
}

/// The chargers, in file order.
pub(super) fn chargers(desk: &mut Desk<'_>, ground: &Ground) -> Vec<Device<Charger>> {
    let project = desk.project;
    let mut found = Vec::new();
    for (id, item) in project.items.iter() {
        let fields = match &item.spec {
            Spec::SolarController(spec) => solar(ground, id, spec),
            Spec::ShoreCharger(spec) => shore(spec),
            Spec::DcdcCharger(spec) => dcdc(spec),
            Spec::VehicleSupply(spec) if desk.facts.direct.contains(id) => {
                found.push(vehicle(desk, ground, id, spec));
                continue;
            }
            _ => continue,
        };
        found.push(charger(desk, ground, id, &fields));
    }
    share_out(&mut found);
    found
}

fn solar<'a>(ground: &Ground, id: &Id, spec: &'a SolarController) -> Fields<'a> {
    let switching = spec.tracking.value() == Some(&Tracking::Pwm);
    let modules = ground.cold_modules.iter().find(|(of, _)| of == id);
    Fields {
        needs_battery: spec.needs_battery.value() == Some(&true),
        // A switching controller joins the modules straight to the wires.
        unloaded: modules.filter(|_| switching).map(|(_, open)| *open),
        ..fields!(DeviceKind::Solar, spec)
    }
}

fn shore(spec: &ShoreCharger) -> Fields<'_> {
    fields!(DeviceKind::Shore, spec)
}

fn dcdc(spec: &DcdcCharger) -> Fields<'_> {
    fields!(DeviceKind::Dcdc, spec)
}

fn charger(desk: &mut Desk<'_>, ground: &Ground, id: &Id, fields: &Fields<'_>) -> Device<Charger> {
    let name = id.as_str();
    let path = |key: &str| vec!["item".to_owned(), name.to_owned(), key.to_owned()];
    let most = desk.notes.given_or(
        fields.current,
        &["item", name, "output_current"],
        SMALL,
        Assumption::UsualForKind,
    );
    let wire = wire(desk, ground, id, most.value);
    let set = |what, key: &str, now| Set {
        what,
        path: path(key),
        now,
    };
    let notes = &desk.notes;
    let compensation = notes.given(fields.compensation);
    let equalise = notes.given(fields.equalise);
    let equalises_at = Voltage::from_volts(EQUALISES_AT * ground.blocks());
    let sets = vec![
        set(
            SettingKind::ChargeVoltage,
            "charge_voltage",
            figure(notes.given(fields.voltage), Figure::Voltage),
        ),
        set(
            SettingKind::Float,
            "float_voltage",
            figure(notes.given(fields.float), Figure::Voltage),
        ),
        set(
            SettingKind::AbsorptionTime,
            "absorption_time",
            figure(notes.given(fields.time), Figure::Duration),
        ),
        set(
            SettingKind::Tail,
            "tail_current",
            figure(notes.given(fields.tail), Figure::Current),
        ),
        set(
            SettingKind::Compensation,
            "compensation",
            figure(compensation, |typed: Voltage| {
                Figure::Compensation(-typed.volts())
            }),
        ),
        set(
            SettingKind::Equalise,
            "equalise",
            figure(equalise, |on| match on {
                true => Figure::Voltage(equalises_at),
                false => Figure::Off,
            }),
        ),
        set(
            SettingKind::ColdLockout,
            "cold_lockout",
            figure(notes.given(fields.lockout), Figure::Temperature),
        ),
        set(
            SettingKind::Limit,
            "output_current",
            figure(notes.given(fields.current), Figure::Current),
        ),
    ];
    if fields.voltage.is_none() {
        desk.lacking.push(path("charge_voltage"));
    }
    let engine = Charger {
        kind: charger_kind(fields.kind),
        most: most.value,
        wire: wire.value,
        senses: false,
        adjustable: true,
        sensor: fields.lockout.is_some(),
        lead_acid_profile: converter(ground, fields),
        needs_battery: fields.needs_battery,
        together: true,
        unloaded: fields.unloaded,
        settings: settings(ground, fields, most.value, equalises_at),
    };
    Device {
        item: id.clone(),
        label: desk.project.label_or_id("item", name).to_owned(),
        kind: fields.kind,
        sets,
        wire,
        most,
        engine,
    }
}

/// What is set; `None` as long as nothing but the current is told. What is not told is as the chemistry has it, and no
/// conflict about it is kept.
fn settings(
    ground: &Ground,
    fields: &Fields<'_>,
    most: Current,
    equalises_at: Voltage,
) -> Option<Settings> {
    let any = fields.voltage.is_some()
        || fields.float.is_some()
        || fields.time.is_some()
        || fields.tail.is_some()
        || fields.compensation.is_some()
        || fields.equalise.is_some()
        || fields.lockout.is_some();
    let usual = ground.profile.absorption.usual * ground.cells();
    let equalises = fields.equalise.value() == Some(&true);
    any.then(|| Settings {
        absorption: fields.voltage.value().copied().unwrap_or(usual),
        float: fields.float.value().copied(),
        absorption_time: fields
            .time
            .value()
            .copied()
            .unwrap_or(ground.profile.absorption_time.usual),
        tail: fields.tail.value().copied(),
        compensation: fields
            .compensation
            .value()
            .map_or(0.0, |typed| -typed.volts()),
        equalise: equalises.then_some(equalises_at),
        lockout: fields.lockout.value().copied(),
        limit: most,
    })
}

/// Whether a shore charger only holds a voltage, as converters made for lead-acid do.
fn converter(ground: &Ground, fields: &Fields<'_>) -> bool {
    let held = held_voltage().map(|row| row.value.volts() + HELD_SLACK);
    let (Some(held), Some(set)) = (held, fields.voltage.value()) else {
        return false;
    };
    let blocks = ground.blocks();
    ground.lithium && fields.kind == DeviceKind::Shore && set.volts() <= held * blocks
}

/// Shore power and the moving tow vehicle are never there together: only the stronger of both counts with the sun.
fn share_out(chargers: &mut [Device<Charger>]) {
    let on_the_road = |kind| matches!(kind, DeviceKind::Dcdc | DeviceKind::Vehicle);
    let sum = |wanted: &dyn Fn(DeviceKind) -> bool| -> f64 {
        let those = chargers.iter().filter(|device| wanted(device.kind));
        those.map(|device| device.most.value.amperes()).sum()
    };
    let shore = sum(&|kind| kind == DeviceKind::Shore);
    let road = sum(&on_the_road);
    for device in chargers {
        device.engine.together = match device.kind {
            DeviceKind::Shore => shore >= road,
            kind if on_the_road(kind) => road > shore,
            _ => true,
        };
    }
}

fn vehicle(desk: &mut Desk<'_>, ground: &Ground, id: &Id, spec: &VehicleSupply) -> Device<Charger> {
    let name = id.as_str();
    let usual = charge_wire_current().map_or(SMALL, |row| row.value.high);
    let most = desk.notes.given_or(
        &spec.output_current,
        &["item", name, "output_current"],
        usual,
        Assumption::UsualForKind,
    );
    let wire = wire(desk, ground, id, most.value);
    let now = desk.notes.given(&spec.voltage);
    let class = alternator_voltage().map_or(Voltage::from_volts(13.8), |row| row.value.usual);
    let set = Settings {
        absorption: spec.voltage.value().copied().unwrap_or(class),
        float: None,
        absorption_time: Duration::ZERO,
        tail: None,
        compensation: 0.0,
        equalise: None,
        lockout: None,
        limit: most.value,
    };
    Device {
        item: id.clone(),
        label: desk.project.label_or_id("item", name).to_owned(),
        kind: DeviceKind::Vehicle,
        sets: vec![Set {
            what: SettingKind::ChargeVoltage,
            path: vec!["item".into(), name.into(), "voltage".into()],
            now: figure(now, Figure::Voltage),
        }],
        engine: Charger {
            kind: ChargerKind::Vehicle,
            most: most.value,
            wire: wire.value,
            senses: false,
            adjustable: false,
            sensor: false,
            lead_acid_profile: false,
            needs_battery: false,
            together: true,
            unloaded: None,
            settings: spec.voltage.is_some().then_some(set),
        },
        wire,
        most,
    }
}

/// The way to the bank; where no wires say it, as much as loses the share allowed for gear that must not fail.
pub(super) fn wire(desk: &Desk<'_>, ground: &Ground, id: &Id, most: Current) -> Known<Resistance> {
    desk.facts.way(id).unwrap_or_else(|| {
        let drop = ground.nominal * desk.facts.critical_drop.fraction();
        let ohms = Resistance::from_ohms(drop.volts() / most.amperes().max(f64::MIN_POSITIVE));
        Known::assumed(ohms, Assumption::Profile)
    })
}

pub(super) fn figure<T>(
    known: Option<Known<T>>,
    make: impl FnOnce(T) -> Figure,
) -> Option<Known<Figure>> {
    known.map(|known| Known::new(make(known.value), known.basis))
}

fn charger_kind(kind: DeviceKind) -> ChargerKind {
    match kind {
        DeviceKind::Shore => ChargerKind::Shore,
        DeviceKind::Dcdc => ChargerKind::Dcdc,
        DeviceKind::Vehicle => ChargerKind::Vehicle,
        _ => ChargerKind::Solar,
    }
}
