//! What the settings study finds: what to set on every charging device and every low-voltage disconnect, what is set
//! now, and what of it does not agree. Not here: judgement ("too high"), words for people.

use crate::known::{Basis, Known};
use crate::result::AssumedValue;
use wainwright_model::{Edit, Id};
use wainwright_units::{Charge, Current, Ratio, Resistance, Temperature, Voltage};

pub use wainwright_engines::charging::{
    Bound, Cause, Change, Channel, ChargerCard, ChargerFigures, Conflict, ConflictKind, Diagnosis,
    DisconnectCard, DisconnectFigures, Event, Figure, Levels, NextMeasurement, Observation,
    PackFigures, Place, Ranked, Reason, SetPoint, Setting, Taper, ToChange,
};
pub use wainwright_reference::battery::Chemistry;

/// Everything the settings study finds.
#[derive(Debug, Clone, Default)]
pub struct SettingsResult {
    /// Whether the person has begun this job: anything that only it needs is typed, such as a float voltage, a
    /// threshold of the protection, a reconnect voltage. Until then nothing here should be said unasked.
    pub begun: bool,
    /// The batteries as one bank; `None` without a battery.
    pub bank: Option<BankFigures>,
    /// What protects its cells; `None` for lead-acid and without a battery.
    pub board: Option<BoardFigures>,
    /// What the pack does: where the bounds come from.
    pub pack: Option<PackFigures>,
    /// What the loads need.
    pub loads: Option<LoadFigures>,
    /// One for each charger, then one for each disconnect, each in file order.
    pub devices: Vec<DeviceCard>,
    /// What does not agree, charger by charger, then disconnect by disconnect.
    pub conflicts: Vec<SettingConflict>,
    /// Modules in series on a cold morning, one for each solar controller that has any.
    pub cold_strings: Vec<ColdString>,
    /// Every value nobody gave, with the stand-in used.
    pub assumptions: Vec<AssumedValue>,
    /// Paths of values without which a card is poorer: what is set now, and what a device can give.
    pub missing: Vec<Vec<String>>,
    /// Sentences of engines that got figures that cannot be.
    pub refused: Vec<String>,
}

/// All batteries as one.
#[derive(Debug, Clone, PartialEq)]
pub struct BankFigures {
    /// The batteries, in file order.
    pub items: Vec<Id>,
    /// What they are made of.
    pub chemistry: Chemistry,
    /// Whether it is lithium.
    pub lithium: bool,
    /// Nominal voltage [V].
    pub nominal: Voltage,
    /// Cells in series.
    pub series: u32,
    /// Charge of all together [Ah].
    pub capacity: Known<Charge>,
    /// How far the fullest cell is ahead of the others.
    pub spread: Known<Ratio>,
    /// Largest charging current of all together [A].
    pub most_in: Known<Current>,
    /// Coldest the cells are expected while something charges [°C].
    pub coldest: Known<Temperature>,
}

/// Thresholds of the protection that acts first. Cell voltages unless named pack; pack voltages are of the whole bank.
#[derive(Debug, Clone, PartialEq)]
pub struct BoardFigures {
    /// A cell above it stops charging [V].
    pub over: Known<Voltage>,
    /// Charging goes on below it [V].
    pub over_release: Known<Voltage>,
    /// A cell below it cuts loads off [V].
    pub under: Known<Voltage>,
    /// Loads go on above it [V].
    pub under_release: Known<Voltage>,
    /// Pack voltage that stops charging [V].
    pub pack_over: Option<Known<Voltage>>,
    /// Pack voltage below which charging goes on [V].
    pub pack_over_release: Option<Known<Voltage>>,
    /// Pack voltage that cuts loads off [V].
    pub pack_under: Option<Known<Voltage>>,
    /// Pack voltage above which loads go on [V].
    pub pack_under_release: Option<Known<Voltage>>,
    /// Full cells are bled from here [V].
    pub balance_from: Known<Voltage>,
    /// Charging stops below [°C].
    pub cold: Known<Temperature>,
    /// Whether the terminals are dead after it cut the loads off.
    pub goes_dead: Known<bool>,
}

/// What the loads need.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadFigures {
    /// Highest voltage that all of them take [V], and the load that decides.
    pub highest: Known<Voltage>,
    /// The load that decides it.
    pub highest_of: Option<Id>,
    /// Lowest voltage at which all of them work [V].
    pub lowest: Known<Voltage>,
    /// The load that decides it.
    pub lowest_of: Option<Id>,
    /// What runs all the time [A].
    pub standing: Known<Current>,
}

/// What a device with settings is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DeviceKind {
    /// Solar controller.
    Solar,
    /// Charger on household voltage.
    Shore,
    /// Charger on the tow vehicle.
    Dcdc,
    /// Charge line of the tow vehicle that goes straight to the battery; it has nothing to set.
    Vehicle,
    /// Load output of a solar controller.
    LoadOutput,
    /// Switch that opens by itself at a low voltage.
    Relay,
    /// Inverter with its own shut-down.
    Inverter,
}

/// One kind of setting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SettingKind {
    /// Absorption voltage: what a charger charges to (`charge_voltage`).
    ChargeVoltage,
    /// Float voltage.
    Float,
    /// Absorption time.
    AbsorptionTime,
    /// Tail current.
    Tail,
    /// Temperature compensation.
    Compensation,
    /// Equalising, on or off.
    Equalise,
    /// Low-temperature lockout.
    ColdLockout,
    /// Current limit (`output_current`).
    Limit,
    /// Voltage at which loads go off.
    Off,
    /// Voltage at which they come back.
    On,
}

