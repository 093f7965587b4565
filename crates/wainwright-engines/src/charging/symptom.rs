//! What somebody sees, and what may cause it. Not here: how likely that is.

use wainwright_units::{Current, Ratio, Temperature, Voltage};

/// What happens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Event {
    /// Nothing out of the ordinary.
    Nothing,
    /// A relay clicks on and off.
    RelayClicks,
    /// Charging stops, and starts again later.
    ChargingStops,
    /// The voltage on the wires jumps up when charging stops.
    VoltageJumps,
    /// The charger says full after a short time.
    FullEarly,
    /// It says full but is soon empty.
    RunsEmptySoon,
    /// It never says full.
    NeverFull,
    /// All loads drop out.
    LoadsDropOut,
    /// The inverter alarms or shuts down under load.
    InverterAlarms,
    /// The controller is dead in the morning.
    ControllerDead,
    /// No charge in the cold.
    NoChargeCold,
}

/// Something that can be read or measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Channel {
    /// Voltage at the charger's terminals [V].
    AtCharger,
    /// Voltage at the battery's terminals [V].
    AtBattery,
    /// Voltage of the highest cell [V].
    HighestCell,
    /// Voltage of the lowest cell [V].
    LowestCell,
    /// Voltage at the loads or the inverter [V].
    AtLoads,
    /// Current into the battery [A].
    Current,
    /// Temperature of the cells [°C].
    Temperature,
}

/// What was seen. Anything may be missing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Observation {
    /// At the charger's terminals [V].
    pub at_charger: Option<Voltage>,
    /// At the battery's terminals [V].
    pub at_battery: Option<Voltage>,
    /// Highest cell [V].
    pub highest_cell: Option<Voltage>,
    /// Lowest cell [V].
    pub lowest_cell: Option<Voltage>,
    /// At the loads or the inverter [V].
    pub at_loads: Option<Voltage>,
    /// Into the battery, negative out of it [A].
    pub current: Option<Current>,
    /// Of the cells [°C].
    pub temperature: Option<Temperature>,
    /// What happens.
    pub event: Option<Event>,
}

/// How far readings may be off, one standard deviation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeterNoise {
    /// Of a pack voltage [V].
    pub pack: Voltage,
    /// Of a cell voltage [V].
    pub cell: Voltage,
    /// Of a current [A].
    pub current: Current,
    /// Of a temperature [K].
    pub kelvins: f64,
    /// How often somebody names another event than the one that happens.
    pub wrong_event: Ratio,
}

/// What may be the matter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// Nothing: the settings do what they should.
    Fine,
    /// One cell is ahead, and the board stops charging when it is full.
    UnevenCells,
    /// Absorption is set above the board's cut-off although the cells are even.
    AbsorptionTooHigh,
    /// Absorption is set too low to fill the battery.
    AbsorptionTooLow,
    /// The wire between charger and battery, or a joint in it, loses so much that the charger thinks
    /// the battery is full.
    ChargingWire,
    /// The tail current is set so large that charging ends early.
    TailTooLarge,
    /// Float is set so low that the battery runs down under a working charger.
    FloatTooLow,
    /// The board blocks charging because the cells are cold.
    ColdBoard,
    /// Loads have been cut off by the board: the battery is empty.
    BoardEmpty,
    /// One cell is behind, and the board cuts loads off while the others have charge.
    WeakCell,
    /// The board went dead, and the controller cannot start.
    BoardAsleep,
    /// Disconnect and reconnect are so near that the relay clicks.
    NearReconnect,
    /// The disconnect is set so high that loads go while there is charge.
    DisconnectTooHigh,
    /// The wire to the loads, or a joint in it, loses so much that they see too little.
    LoadWire,
    /// A load of more current than the board allows.
    OverCurrent,
}

/// Which setting explains a cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Setting {
    /// None: nothing to set.
    None,
    /// Absorption voltage.
    Absorption,
    /// Tail current.
    Tail,
    /// Float voltage.
    Float,
    /// Low-temperature lockout.
    Lockout,
    /// Disconnect voltage.
    Off,
    /// Reconnect voltage.
    On,
    /// A wire or a joint, not a setting.
    Wire,
    /// The load's current, not a setting.
    LoadCurrent,
}

/// One cause with its share.
#[derive(Debug, Clone, PartialEq)]
pub struct Ranked {
    /// The cause.
    pub cause: Cause,
    /// Probability after what was seen.
    pub probability: Ratio,
    /// The setting that explains it.
    pub setting: Setting,
    /// What the circuit would show under this cause, nearest to what was seen.
    pub expected: Levels,
}

