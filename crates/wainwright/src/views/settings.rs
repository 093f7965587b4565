//! Charging settings as plain data: a card for every device, what does not agree, modules in the cold. Numbers are in
//! the unit their name ends with. Not here: words for people (`words`), judgement.

pub mod words;

use super::basis::BasisView;
use super::system::{AssumptionView, assumed};
use serde::Serialize;
use wainwright_analysis::known::Known;
use wainwright_analysis::result::settings::{
    ColdString, DeviceCard, Figure, SettingConflict, SettingRow, SettingsResult,
};
use wainwright_model::{Edit, Value};

/// Version of [`SettingsReport`].
pub const SETTINGS_VERSION: u32 = 1;

/// The settings of one project, for machines.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SettingsReport {
    /// [`SETTINGS_VERSION`].
    pub settings_report: u32,
    /// Version of the program.
    pub program: &'static str,
    /// The file, when there is one.
    pub file: Option<String>,
    /// What was found.
    pub settings: SettingsView,
}

/// Everything the settings study finds.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SettingsView {
    /// Whether the person has begun this job; before, nothing here is judged.
    pub begun: bool,
    /// The batteries as one bank.
    pub bank: Option<BankView>,
    /// A card for every charger, then for every disconnect.
    pub devices: Vec<CardView>,
    /// What does not agree.
    pub conflicts: Vec<ConflictView>,
    /// Modules in series on the coldest morning.
    pub cold_strings: Vec<ColdView>,
    /// Values nobody gave, with the stand-ins used.
    pub assumptions: Vec<AssumptionView>,
    /// Paths of values without which a card is poorer.
    pub missing: Vec<String>,
    /// What a solver refused.
    pub refused: Vec<String>,
}

/// The batteries as one bank with what protects them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BankView {
    /// The batteries.
    pub items: Vec<String>,
    /// What they are made of.
    pub chemistry: &'static str,
    /// Cells in series.
    pub series: u32,
    /// Nominal voltage.
    pub nominal_volts: f64,
    /// Charge of all.
    pub capacity_amp_hours: f64,
    /// How far the fullest cell is ahead.
    pub spread_share: f64,
    /// Where that came from.
    pub spread_basis: BasisView,
    /// Largest charging current.
    pub takes_amps: Option<f64>,
    /// Pack voltage at which the fullest cell stops charging.
    pub trip_volts: Option<f64>,
    /// Pack voltage at which the emptiest cell cuts loads off.
    pub cut_off_volts: Option<f64>,
}

/// The card of one device.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CardView {
    /// The item.
    pub item: String,
    /// What people call it.
    pub label: String,
    /// What it is.
    pub kind: &'static str,
    /// Out and back between it and the battery.
    pub wire_ohms: f64,
    /// Where that came from.
    pub wire_basis: BasisView,
    /// Its settings.
    pub rows: Vec<RowView>,
}

/// One line of a card.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RowView {
    /// Which setting.
    pub setting: &'static str,
    /// Where it is typed.
    pub path: String,
    /// What is set now.
    pub now: Option<FigureView>,
    /// Where that came from.
    pub basis: Option<BasisView>,
    /// What to set.
    pub advised: Option<FigureView>,
    /// Its range, both ends with their reasons.
    pub range: Option<RangeView>,
    /// Whether what is set lies in the range.
    pub agrees: Option<bool>,
}

/// A number of a setting with its unit: V, A, °C, s, V/K, or `on` and `off`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FigureView {
    /// The number; none for on and off.
    pub value: Option<f64>,
    /// Its unit, or `on`, or `off`.
    pub unit: &'static str,
}

/// A range with the reasons of its ends.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RangeView {
    /// Lower end.
    pub low: f64,
    /// Why.
    pub low_because: &'static str,
    /// Upper end; below the lower one no value is legal.
    pub high: f64,
    /// Why.
    pub high_because: &'static str,
}

/// What does not agree.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ConflictView {
    /// What, as a sentence.
    pub what: &'static str,
    /// The devices.
    pub items: Vec<String>,
    /// What is set or there.
    pub found: FigureView,
    /// What it runs into.
    pub limit: FigureView,
    /// What it may be, with margin.
    pub allowed: FigureView,
    /// Only nearer than the margin.
    pub within_margin: bool,
    /// Whether the person gave the settings.
    pub told: bool,
    /// Settings to change, as `path = value`.
    pub set: Vec<String>,
    /// What else it needs, or what to change where no setting helps.
    pub besides: Vec<String>,
}

/// Modules in series on the coldest morning.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ColdView {
    /// The controller.
    pub controller: String,
    /// The modules.
    pub modules: Vec<String>,
    /// Coldest morning.
    pub coldest_celsius: f64,
    /// Their voltage without load then.
    pub cold_volts: f64,
    /// Most that the controller takes.
    pub allowed_volts: Option<f64>,
}

