//! Charging settings in words: what they and their devices are called, why a range ends, what does not agree, what a
//! remedy needs. Shared by pages and command line. Not here: figures with the numbers behind them.

use wainwright_analysis::result::settings::{
    Bound, Change, ConflictKind, DeviceCard, DeviceKind, EngineCard, Figure, Reason, SetPoint,
    SettingKind, ToChange,
};
use wainwright_units::{Quantity, System, Voltage};

/// What a setting is called.
pub fn setting(what: SettingKind) -> &'static str {
    match what {
        SettingKind::ChargeVoltage => "absorption",
        SettingKind::Float => "float",
        SettingKind::AbsorptionTime => "absorption time",
        SettingKind::Tail => "tail current",
        SettingKind::Compensation => "temperature compensation",
        SettingKind::Equalise => "equalise",
        SettingKind::ColdLockout => "low-temperature lockout",
        SettingKind::Limit => "current limit",
        SettingKind::Off => "loads off (disconnect)",
        SettingKind::On => "loads on again (reconnect)",
    }
}

/// What a device is.
pub fn device(kind: DeviceKind) -> &'static str {
    match kind {
        DeviceKind::Solar => "charges from the sun",
        DeviceKind::Shore => "charges from household voltage",
        DeviceKind::Dcdc => "charges from the tow vehicle",
        DeviceKind::Vehicle => "charge line of the tow vehicle, straight to the battery",
        DeviceKind::LoadOutput => "load output of the solar controller",
        DeviceKind::Relay => "cuts the loads off",
        DeviceKind::Inverter => "shuts itself down",
    }
}

/// Why a range ends there.
pub const fn reason(reason: Reason) -> &'static str {
    match reason {
        Reason::ChemistryLeast => "the chemistry's least",
        Reason::ChemistryMost => "the chemistry's most",
        Reason::Full => "below, it does not get full",
        Reason::Balance => "from there cells are evened out",
        Reason::CellTrip => "the fullest cell opens the protection, less the margin",
        Reason::PackTrip => "the pack opens the protection, less the margin",
        Reason::LoadsTake => "loads bear no more",
        Reason::LoadsNeed => "loads need it",
        Reason::Absorption => "float stays below absorption",
        Reason::StandingLoads => "what runs all the time takes part of it",
        Reason::Taper => "the current takes that long to fall",
        Reason::CellCutOff => "the emptiest cell makes the protection cut off, plus the margin",
        Reason::PackCutOff => "the pack makes the protection cut off, plus the margin",
        Reason::Reserve => "above, loads go off with charge left",
        Reason::Recovery => "nearer, the battery's recovery switches on again at once",
        Reason::BackBy => "above, loads come back late or never",
        Reason::Device => "the device gives no more",
        Reason::BatteryTakes => "the battery takes no more",
        Reason::Share => "its share with the other chargers on",
        Reason::BoardCold => "the protection stops by itself just below",
        Reason::Zero => "nothing below zero",
    }
}

/// What does not agree, as a sentence without its stop.
pub const fn headline(kind: ConflictKind) -> &'static str {
    match kind {
        ConflictKind::AboveBoard => "Charges above the voltage at which the protection opens",
        ConflictKind::AboveLoads => "Charges above what the loads bear",
        ConflictKind::NeverFull => "Absorption is too low: the battery never gets full",
        ConflictKind::NeverBalances => "Absorption is too low: the cells are never evened out",
        ConflictKind::FloatTooLow => "Float is so low that the battery runs down before it helps",
        ConflictKind::FloatTooHigh => "Float holds the battery full all the time",
        ConflictKind::FloatAboveAbsorption => "Float is above absorption",
        ConflictKind::TailTooSmall => "Standing loads keep absorption from ending",
        ConflictKind::TailTooLarge => "Absorption ends before the battery is full",
        ConflictKind::CurrentAboveBattery => "Charges with more than the battery takes",
        ConflictKind::SumAboveBattery => "Together the chargers give more than the battery takes",
        ConflictKind::NoColdLockout => {
            "Nothing but the protection keeps it from charging frozen cells"
        }
        ConflictKind::EqualiseOnLithium => "Equalising is on, with lithium",
        ConflictKind::CompensationOnLithium => "Temperature compensation is on, with lithium",
        ConflictKind::LeadAcidProfile => {
            "A lead-acid profile charges lithium: the last part takes hours"
        }
        ConflictKind::LoadDump => {
            "When the protection opens, the charger's voltage jumps up on the loads"
        }
        ConflictKind::CannotWake => {
            "When the protection has cut off, the charger cannot start by itself"
        }
        ConflictKind::DisconnectBelowBoard => {
            "Loads go off only after the protection has cut everything off"
        }
        ConflictKind::InverterBelowBoard => {
            "The inverter stops only after the protection has cut everything off"
        }
        ConflictKind::DisconnectBelowLoads => "Loads fail before they are cut off",
        ConflictKind::DisconnectTooEarly => "Loads go off while there is charge left",
        ConflictKind::Clicking => {
            "The battery comes back above reconnect at once: on and off again"
        }
        ConflictKind::ReconnectTooHigh => "Loads come back late or never",
    }
}

