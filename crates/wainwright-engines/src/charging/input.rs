//! What is told: battery, protection board, profile of the chemistry, chargers, disconnects, loads.
//! Not here: what follows from it.

use crate::battery::{Curve, Thresholds};
use wainwright_units::{Charge, Current, Duration, Ratio, Resistance, Temperature, Voltage};

/// What the cells are made of, as far as charging cares.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// Lithium iron phosphate behind a protection board.
    Lithium,
    /// Lead-acid of any kind.
    LeadAcid,
}

/// A usual value and the ends it may not leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window<Q> {
    /// Lowest.
    pub low: Q,
    /// Taken when nothing else pushes it away.
    pub usual: Q,
    /// Highest.
    pub high: Q,
}

/// The whole bank as one row of cells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Battery<'a> {
    /// Family of the cells.
    pub family: Family,
    /// Cells in series, at least one.
    pub series: u32,
    /// Charge between empty and full [Ah].
    pub capacity: Charge,
    /// Open voltage of a cell [V] over its state of charge, 0 to 1.
    pub open: Curve<'a>,
    /// Resistance of a cell times capacity while charging [Ω·Ah].
    pub charging: f64,
    /// The same while discharging [Ω·Ah].
    pub discharging: f64,
    /// Terminals, links and board [Ω].
    pub connections: Resistance,
    /// Largest charging current of the cells [A].
    pub most_in: Current,
    /// How far the fullest cell is ahead, and the emptiest behind, the others.
    pub ahead: Ratio,
    /// Coldest the cells are expected while something charges [°C].
    pub coldest: Temperature,
}

/// A protection board. A threshold of the whole pack is `None` when the board watches cells only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Board {
    /// Thresholds of the cells, temperatures, delay.
    pub cells: Thresholds,
    /// Pack voltage at which charging is cut off [V].
    pub pack_over: Option<Voltage>,
    /// Pack voltage below which charging may go on [V].
    pub pack_over_release: Option<Voltage>,
    /// Pack voltage at which loads are cut off [V].
    pub pack_under: Option<Voltage>,
    /// Pack voltage above which loads may go on [V].
    pub pack_under_release: Option<Voltage>,
    /// Cell voltage from which full cells are bled; `None` without balancing [V].
    pub balance_from: Option<Voltage>,
    /// Current that is bled from a cell [A].
    pub bleed: Current,
    /// Largest charging current of the board [A].
    pub most_in: Option<Current>,
    /// Largest current out of the board [A].
    pub most_out: Option<Current>,
    /// Whether it stops charging in the cold by itself.
    pub stops_cold: bool,
    /// Whether its terminals are dead after it has cut the loads off.
    pub goes_dead: bool,
}

/// What the chemistry asks for. Voltages are per cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Profile {
    /// Voltage held until full [V per cell].
    pub absorption: Window<Voltage>,
    /// State of charge that counts as full; `None`: the lowest absorption voltage decides.
    pub full: Option<Ratio>,
    /// Voltage held afterwards [V per cell].
    pub float: Window<Voltage>,
    /// Current at which it counts as full, as a share of the capacity per hour [1/h].
    pub tail: Window<Ratio>,
    /// How long absorption is held [h].
    pub absorption_time: Window<Duration>,
    /// Time constant with which a lead-acid battery takes less and less; zero for none [h].
    pub acceptance: Duration,
    /// Change of the charging voltage with temperature, negative [V/K per cell]; zero for none.
    pub compensation: f64,
    /// Temperature at which compensation is zero [°C].
    pub reference: Temperature,
    /// Equalising voltage; `None`: never [V per cell].
    pub equalise: Option<Voltage>,
    /// Charging stops below this cell temperature; `None`: no lower end [°C].
    pub lockout: Option<Window<Temperature>>,
    /// Lowest a cell may ever be discharged to [V per cell].
    pub lowest: Voltage,
    /// Usual low-voltage disconnect [V per cell].
    pub disconnect: Voltage,
    /// Usual reconnect [V per cell].
    pub reconnect: Voltage,
    /// Loads may be cut off when no more than this is left.
    pub reserve: Ratio,
    /// State of charge by which loads must be back.
    pub back_by: Ratio,
    /// How far a cell recovers by itself after the load is gone [V per cell].
    pub rebound: Voltage,
}

