//! Classes of devices that charge or convert: efficiency, own draw, where they start and stop, standing losses.
//!
//! Not here: settings by chemistry (`charge_profile`), generic parts of the library, equations (engines).

use wainwright_units::{Current, Power, Ratio, Voltage};

use crate::id::ids;
use crate::mark::Sourced;
use crate::span::{Span, span};
use crate::store::{Topic, rows};
use crate::table::Row;

ids! {
    /// A device with an efficiency.
    Converter {
        /// Solar controller that finds the best point of the module.
        TrackingController = "tracking-controller",
        /// Charger on household voltage.
        ShoreCharger = "shore-charger",
        /// Charger on the tow vehicle's 12 V.
        DcdcCharger = "dcdc-charger",
        /// From 12 V to a charging socket.
        Usb = "usb-converter",
        /// From 12 V to a steady 12 V.
        Stabiliser = "stabiliser",
    }
}

ids! {
    /// Something that draws all day.
    Standing {
        /// Protection board.
        ProtectionBoard = "protection-board",
        /// Meter on a shunt.
        ShuntMeter = "shunt-meter",
        /// Solar controller.
        SolarController = "solar-controller",
        /// Radio link or gateway.
        RadioGateway = "radio-gateway",
        /// Alarm for gas or carbon monoxide.
        GasAlarm = "gas-alarm",
    }
}

/// Figures of a solar controller that finds the best point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrackingController {
    /// Efficiency.
    pub efficiency: Sourced<Span<Ratio>>,
    /// Share of the best point it finds.
    pub tracking: Sourced<Span<Ratio>>,
    /// What it draws itself.
    pub own_draw: Sourced<Span<Power>>,
    /// Module over battery voltage to start.
    pub start_above: Sourced<Voltage>,
    /// Module over battery voltage to go on.
    pub run_above: Sourced<Voltage>,
}

/// Losses of an inverter that gives P: fixed + slope P + square P².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InverterCurve {
    /// Without load.
    pub fixed: Power,
    /// Share of the power (dimensionless).
    pub slope: f64,
    /// Share per watt [1/W].
    pub square: f64,
}

/// A solar controller that finds the best point.
pub fn tracking_controller() -> Option<TrackingController> {
    let device = "tracking-controller";
    Some(TrackingController {
        efficiency: class(device, "efficiency", Ratio::from_fraction)?,
        tracking: class(device, "tracking", Ratio::from_fraction)?,
        own_draw: class(device, "own-draw", Power::from_watts)?,
        start_above: class(device, "start-above", Voltage::from_volts)?.map(|span| span.usual),
        run_above: class(device, "run-above", Voltage::from_volts)?.map(|span| span.usual),
    })
}

/// How far a plain solar controller holds the module above the battery.
pub fn plain_controller_drop() -> Option<Sourced<Voltage>> {
    Some(class("plain-controller", "drop", Voltage::from_volts)?.map(|span| span.usual))
}

/// Change of a module's open voltage with temperature [1/K], negative.
pub fn module_voltage_slope() -> Option<Sourced<Span<f64>>> {
    class("solar-module", "voltage-slope", |slope| slope)
}

/// Efficiency of a class.
pub fn efficiency(converter: Converter) -> Option<Sourced<Span<Ratio>>> {
    class(converter.id(), "efficiency", Ratio::from_fraction)
}

/// Usual output currents of a class; none where it is not a matter of class.
pub fn output_current(converter: Converter) -> Option<Sourced<Span<Current>>> {
    class(converter.id(), "current", Current::from_amperes)
}

/// Power factor of a shore charger.
pub fn shore_power_factor() -> Option<Sourced<Span<Ratio>>> {
    class("shore-charger", "power-factor", Ratio::from_fraction)
}

/// Voltage that a converter without a lithium profile holds, 12 V system.
pub fn held_voltage() -> Option<Sourced<Voltage>> {
    Some(class("shore-charger", "held-voltage", Voltage::from_volts)?.map(|span| span.usual))
}

/// What a household circuit of 15 A gives for hours.
pub fn household_circuit() -> Option<Sourced<Power>> {
    let row = class("household-circuit", "continuous-power", Power::from_watts)?;
    Some(row.map(|span| span.usual))
}

/// Voltage of a tow vehicle's alternator.
pub fn alternator_voltage() -> Option<Sourced<Span<Voltage>>> {
    class("vehicle", "alternator-voltage", Voltage::from_volts)
}

/// Current through the charge wire of the coupler without a charger.
pub fn charge_wire_current() -> Option<Sourced<Span<Current>>> {
    class("vehicle", "charge-wire-current", Current::from_amperes)
}

/// What a converter for a charging socket draws without anything in it.
pub fn usb_standby() -> Option<Sourced<Span<Power>>> {
    class("usb-converter", "standby", Power::from_watts)
}

/// What something draws all day.
pub fn standing(what: Standing) -> Option<Sourced<Span<Power>>> {
    class("standing", what.id(), Power::from_watts)
}

/// What an inverter draws while it waits for a load.
pub fn inverter_search_draw() -> Option<Sourced<Span<Power>>> {
    class("inverter", "search-draw", Power::from_watts)
}

/// Voltage at which an inverter shuts down, and the one at which it starts again, 12 V system.
pub fn inverter_low_voltage() -> Option<(Sourced<Voltage>, Sourced<Voltage>)> {
    let volts = |name| Some(class("inverter", name, Voltage::from_volts)?.map(|span| span.usual));
    Some((volts("low-voltage-off")?, volts("low-voltage-on")?))
}

/// What an inverter draws without load: straight between rated powers, outside as at the nearer end.
pub fn inverter_idle(rated: Power) -> Option<Sourced<Span<Power>>> {
    let wanted = rated.watts();
    let mut below: Option<Row> = None;
    for row in rows(Topic::DeviceInverterIdle) {
        let at = row.number("rated_w")?;
        if wanted <= at {
            return between(below.unwrap_or(row), row, wanted);
        }
        below = Some(row);
    }
    span(below?, Power::from_watts)
}

/// Losses of an inverter of this rated power.
///
/// The one curve is of 2 kW: idle draw from its own table, and the square term in proportion to rated power, so that the
/// share lost at full power stays the same.
pub fn inverter_curve(rated: Power) -> Option<Sourced<InverterCurve>> {
    let row = rows(Topic::DeviceInverterCurve).next()?;
    let idle = inverter_idle(rated)?;
    let scale = row.number("rated_w")? / rated.watts();
    let curve = InverterCurve {
        fixed: idle.value.usual,
        slope: row.number("slope")?,
        square: row.number("square_per_w")? * scale,
    };
    curve
        .square
        .is_finite()
        .then(|| row.sourced(curve).no_better_than(idle.mark))
}

fn between(low: Row, high: Row, watts: f64) -> Option<Sourced<Span<Power>>> {
    let (from, to) = (low.number("rated_w")?, high.number("rated_w")?);
    let share = if to > from {
        (watts - from) / (to - from)
    } else {
        1.0
    };
    let at = |column| -> Option<Power> {
        let (start, end) = (low.number(column)?, high.number(column)?);
        Some(Power::from_watts(start + share * (end - start)))
    };
    let mixed = Span {
        low: at("low")?,
        usual: at("usual")?,
        high: at("high")?,
    };
    Some(high.sourced(mixed).no_better_than(low.mark()))
}

fn class<T>(device: &str, name: &str, make: impl Fn(f64) -> T) -> Option<Sourced<Span<T>>> {
    let row = rows(Topic::DeviceClasses)
        .find(|row| row.text("device") == Some(device) && row.text("property") == Some(name))?;
    span(row, make)
}
