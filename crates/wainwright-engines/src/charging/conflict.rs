//! Settings that do not agree, and what makes them agree. Not here: how they are found.

use super::bound::ToChange;
use wainwright_units::{Current, Duration, Ratio, Temperature, Voltage};

/// What does not agree.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ConflictKind {
    /// A charger goes above the voltage at which the board stops charging.
    AboveBoard,
    /// A charger goes above what loads take.
    AboveLoads,
    /// Absorption is so low that the battery does not get full.
    NeverFull,
    /// Absorption is so low that the board never evens the cells out.
    NeverBalances,
    /// Float is so low that the battery falls below full before the charger helps.
    FloatTooLow,
    /// Float holds the battery full all the time.
    FloatTooHigh,
    /// Float is above absorption.
    FloatAboveAbsorption,
    /// Loads that run all the time keep absorption from ending.
    TailTooSmall,
    /// Absorption ends before the battery is full.
    TailTooLarge,
    /// One charger gives more than the battery takes.
    CurrentAboveBattery,
    /// Chargers that run together give more than the battery takes.
    SumAboveBattery,
    /// Nothing but the board keeps a charger from charging frozen cells.
    NoColdLockout,
    /// Equalising is on with lithium.
    EqualiseOnLithium,
    /// Temperature compensation is on with lithium.
    CompensationOnLithium,
    /// A profile for lead-acid charges lithium: the last part takes hours.
    LeadAcidProfile,
    /// When the board opens, a charger leaves the loads with more than they take.
    LoadDump,
    /// The board goes dead and the charger needs battery voltage to start.
    CannotWake,
    /// Loads are cut off only after the board has done it.
    DisconnectBelowBoard,
    /// The inverter shuts down only after the board has cut it off.
    InverterBelowBoard,
    /// Loads stop working before they are cut off.
    DisconnectBelowLoads,
    /// Loads are cut off while there is charge left.
    DisconnectTooEarly,
    /// The battery recovers above reconnect at once: a relay clicks on and off.
    Clicking,
    /// Loads come back late or never.
    ReconnectTooHigh,
}

/// Where it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// A charger, by its index.
    Charger(usize),
    /// A disconnect, by its index.
    Disconnect(usize),
    /// All chargers together.
    Chargers,
}

/// A number that was compared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Figure {
    /// A voltage.
    Voltage(Voltage),
    /// A current.
    Current(Current),
    /// A temperature.
    Temperature(Temperature),
    /// A time.
    Duration(Duration),
    /// A change of voltage with temperature, whole pack [V/K].
    Compensation(f64),
    /// It is not there, or off.
    Off,
    /// It is there, or on.
    On,
}

/// One thing to set or to change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// Absorption voltage of a charger.
    Absorption(usize, Voltage),
    /// Float voltage of a charger; `None`: off.
    Float(usize, Option<Voltage>),
    /// Longest absorption time of a charger.
    AbsorptionTime(usize, Duration),
    /// Tail current of a charger.
    Tail(usize, Current),
    /// Temperature compensation of a charger, whole pack [V/K].
    Compensation(usize, f64),
    /// Equalising of a charger.
    Equalise(usize, Option<Voltage>),
    /// Low-temperature lockout of a charger.
    Lockout(usize, Temperature),
    /// Current limit of a charger.
    Limit(usize, Current),
    /// The profile of a charger: from lead-acid to lithium.
    LithiumProfile(usize),
    /// A disconnect's voltage.
    Off(usize, Voltage),
    /// A disconnect's reconnect voltage.
    On(usize, Voltage),
    /// Not a setting: a charger whose settings can be changed.
    AdjustableCharger(usize),
    /// Not a setting: a temperature sensor at the battery.
    Sensor(usize),
    /// Not a setting: something that keeps a charger's open output at or below this voltage.
    Clamp(usize, Voltage),
    /// Not a setting: a way to wake the board without the charger.
    WakeSwitch,
}

/// Two numbers that do not agree.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    /// What.
    pub kind: ConflictKind,
    /// Where.
    pub place: Place,
    /// What is set or there.
    pub found: Figure,
    /// What it runs into, without margin.
    pub limit: Figure,
    /// What it may be, margin included.
    pub allowed: Figure,
    /// It is only nearer than the margin, not beyond the limit.
    pub within_margin: bool,
    /// State of charge and time that show what it costs, where that can be said.
    pub cost: Option<(Ratio, Duration)>,
    /// What to set so that this goes away and nothing new comes; empty when there is no such value.
    pub remedy: Vec<Change>,
    /// What to change when no setting helps.
    pub change: Option<ToChange>,
}