/// Distances kept from what must not happen. Voltages are per cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margins {
    /// Below a voltage at which the board stops charging [V per cell].
    pub below_trip: Voltage,
    /// Above a voltage at which the board cuts loads off [V per cell].
    pub above_cut_off: Voltage,
    /// Between the temperature at which the board stops charging and the charger's own [K].
    pub above_cold: f64,
}

/// What kind of source charges.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChargerKind {
    /// Solar controller.
    Solar,
    /// Charger on household voltage.
    Shore,
    /// Charger on the tow vehicle's 12 V.
    Dcdc,
    /// Charge line of the tow vehicle without a charger of its own.
    Vehicle,
}

/// What is set on a charger. Voltages are those of the whole pack at the charger's terminals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// Voltage held until full [V].
    pub absorption: Voltage,
    /// Voltage held afterwards; `None`: off [V].
    pub float: Option<Voltage>,
    /// Longest time absorption is held [h].
    pub absorption_time: Duration,
    /// Current at which absorption ends; `None`: by time only [A].
    pub tail: Option<Current>,
    /// Change of voltage with temperature, whole pack [V/K]; zero is off.
    pub compensation: f64,
    /// Equalising voltage; `None`: off [V].
    pub equalise: Option<Voltage>,
    /// Stops below this temperature; `None`: never [°C].
    pub lockout: Option<Temperature>,
    /// Largest charging current [A].
    pub limit: Current,
}

/// One charging device.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charger {
    /// What it is.
    pub kind: ChargerKind,
    /// Largest current it can give [A].
    pub most: Current,
    /// Out and back between its terminals and the battery's [Ω].
    pub wire: Resistance,
    /// Whether sense wires let it regulate at the battery.
    pub senses: bool,
    /// Whether its settings can be changed.
    pub adjustable: bool,
    /// Whether it has a temperature sensor at the battery.
    pub sensor: bool,
    /// Whether its profile is made for lead-acid.
    pub lead_acid_profile: bool,
    /// Whether it must see battery voltage to start.
    pub needs_battery: bool,
    /// Whether it may run while the others do.
    pub together: bool,
    /// Highest voltage it may leave on the wires when the battery goes away; `None`: harmless [V].
    pub unloaded: Option<Voltage>,
    /// What is set now; `None`: not known.
    pub settings: Option<Settings>,
}

/// What cuts loads off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DisconnectKind {
    /// Load output of a controller, or a relay.
    Relay,
    /// Inverter with its own low-voltage shut-down.
    Inverter,
}

/// What is set on a disconnect, at its terminals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DisconnectSettings {
    /// Loads off at and below [V].
    pub off: Voltage,
    /// Loads on again at and above [V].
    pub on: Voltage,
}

/// A device that cuts loads off at a low voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Disconnect {
    /// What it is.
    pub kind: DisconnectKind,
    /// Largest current through it [A].
    pub most: Current,
    /// Out and back between its terminals and the battery's [Ω].
    pub wire: Resistance,
    /// What is set now; `None`: not known.
    pub settings: Option<DisconnectSettings>,
}

/// What the loads need.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loads {
    /// Highest voltage that all of them take [V].
    pub highest: Voltage,
    /// Lowest voltage at which all of them work [V].
    pub lowest: Voltage,
    /// What runs all the time [A].
    pub standing: Current,
}

/// Everything that must agree.
#[derive(Debug, Clone, PartialEq)]
pub struct System<'a> {
    /// The bank.
    pub battery: Battery<'a>,
    /// Its board; `None` for a battery without one.
    pub board: Option<Board>,
    /// What its chemistry asks for.
    pub profile: Profile,
    /// Distances to keep.
    pub margins: Margins,
    /// What charges.
    pub chargers: Vec<Charger>,
    /// What cuts loads off.
    pub disconnects: Vec<Disconnect>,
    /// What is fed.
    pub loads: Loads,
}