/// One line of a card.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingRow {
    /// Which setting.
    pub what: SettingKind,
    /// Where it is typed in the project file.
    pub path: Vec<String>,
    /// What is set now; `None`: nobody said. A value that stands in is never here.
    pub now: Option<Known<Figure>>,
    /// What to set, rounded to what can be typed; `None` when no value is legal (see the engine's card).
    pub advised: Option<Figure>,
    /// Sets it to the advised value; `None` when nothing is legal or it is set so already.
    pub edit: Option<Edit>,
    /// Whether what is set lies in the range; `None` when it is not known.
    pub agrees: Option<bool>,
}

/// The card of one device.
#[derive(Debug, Clone, PartialEq)]
pub struct DeviceCard {
    /// The item.
    pub item: Id,
    /// What people call it.
    pub label: String,
    /// What it is.
    pub kind: DeviceKind,
    /// Its settings, in the order in which they are set.
    pub rows: Vec<SettingRow>,
    /// Out and back between its terminals and the battery's [Ω].
    pub wire: Known<Resistance>,
    /// Largest current it gives, or that flows through it [A].
    pub most: Known<Current>,
    /// Bounds, reasons and figures behind the rows.
    pub card: EngineCard,
}

/// The engine's card of a device.
#[derive(Debug, Clone, PartialEq)]
pub enum EngineCard {
    /// Of a charger.
    Charger(Box<ChargerCard>),
    /// Of a disconnect.
    Disconnect(Box<DisconnectCard>),
}

/// Two numbers that do not agree, with where they stand in the file.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingConflict {
    /// The engine's finding; its `place` counts chargers and disconnects by themselves, use `devices` instead.
    pub conflict: Conflict,
    /// The devices concerned, as indices into [`SettingsResult::devices`]; several when a sum is too large.
    pub devices: Vec<usize>,
    /// Paths of the settings that are held against something.
    pub paths: Vec<Vec<String>>,
    /// Whether the person gave these settings, in an item or in a part of their own.
    pub told: bool,
    /// Paths of values that stand in for what the settings are held against.
    pub rests_on: Vec<Vec<String>>,
    /// Edits that carry the remedy out, as far as it is settings of the file.
    pub edits: Vec<Edit>,
    /// What else the remedy needs, which is no setting of the file.
    pub besides: Vec<Change>,
}

/// Modules in series on the coldest morning.
#[derive(Debug, Clone, PartialEq)]
pub struct ColdString {
    /// The controller.
    pub controller: Id,
    /// The modules in series with the highest voltage.
    pub modules: Vec<Id>,
    /// Their voltage without load at 25 °C [V].
    pub open: Known<Voltage>,
    /// Coldest morning [°C].
    pub coldest: Known<Temperature>,
    /// Voltage without load on that morning [V].
    pub cold: Voltage,
    /// Most that the controller takes; `None`: nobody said [V].
    pub allowed: Option<Known<Voltage>>,
}

/// A cause of what was seen, with where it is set.
#[derive(Debug, Clone, PartialEq)]
pub struct Suspect {
    /// The engine's cause with its share.
    pub ranked: Ranked,
    /// The setting that explains it, as (device, row); `None` when it is no setting of the file.
    pub row: Option<(usize, usize)>,
}

/// What explains a symptom.
#[derive(Debug, Clone, PartialEq)]
pub struct SymptomAnswer {
    /// Causes, most likely first; shares add up to one.
    pub suspects: Vec<Suspect>,
    /// What would tell most, best first.
    pub next: Vec<NextMeasurement>,
    /// How well the best cause explains what was seen, 0 to 1.
    pub fit: Ratio,
}

/// What can be entered for a symptom at one charger and one disconnect.
#[derive(Debug, Clone, PartialEq)]
pub struct Observable {
    /// Chargers that can be asked about, as indices into [`SettingsResult::devices`].
    pub chargers: Vec<usize>,
    /// Disconnects that can be asked about.
    pub disconnects: Vec<usize>,
    /// What can be read.
    pub channels: Vec<Channel>,
    /// What can be seen to happen.
    pub events: Vec<Event>,
}

impl SettingsResult {
    /// The cards of an item: a controller with a load output has two.
    pub fn of_item<'a>(&'a self, item: &'a str) -> impl Iterator<Item = &'a DeviceCard> + 'a {
        self.devices
            .iter()
            .filter(move |card| card.item.as_str() == item)
    }

    /// Conflicts of one kind.
    pub fn of_kind(&self, kind: ConflictKind) -> impl Iterator<Item = &SettingConflict> {
        self.conflicts
            .iter()
            .filter(move |found| found.conflict.kind == kind)
    }
}

impl DeviceCard {
    /// The row of a setting.
    pub fn row(&self, what: SettingKind) -> Option<&SettingRow> {
        self.rows.iter().find(|row| row.what == what)
    }

    /// The engine's card of a charger.
    pub fn charger(&self) -> Option<&ChargerCard> {
        match &self.card {
            EngineCard::Charger(card) => Some(card),
            EngineCard::Disconnect(_) => None,
        }
    }

    /// The engine's card of a disconnect.
    pub fn disconnect(&self) -> Option<&DisconnectCard> {
        match &self.card {
            EngineCard::Disconnect(card) => Some(card),
            EngineCard::Charger(_) => None,
        }
    }
}

impl SettingRow {
    /// Whether what is set now was given by the person, not by a part of the library.
    pub fn is_typed(&self) -> bool {
        let basis = self.now.as_ref().map(|now| &now.basis);
        matches!(basis, Some(Basis::Typed(_)))
    }
}