/// Levels in a circuit under a cause.
#[derive(Debug, Clone, PartialEq)]
pub struct Levels {
    /// At the charger's terminals [V].
    pub at_charger: Voltage,
    /// At the battery's terminals [V].
    pub at_battery: Voltage,
    /// Highest cell [V].
    pub highest_cell: Voltage,
    /// Lowest cell [V].
    pub lowest_cell: Voltage,
    /// At the loads [V].
    pub at_loads: Voltage,
    /// Into the battery [A].
    pub current: Current,
    /// Of the cells [°C].
    pub temperature: Temperature,
    /// What can be seen to happen; at least one.
    pub events: Vec<Event>,
}

/// What to measure next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NextMeasurement {
    /// What.
    pub channel: Channel,
    /// Information it is expected to give [bit].
    pub bits: f64,
}

/// Causes in falling probability, and what to measure next.
#[derive(Debug, Clone, PartialEq)]
pub struct Diagnosis {
    /// All causes that are possible here, most likely first; the shares add up to one.
    pub ranked: Vec<Ranked>,
    /// What would tell most, best first; empty when nothing is left to measure.
    pub next: Vec<NextMeasurement>,
    /// How well the best cause explains what was seen: its fit over that of a perfect match, 0 to 1.
    pub fit: Ratio,
}

/// The circuit that is asked about: one charger and one disconnect of a system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bench {
    /// Which charger.
    pub charger: usize,
    /// Which disconnect; `None`: there is none.
    pub disconnect: Option<usize>,
}

impl Cause {
    /// Every cause.
    pub const ALL: &'static [Self] = &[
        Self::Fine,
        Self::UnevenCells,
        Self::AbsorptionTooHigh,
        Self::AbsorptionTooLow,
        Self::ChargingWire,
        Self::TailTooLarge,
        Self::FloatTooLow,
        Self::ColdBoard,
        Self::BoardEmpty,
        Self::WeakCell,
        Self::BoardAsleep,
        Self::NearReconnect,
        Self::DisconnectTooHigh,
        Self::LoadWire,
        Self::OverCurrent,
    ];

    /// The setting that explains it.
    #[must_use]
    pub const fn setting(self) -> Setting {
        match self {
            Self::Fine => Setting::None,
            Self::UnevenCells | Self::AbsorptionTooHigh | Self::AbsorptionTooLow => {
                Setting::Absorption
            }
            Self::ChargingWire | Self::LoadWire => Setting::Wire,
            Self::TailTooLarge => Setting::Tail,
            Self::FloatTooLow => Setting::Float,
            Self::ColdBoard => Setting::Lockout,
            Self::BoardEmpty | Self::WeakCell | Self::BoardAsleep | Self::DisconnectTooHigh => {
                Setting::Off
            }
            Self::NearReconnect => Setting::On,
            Self::OverCurrent => Setting::LoadCurrent,
        }
    }
}

impl Event {
    /// How many there are.
    pub const COUNT: usize = 11;
}

impl Channel {
    /// Every channel.
    pub const ALL: &'static [Self] = &[
        Self::AtCharger,
        Self::AtBattery,
        Self::HighestCell,
        Self::LowestCell,
        Self::AtLoads,
        Self::Current,
        Self::Temperature,
    ];

    /// What the channel reads under given levels, in its base unit.
    #[must_use]
    pub const fn level(self, levels: &Levels) -> f64 {
        match self {
            Self::AtCharger => levels.at_charger.volts(),
            Self::AtBattery => levels.at_battery.volts(),
            Self::HighestCell => levels.highest_cell.volts(),
            Self::LowestCell => levels.lowest_cell.volts(),
            Self::AtLoads => levels.at_loads.volts(),
            Self::Current => levels.current.amperes(),
            Self::Temperature => levels.temperature.celsius(),
        }
    }

    /// What was read on it, in its base unit.
    #[must_use]
    pub fn reading(self, seen: &Observation) -> Option<f64> {
        match self {
            Self::AtCharger => seen.at_charger.map(Voltage::volts),
            Self::AtBattery => seen.at_battery.map(Voltage::volts),
            Self::HighestCell => seen.highest_cell.map(Voltage::volts),
            Self::LowestCell => seen.lowest_cell.map(Voltage::volts),
            Self::AtLoads => seen.at_loads.map(Voltage::volts),
            Self::Current => seen.current.map(Current::amperes),
            Self::Temperature => seen.temperature.map(Temperature::celsius),
        }
    }
}
