//! Boards, charging values, device classes and household loads: they answer, in order, with their marks.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "test code")]

use wainwright_reference::battery::{Chemistry, charge_voltages, lfp_open_circuit};
use wainwright_reference::charge_profile::*;
use wainwright_reference::device_class::*;
use wainwright_reference::household::*;
use wainwright_reference::protection_board::*;
use wainwright_reference::{Mark, Span};
use wainwright_units::*;

fn rising<T: PartialOrd + Copy>(span: Span<T>) -> bool {
    span.low <= span.usual && span.usual <= span.high
}

#[test]
fn every_class_of_boards_opens_above_where_it_closes() {
    for &class in BoardClass::ALL {
        let board = thresholds(class).unwrap();
        assert!(board.over.value > board.over_release.value, "{class}");
        assert!(board.over_release.value > board.under_release.value);
        assert!(board.under_release.value > board.under.value, "{class}");
        assert!(board.cold_release.value > board.cold.value);
        assert!(board.hot.value > board.hot_release.value);
        assert_eq!(board.pack.is_some(), class == BoardClass::Late);
    }
    let usual = thresholds(BoardClass::Usual).unwrap();
    assert_eq!(usual.under.mark, Mark::Memory);
    let late = thresholds(BoardClass::Late).unwrap();
    let pack = late.pack.unwrap();
    assert_eq!(
        (late.over.value, late.over_release.value),
        (Voltage::from_volts(3.9), Voltage::from_volts(3.8))
    );
    assert_eq!(pack.under_release.value, Voltage::from_volts(10.5));
    assert_eq!(pack.over.mark, Mark::Read);
    assert!(over_current_delay().unwrap().value > short_circuit_delay().unwrap().value);
    assert_eq!(
        charge_limit_of_100_amperes().unwrap().value,
        Current::from_amperes(75.0)
    );
}

#[test]
fn charging_values_are_in_order_and_agree_with_those_of_the_batteries() {
    for &chemistry in Chemistry::ALL {
        let profile = charge_profile(chemistry).unwrap();
        assert!(rising(profile.absorption.value) && rising(profile.float.value));
        assert!(rising(profile.tail.value) && rising(profile.absorption_time.value));
        assert!(
            profile.float.value.high < profile.absorption.value.usual,
            "{chemistry}"
        );
        assert!(profile.lowest.value < profile.disconnect.value);
        assert!(profile.disconnect.value < profile.reconnect.value);
        let lithium = chemistry == Chemistry::Lfp;
        assert_eq!(profile.compensation.value == 0.0, lithium);
        assert_eq!(profile.lockout.is_some(), lithium);
        assert_eq!(profile.acceptance.is_none(), lithium);
        assert_eq!(profile.equalise.is_some(), chemistry == Chemistry::Flooded);
        let known = charge_voltages(chemistry).unwrap();
        assert_eq!(profile.absorption.value.usual, known.absorption.value);
        assert_eq!(profile.absorption.value.high, known.absorption_most.value);
        assert_eq!(profile.float.value.usual, known.float.value);
        assert_eq!(profile.disconnect.value, known.load_disconnect.value);
    }
    // The ends of the lithium float are open voltages at 85 and 99.5 %.
    let float = charge_profile(Chemistry::Lfp).unwrap().float.value;
    for (end, charge) in [(float.low, 0.85), (float.high, 0.995)] {
        let open = lfp_open_circuit(Ratio::from_fraction(charge))
            .unwrap()
            .value;
        assert!(
            (end - open).abs() < Voltage::from_volts(0.005),
            "{end:?} {open:?}"
        );
    }
}

#[test]
fn frozen_cells_are_not_charged_and_lead_acid_has_no_bands() {
    let bands = rate_bands(Chemistry::Lfp);
    assert_eq!(bands.len(), 3);
    assert_eq!(bands[0].value.from, Temperature::from_celsius(0.0));
    assert!(bands[0].value.rate < bands[1].value.rate);
    assert_eq!(bands[2].value.rate, Ratio::ZERO);
    assert!(rate_bands(Chemistry::Agm).is_empty());
    let margins = charge_margins().unwrap();
    assert_eq!(margins.above_cut_off.mark, Mark::Read);
    assert_eq!(margins.below_trip.mark, Mark::Judgement);
    assert!(reading_noise().unwrap().cell.value < reading_noise().unwrap().pack.value);
}

/// Published with the curve: 51 % at 20 W, 80.5 % at 100 W, 91.1 % at 1 kW of 2 kW.
#[test]
fn the_efficiency_of_an_inverter() {
    let curve = inverter_curve(Power::from_watts(2000.0)).unwrap().value;
    let efficiency = |watts: f64| {
        let lost = curve.fixed.watts() + curve.slope * watts + curve.square * watts * watts;
        watts / (watts + lost)
    };
    for (watts, expected) in [(20.0, 0.51), (100.0, 0.805), (1000.0, 0.911)] {
        assert!((efficiency(watts) - expected).abs() < 0.005, "{watts}");
    }
    let idle = |watts| inverter_idle(Power::from_watts(watts)).unwrap();
    assert_eq!(idle(100.0).value, idle(300.0).value);
    assert_eq!(idle(9000.0).value, idle(3000.0).value);
    assert_eq!(idle(1500.0).value.low, Power::from_watts(11.5));
    assert_eq!(idle(1500.0).mark, Mark::Judgement);
    assert!(inverter_curve(Power::ZERO).is_none());
}

