//! What is seen, what may be the matter and what can be measured, in words. Not here: how likely anything is.

use wainwright_analysis::result::settings::{Cause, Channel, Event};

/// As in an address, and for people.
pub fn event(event: Event) -> (&'static str, &'static str) {
    match event {
        Event::Nothing => ("nothing", "Nothing odd happens"),
        Event::RelayClicks => ("clicks", "A relay clicks on and off"),
        Event::ChargingStops => ("charging-stops", "Charging stops, and starts again later"),
        Event::VoltageJumps => ("voltage-jumps", "The voltage jumps up when charging stops"),
        Event::FullEarly => ("full-early", "The charger says full after a short time"),
        Event::RunsEmptySoon => ("soon-empty", "It says full but is soon empty"),
        Event::NeverFull => ("never-full", "It never says full"),
        Event::LoadsDropOut => ("loads-out", "Lights and all loads go out"),
        Event::InverterAlarms => ("inverter-alarms", "The inverter alarms or stops under load"),
        Event::ControllerDead => ("controller-dead", "The controller is dark in the morning"),
        Event::NoChargeCold => ("no-charge-cold", "No charging in the cold"),
    }
}

/// The event of a word in an address.
pub fn event_of(word: &str, all: &[Event]) -> Option<Event> {
    all.iter().copied().find(|each| event(*each).0 == word)
}

/// What can be read: name in the address, label, and how it is read.
pub fn channel(channel: Channel) -> (&'static str, &'static str, &'static str) {
    match channel {
        Channel::AtCharger => (
            "at-charger",
            "Voltage at the charger",
            "On its screws, or what its display says.",
        ),
        Channel::AtBattery => (
            "at-battery",
            "Voltage at the battery",
            "On the battery's own posts, not on the cables.",
        ),
        Channel::HighestCell => (
            "highest-cell",
            "Highest cell",
            "From the battery's app or display.",
        ),
        Channel::LowestCell => (
            "lowest-cell",
            "Lowest cell",
            "From the battery's app or display.",
        ),
        Channel::AtLoads => (
            "at-loads",
            "Voltage at the loads or the inverter",
            "At the inverter's screws or the load's plug, while it runs.",
        ),
        Channel::Current => (
            "current",
            "Current of the battery",
            "From the battery monitor or a clamp meter for direct current.",
        ),
        Channel::Temperature => (
            "temperature",
            "Temperature of the battery",
            "Of the cells, not of the air.",
        ),
    }
}

/// What may be the matter.
pub fn cause(cause: Cause) -> &'static str {
    match cause {
        Cause::Fine => "Nothing is wrong: the settings do what they should",
        Cause::UnevenCells => "One cell is ahead of the others",
        Cause::AbsorptionTooHigh => "Absorption is above what the protection lets in",
        Cause::AbsorptionTooLow => "Absorption is too low to fill the battery",
        Cause::ChargingWire => "A wire or joint between charger and battery loses too much",
        Cause::TailTooLarge => "The tail current is set too large",
        Cause::FloatTooLow => "Float is set too low",
        Cause::ColdBoard => "The protection blocks charging because the cells are cold",
        Cause::BoardEmpty => "The battery is empty: its protection cut the loads off",
        Cause::WeakCell => "One cell is behind the others",
        Cause::BoardAsleep => "The protection went to sleep and the controller cannot start",
        Cause::NearReconnect => "Disconnect and reconnect are too near to each other",
        Cause::DisconnectTooHigh => "The disconnect is set too high",
        Cause::LoadWire => "A wire or joint to the loads loses too much",
        Cause::OverCurrent => "A load draws more than the protection allows",
    }
}

/// How it makes what is seen.
pub fn explains(cause: Cause) -> &'static str {
    match cause {
        Cause::Fine => "What you see is what this battery and these settings do by themselves.",
        Cause::UnevenCells => {
            "That cell is full first, and the protection stops charging for all of them, below the voltage the charger wants to reach."
        }
        Cause::AbsorptionTooHigh => {
            "All cells are full before the charger reaches its voltage; the protection opens, and the wires are left to the charger alone."
        }
        Cause::AbsorptionTooLow => {
            "The charger stops while the cells would still take charge; it says full, and the battery is not."
        }
        Cause::ChargingWire => {
            "The charger sees its own voltage, not the battery's: it thinks the battery is full long before it is."
        }
        Cause::TailTooLarge => "Charging ends while a good part of the current still flows.",
        Cause::FloatTooLow => "Under float the loads empty the battery although the charger works.",
        Cause::ColdBoard => {
            "Cells that are charged near freezing are ruined, so the protection lets nothing in until they are warmer."
        }
        Cause::BoardEmpty => {
            "Before a cell is drawn too low, the protection switches everything off at once."
        }
        Cause::WeakCell => {
            "That cell is empty first, and the protection switches off while the others have charge left."
        }
        Cause::BoardAsleep => {
            "Its terminals are dead after it cut off, and this controller must see battery voltage before it starts."
        }
        Cause::NearReconnect => {
            "Without load the battery comes back above reconnect at once; the loads come on, pull it down, and so on."
        }
        Cause::DisconnectTooHigh => {
            "Under load the voltage sags below the disconnect although there is charge left."
        }
        Cause::LoadWire => {
            "Under load so much is lost on the way that the loads see too little, although the battery is well."
        }
        Cause::OverCurrent => {
            "The protection opens within a moment, whatever the battery's charge."
        }
    }
}

/// What to do where no setting explains it.
pub fn instead(cause: Cause) -> Option<(&'static str, &'static str, &'static str)> {
    match cause {
        Cause::ChargingWire | Cause::LoadWire => Some((
            "Feel for a warm joint, tighten it, and look up what each wire loses.",
            "/wiring",
            "Losses of the wires",
        )),
        Cause::OverCurrent => Some((
            "Add up what runs at once; an inverter's start counts.",
            "/circuits",
            "Currents of all circuits",
        )),
        _ => None,
    }
}

/// How likely, in a word.
pub fn likely(share: f64) -> &'static str {
    match share {
        share if share >= 0.8 => "very likely",
        share if share >= 0.5 => "likely",
        share if share >= 0.2 => "may be",
        share if share >= 0.05 => "less likely",
        _ => "hardly",
    }
}