impl SettingsView {
    /// The same as plain data.
    pub fn of(found: &SettingsResult) -> Self {
        Self {
            begun: found.begun,
            bank: bank(found),
            devices: found.devices.iter().map(card).collect(),
            conflicts: found
                .conflicts
                .iter()
                .map(|clash| conflict(found, clash))
                .collect(),
            cold_strings: found.cold_strings.iter().map(cold).collect(),
            assumptions: assumed(&found.assumptions),
            missing: found.missing.iter().map(|path| path.join(".")).collect(),
            refused: found.refused.clone(),
        }
    }
}

impl FigureView {
    /// The same as plain data.
    pub fn of(figure: Figure) -> Self {
        let (value, unit) = match figure {
            Figure::Voltage(volts) => (Some(volts.volts()), "V"),
            Figure::Current(amps) => (Some(amps.amperes()), "A"),
            Figure::Temperature(at) => (Some(at.celsius()), "°C"),
            Figure::Duration(time) => (Some(time.seconds()), "s"),
            Figure::Compensation(slope) => (Some(slope), "V/K"),
            Figure::Off => (None, "off"),
            Figure::On => (None, "on"),
        };
        Self { value, unit }
    }
}

fn bank(found: &SettingsResult) -> Option<BankView> {
    let bank = found.bank.as_ref()?;
    let pack = found.pack.as_ref();
    Some(BankView {
        items: bank.items.iter().map(ToString::to_string).collect(),
        chemistry: bank.chemistry.id(),
        series: bank.series,
        nominal_volts: bank.nominal.volts(),
        capacity_amp_hours: bank.capacity.value.ampere_hours(),
        spread_share: bank.spread.value.fraction(),
        spread_basis: BasisView::of(&bank.spread.basis),
        takes_amps: pack.map(|pack| pack.takes.amperes()),
        trip_volts: pack.and_then(|pack| Some(pack.trip?.volts())),
        cut_off_volts: pack.and_then(|pack| Some(pack.cut_off?.volts())),
    })
}

fn card(card: &DeviceCard) -> CardView {
    CardView {
        item: card.item.to_string(),
        label: card.label.clone(),
        kind: words::device(card.kind),
        wire_ohms: card.wire.value.ohms(),
        wire_basis: BasisView::of(&card.wire.basis),
        rows: card.rows.iter().map(|line| row(card, line)).collect(),
    }
}

fn row(card: &DeviceCard, row: &SettingRow) -> RowView {
    let figure = |known: &Known<Figure>| FigureView::of(known.value);
    RowView {
        setting: words::setting(row.what),
        path: row.path.join("."),
        now: row.now.as_ref().map(figure),
        basis: row.now.as_ref().map(|known| BasisView::of(&known.basis)),
        advised: row.advised.map(FigureView::of),
        range: words::range(card, row.what).map(|range| RangeView {
            low: range.low.0,
            low_because: words::reason(range.low.1),
            high: range.high.0,
            high_because: words::reason(range.high.1),
        }),
        agrees: row.agrees,
    }
}

fn conflict(found: &SettingsResult, clash: &SettingConflict) -> ConflictView {
    let inner = &clash.conflict;
    let devices = clash.devices.iter().filter_map(|at| found.devices.get(*at));
    let besides = clash.besides.iter().map(|change| words::besides(*change));
    let change = inner.change.filter(|_| clash.edits.is_empty());
    ConflictView {
        what: words::headline(inner.kind),
        items: devices.map(|card| card.item.to_string()).collect(),
        found: FigureView::of(inner.found),
        limit: FigureView::of(inner.limit),
        allowed: FigureView::of(inner.allowed),
        within_margin: inner.within_margin,
        told: clash.told,
        set: clash.edits.iter().filter_map(edit).collect(),
        besides: besides
            .map(str::to_owned)
            .chain(change.map(words::to_change))
            .collect(),
    }
}

/// `item.shore.charge_voltage = 14 V`.
pub fn edit(edit: &Edit) -> Option<String> {
    let Edit::Set { path, value } = edit else {
        return None;
    };
    let value = match value {
        Value::Text(text) => text.clone(),
        Value::Bool(on) => on.to_string(),
        Value::Integer(number) => number.to_string(),
        Value::Number(number) => number.to_string(),
        Value::List(_) => return None,
    };
    Some(format!("{} = {value}", path.join(".")))
}

fn cold(string: &ColdString) -> ColdView {
    ColdView {
        controller: string.controller.to_string(),
        modules: string.modules.iter().map(ToString::to_string).collect(),
        coldest_celsius: string.coldest.value.celsius(),
        cold_volts: string.cold.volts(),
        allowed_volts: string.allowed.as_ref().map(|known| known.value.volts()),
    }
}
