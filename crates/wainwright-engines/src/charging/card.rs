//! The card of settings of each device, with the figures they were made from. Not here: how.

use super::bound::SetPoint;
use wainwright_units::{Current, Duration, Ratio, Resistance, Temperature, Voltage};

/// What the pack does at given currents: where the bounds come from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PackFigures {
    /// Pack voltage at which the fullest cell trips the board, at the worst current [V].
    pub trip: Option<Voltage>,
    /// The same with even cells [V].
    pub trip_even: Option<Voltage>,
    /// Pack voltage at which the fullest cell begins to be bled, at the tail current [V].
    pub balances: Option<Voltage>,
    /// Pack voltage at which the emptiest cell makes the board cut off, at the worst current [V].
    pub cut_off: Option<Voltage>,
    /// Pack voltage at rest when full [V].
    pub resting_full: Voltage,
    /// Resistance of the pack while charging [Ω].
    pub charging: Resistance,
    /// Resistance of the pack while discharging [Ω].
    pub discharging: Resistance,
    /// Largest charging current of cells and board together [A].
    pub takes: Current,
    /// Time above the balance voltage that evens the cells out [h].
    pub evens_out_in: Option<Duration>,
}

/// How a charger gets from its full current to the tail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taper {
    /// State of charge at which the voltage is reached and the current begins to fall.
    pub begins: Ratio,
    /// State of charge at the tail current.
    pub ends: Ratio,
    /// Time in between [h].
    pub lasts: Duration,
}

/// Figures behind the card of a charger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChargerFigures {
    /// Lost in the wire at the current limit [V].
    pub drop_at_limit: Voltage,
    /// Lost in the wire at the tail current [V].
    pub drop_at_tail: Voltage,
    /// From the current limit to the tail at the advised absorption; lithium only.
    pub taper: Option<Taper>,
    /// How much the loads' bound is lowered because cold raises the voltage [V].
    pub cold_rise: Voltage,
}

/// What to set on a charger. Voltages at its terminals.
#[derive(Debug, Clone, PartialEq)]
pub struct ChargerCard {
    /// Absorption voltage [V].
    pub absorption: SetPoint<Voltage>,
    /// Float voltage [V]; off is as good for lithium.
    pub float: SetPoint<Voltage>,
    /// Absorption time [h].
    pub absorption_time: SetPoint<Duration>,
    /// Tail current [A].
    pub tail: SetPoint<Current>,
    /// Temperature compensation of the whole pack [V/K]; zero is off.
    pub compensation: f64,
    /// Equalising voltage; `None`: off [V].
    pub equalise: Option<Voltage>,
    /// Stops below; `None`: not needed [°C].
    pub lockout: Option<SetPoint<Temperature>>,
    /// Current limit [A].
    pub limit: SetPoint<Current>,
    /// Where the values come from.
    pub figures: ChargerFigures,
}

/// Figures behind the card of a disconnect.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DisconnectFigures {
    /// Lost in the wire at the largest current [V].
    pub drop: Voltage,
    /// Lost in the pack at the largest current [V].
    pub sag: Voltage,
    /// Recovery of the pack after the load is gone [V].
    pub rebound: Voltage,
}

/// What to set on a disconnect, at its terminals.
#[derive(Debug, Clone, PartialEq)]
pub struct DisconnectCard {
    /// Loads off [V].
    pub off: SetPoint<Voltage>,
    /// Loads on again [V].
    pub on: SetPoint<Voltage>,
    /// Where the values come from.
    pub figures: DisconnectFigures,
}

/// All cards, in the order of the devices.
#[derive(Debug, Clone, PartialEq)]
pub struct Cards {
    /// What the pack does.
    pub pack: PackFigures,
    /// One for each charger.
    pub chargers: Vec<ChargerCard>,
    /// One for each disconnect.
    pub disconnects: Vec<DisconnectCard>,
}
