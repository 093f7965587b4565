//! What explains a symptom at one charger and one disconnect. Run on demand. Not here: the inference (the engine).

use super::{Plant, lower};
use crate::circuit;
use crate::result::Assessment;
use crate::result::settings::{
    Channel, DeviceKind, Event, Observable, Observation, Setting, SettingKind, SettingsResult,
    Suspect, SymptomAnswer,
};
use wainwright_engines::charging::{Bench, System, diagnose};
use wainwright_model::Project;

/// What can be entered.
pub fn observable(found: &SettingsResult) -> Observable {
    let of = |wanted: fn(&crate::result::settings::DeviceCard) -> bool| {
        let cards = found.devices.iter().enumerate();
        cards
            .filter(|(_, card)| wanted(card))
            .map(|(index, _)| index)
            .collect()
    };
    Observable {
        chargers: of(|card| card.charger().is_some()),
        disconnects: of(|card| card.disconnect().is_some()),
        channels: Channel::ALL.to_vec(),
        events: EVENTS.to_vec(),
    }
}

const EVENTS: [Event; Event::COUNT] = [
    Event::Nothing,
    Event::RelayClicks,
    Event::ChargingStops,
    Event::VoltageJumps,
    Event::FullEarly,
    Event::RunsEmptySoon,
    Event::NeverFull,
    Event::LoadsDropOut,
    Event::InverterAlarms,
    Event::ControllerDead,
    Event::NoChargeCold,
];

/// The causes of what was seen, and what to measure next. Devices are indices into [`SettingsResult::devices`].
///
/// # Errors
/// A sentence where there is no battery or no such device, or where a figure cannot be.
pub fn symptom(
    project: &Project,
    assessment: &Assessment,
    charger: usize,
    disconnect: Option<usize>,
    seen: &Observation,
) -> Result<SymptomAnswer, String> {
    let circuit = circuit::lower(project);
    let lowered = lower(project, &circuit, assessment.capacity);
    let plant = lowered
        .plant
        .ok_or("There is no battery in this project.")?;
    let noise = super::profile::noise().ok_or("The table of readings is empty.")?;
    let (system, bench) = asked(&plant, charger, disconnect)?;
    let found = diagnose(&system, bench, seen, noise).map_err(|refusal| refusal.to_string())?;
    let row = |setting| row(&assessment.settings, charger, disconnect, setting);
    let suspects = found.ranked.into_iter().map(|ranked| Suspect {
        row: row(ranked.setting),
        ranked,
    });
    Ok(SymptomAnswer {
        suspects: suspects.collect(),
        next: found.next,
        fit: found.fit,
    })
}

/// The system in which the disconnect is, with the indices there.
fn asked(
    plant: &Plant,
    charger: usize,
    disconnect: Option<usize>,
) -> Result<(System<'static>, Bench), String> {
    let (chargers, relays) = (plant.chargers.len(), plant.relays.len());
    if charger >= chargers {
        return Err("There is no such charger in this project.".into());
    }
    let direct = |disconnect| {
        (
            plant.direct(),
            Bench {
                charger,
                disconnect,
            },
        )
    };
    let Some(device) = disconnect else {
        return Ok(direct(None));
    };
    let index = device
        .checked_sub(chargers)
        .ok_or("That device is no disconnect.")?;
    if index < relays {
        return Ok(direct(Some(index)));
    }
    let index = index - relays;
    if index >= plant.inverters.len() {
        return Err("There is no such disconnect in this project.".into());
    }
    let all = plant.chargers.iter().map(|device| device.engine).collect();
    let bench = Bench {
        charger,
        disconnect: Some(index),
    };
    Ok((plant.mains(all), bench))
}

/// The line of a card that a setting is.
fn row(
    found: &SettingsResult,
    charger: usize,
    disconnect: Option<usize>,
    setting: Setting,
) -> Option<(usize, usize)> {
    let (device, what) = match setting {
        Setting::Absorption => (charger, SettingKind::ChargeVoltage),
        Setting::Tail => (charger, SettingKind::Tail),
        Setting::Float => (charger, SettingKind::Float),
        Setting::Lockout => (charger, SettingKind::ColdLockout),
        Setting::Off => (disconnect?, SettingKind::Off),
        Setting::On => (disconnect?, SettingKind::On),
        Setting::None | Setting::Wire | Setting::LoadCurrent => return None,
    };
    let card = found.devices.get(device)?;
    if card.kind == DeviceKind::Vehicle {
        return None;
    }
    let row = card.rows.iter().position(|row| row.what == what)?;
    Some((device, row))
}