/// What a remedy needs besides settings.
pub const fn besides(change: Change) -> &'static str {
    match change {
        Change::AdjustableCharger(_) => "It takes a charger whose settings can be changed.",
        Change::Sensor(_) => "It takes a temperature sensor at the battery.",
        Change::Clamp(..) => {
            "It takes a charger that does not let its voltage rise when the battery goes away."
        }
        Change::WakeSwitch => {
            "It takes a way to wake the protection without this charger, such as another charger or its own switch."
        }
        Change::LithiumProfile(_) => "Choose its lithium profile.",
        _ => "Set it at the device.",
    }
}

/// What to change where no value is legal.
pub fn to_change(change: ToChange) -> String {
    let show = System::Metric;
    match change {
        ToChange::WireBelow(most) => {
            format!(
                "A thicker or shorter wire: at the most {} out and back.",
                most.show(show)
            )
        }
        ToChange::CellsWithin(spread) => {
            format!("Cells evened out to within {}.", spread.show(show))
        }
        ToChange::BoardStopsAbove(cell) => format!(
            "A protection that stops charging no lower than {} in a cell.",
            cell.show(show)
        ),
        ToChange::BoardCutsBelow(cell) => format!(
            "A protection that cuts loads off no higher than {} in a cell.",
            cell.show(show)
        ),
        ToChange::LoadsThatTake(volts) => {
            format!(
                "Loads that bear {}, or a regulator before them.",
                volts.show(show)
            )
        }
        ToChange::LoadsThatWorkAt(volts) => format!(
            "Loads that work down to {}, or a regulator before them.",
            volts.show(show)
        ),
        ToChange::CurrentBelow(most) => format!("No more than {} through it.", most.show(show)),
        ToChange::StandingBelow(most) => {
            format!("No more than {} that runs all the time.", most.show(show))
        }
        ToChange::Device => "Nothing here can be moved: it takes another device.".into(),
    }
}

/// A figure as people read it.
pub fn figure(figure: Figure, units: System) -> String {
    match figure {
        Figure::Voltage(volts) => volts.show(units),
        Figure::Current(amps) => amps.show(units),
        Figure::Temperature(at) => at.show(units),
        Figure::Duration(time) => time.show(units),
        Figure::Compensation(0.0) | Figure::Off => "off".into(),
        Figure::Compensation(slope) => {
            format!("{} per °C", Voltage::from_volts(slope.abs()).show(units))
        }
        Figure::On => "on".into(),
    }
}

/// Both ends of a range in base units, each with its reason.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Lower end.
    pub low: (f64, Reason),
    /// Upper end.
    pub high: (f64, Reason),
    /// The lower end as a figure.
    pub lowest: Figure,
    /// The upper end as a figure.
    pub highest: Figure,
}

/// The range of one setting of a device; none for what is on or off.
pub fn range(card: &DeviceCard, what: SettingKind) -> Option<Range> {
    match (&card.card, what) {
        (EngineCard::Charger(card), SettingKind::ChargeVoltage) => {
            Some(ends(&card.absorption, Figure::Voltage))
        }
        (EngineCard::Charger(card), SettingKind::Float) => Some(ends(&card.float, Figure::Voltage)),
        (EngineCard::Charger(card), SettingKind::AbsorptionTime) => {
            Some(ends(&card.absorption_time, Figure::Duration))
        }
        (EngineCard::Charger(card), SettingKind::Tail) => Some(ends(&card.tail, Figure::Current)),
        (EngineCard::Charger(card), SettingKind::Limit) => Some(ends(&card.limit, Figure::Current)),
        (EngineCard::Charger(card), SettingKind::ColdLockout) => {
            Some(ends(card.lockout.as_ref()?, Figure::Temperature))
        }
        (EngineCard::Disconnect(card), SettingKind::Off) => Some(ends(&card.off, Figure::Voltage)),
        (EngineCard::Disconnect(card), SettingKind::On) => Some(ends(&card.on, Figure::Voltage)),
        _ => None,
    }
}

fn ends<Q: Quantity>(point: &SetPoint<Q>, figure: fn(Q) -> Figure) -> Range {
    let end = |bound: &Bound<Q>| (bound.value.base(), bound.reason);
    Range {
        low: end(&point.low),
        high: end(&point.high),
        lowest: figure(point.low.value),
        highest: figure(point.high.value),
    }
}