#[test]
fn device_classes_answer() {
    for &converter in Converter::ALL {
        let span = efficiency(converter).unwrap().value;
        assert!(rising(span) && span.high < Ratio::ONE, "{converter}");
    }
    let without = Converter::ALL
        .iter()
        .filter(|one| output_current(**one).is_none());
    assert_eq!(without.count(), 2, "sockets and stabilisers");
    for &what in Standing::ALL {
        assert!(rising(standing(what).unwrap().value), "{what}");
    }
    let controller = tracking_controller().unwrap();
    assert!(controller.start_above.value > controller.run_above.value);
    assert!(rising(controller.own_draw.value) && rising(controller.tracking.value));
    let (off, on) = inverter_low_voltage().unwrap();
    assert!(off.value < on.value && off.mark == Mark::Read);
    assert_eq!(
        household_circuit().unwrap().value,
        Power::from_watts(0.8 * 15.0 * 120.0)
    );
    assert!(held_voltage().is_some() && plain_controller_drop().is_some());
    assert!(rising(module_voltage_slope().unwrap().value));
    assert!(rising(alternator_voltage().unwrap().value));
    assert!(rising(charge_wire_current().unwrap().value));
    assert!(shore_power_factor().is_some() && usb_standby().is_some());
    assert!(rising(inverter_search_draw().unwrap().value));
}

/// Published energies a day of the same loads [Wh]; usual power times usual time lies among them.
#[test]
fn usual_loads_use_what_was_published() {
    let published = [
        ("led-lights", 30.0, 80.0),
        ("roof-fan", 25.0, 120.0),
        ("water-pump", 5.0, 20.0),
        ("phone", 15.0, 40.0),
        ("laptop", 60.0, 150.0),
        ("router", 50.0, 250.0),
        ("satellite-dish", 300.0, 1200.0),
        ("radio", 20.0, 30.0),
        ("television", 40.0, 70.0),
        ("breathing-machine", 70.0, 120.0),
        ("induction", 250.0 * 0.9, 550.0 * 0.9),
        ("coffee-maker", 80.0 * 0.9, 130.0 * 0.9),
        ("blanket", 120.0, 250.0),
        ("gas-alarm", 25.0, 35.0),
        ("air-heater", 120.0, 300.0),
    ];
    assert_eq!(load_presets().len(), published.len());
    for (id, low, high) in published {
        let load = load_preset(id).unwrap().value;
        assert!(rising(load.power) && rising(load.hours), "{id}");
        let day = load.power.usual.watts() * load.hours.usual.hours();
        assert!((low..=high).contains(&day), "{id}: {day}");
        let time = time_of_day(id).unwrap();
        assert!((0.0..=24.0).contains(&time.value.from) && (0.0..=24.0).contains(&time.value.to));
        assert_eq!(time.mark, Mark::Judgement);
    }
}

/// 1,245 Wh, as published beside the hours.
#[test]
fn the_usual_day() {
    let day = usual_day();
    assert_eq!(day.len(), 24);
    let sum: f64 = day.iter().map(|hour| hour.value.watts()).sum();
    assert!((sum - 1245.0).abs() < 1e-9, "{sum}");
    for &preset in DayPreset::ALL {
        assert!(rising(day_preset(preset).unwrap().value), "{preset}");
    }
}

/// 291 Wh at 30 °C for 0.7 W/K, 416 for 1.0, 582 for 1.4, as published beside the constants.
#[test]
fn fridges_by_their_walls() {
    let figures = fridge_figures().unwrap();
    let air = 30.0 + 273.15;
    let inside = figures.inside.value.celsius() + 273.15;
    let evaporator = inside - figures.evaporator_below.value;
    let condenser = air + figures.condenser_above.value;
    let cop = figures.carnot_share.value.fraction() * evaporator / (condenser - evaporator);
    for (class, expected) in [
        (FridgeClass::Small, 291.0),
        (FridgeClass::Middle, 416.0),
        (FridgeClass::Large, 582.0),
    ] {
        let walls = fridge(class).unwrap().value.conductance;
        let day = 24.0 * walls * (air - inside) / cop;
        assert!((day - expected).abs() < 0.5, "{class}: {day}");
    }
    assert!(rising(figures.doors.value) && figures.food.value > 0.0);
    assert!(figures.electronics.value > Power::ZERO);
}

#[test]
fn heater_kettle_and_water() {
    let heater = heater_figures().unwrap();
    assert!(rising(heater.fuel.value) && rising(heater.start_power.value));
    assert!(rising(heater.start_time.value) && heater.stops_at.mark == Mark::Read);
    // 4.186 kJ/(kg·K) over 85 K.
    let heat = 4.186 * 85.0 / 3.6;
    assert!(
        (kettle_heat().unwrap().value.watt_hours() - heat).abs() < 0.1,
        "{heat}"
    );
    assert!(kettle_energy().unwrap().value.low > kettle_heat().unwrap().value);
    let water = water_per_person().unwrap();
    assert!(rising(water.value) && water.mark == Mark::Judgement);
}
