//! Products, quotients and sums of quantities, worked by hand; points and vectors.

use wainwright_units::frame::{Point, Vector};
use wainwright_units::{
    Area, Charge, CrossSection, Current, Duration, Energy, Force, Length, LineHeat, LineResistance,
    Mass, Power, Ratio, Resistance, Temperature, TemperatureDifference, Torque, Voltage, Volume,
};

#[test]
fn ohm_and_joule() {
    let (amperes, ohms) = (Current::from_amperes(8.0), Resistance::from_ohms(0.25));
    let volts = amperes * ohms;
    assert_eq!(volts, Voltage::from_volts(2.0));
    assert_eq!(ohms * amperes, volts);
    assert_eq!(volts / ohms, amperes);
    assert_eq!(volts / amperes, ohms);
    assert_eq!(volts * amperes, Power::from_watts(16.0));
    assert_eq!(Power::from_watts(16.0) / volts, amperes);
}

#[test]
fn per_length_and_per_time() {
    let run = Length::from_metres(4.0);
    assert_eq!(
        LineResistance::from_ohms_per_metre(0.5) * run,
        Resistance::from_ohms(2.0)
    );
    assert_eq!(
        Resistance::from_ohms(2.0) / run,
        LineResistance::from_ohms_per_metre(0.5)
    );
    assert_eq!(
        LineHeat::from_watts_per_metre(3.0) * run,
        Power::from_watts(12.0)
    );
    assert_eq!(
        Current::from_amperes(5.0) * Duration::from_hours(2.0),
        Charge::from_ampere_hours(10.0)
    );
    assert_eq!(
        Charge::from_ampere_hours(10.0) / Current::from_amperes(5.0),
        Duration::from_hours(2.0)
    );
    assert_eq!(
        Power::from_watts(60.0) * Duration::from_minutes(30.0),
        Energy::from_watt_hours(30.0)
    );
    assert_eq!(
        Voltage::from_volts(12.0) * Charge::from_ampere_hours(100.0),
        Energy::from_watt_hours(1200.0)
    );
    assert_eq!(
        Energy::from_watt_hours(1200.0) / Voltage::from_volts(12.0),
        Charge::from_ampere_hours(100.0)
    );
}

#[test]
fn space_and_force() {
    let (two, three) = (Length::from_metres(2.0), Length::from_metres(3.0));
    assert_eq!(two * three, Area::from_square_metres(6.0));
    assert_eq!(Area::from_square_metres(6.0) / two, three);
    assert_eq!(
        Area::from_square_metres(6.0) * two,
        Volume::from_litres(12_000.0)
    );
    assert_eq!(
        Force::from_newtons(5.0) * two,
        Torque::from_newton_metres(10.0)
    );
    assert_eq!(
        Mass::from_kilograms(2.0).weight(),
        Force::from_newtons(19.6133)
    );
    assert_eq!(
        CrossSection::from_square_millimetres(16.0).area(),
        Area::from_square_metres(16e-6)
    );
}

#[test]
fn temperatures_and_their_differences() {
    let (warm, cold) = (
        Temperature::from_celsius(30.0),
        Temperature::from_celsius(20.0),
    );
    let rise = warm - cold;
    assert_eq!(rise, TemperatureDifference::from_kelvins(10.0));
    assert_eq!(cold + rise, warm);
    assert_eq!(warm - rise, cold);
    assert_eq!(cold.fahrenheit(), 68.0);
    assert_eq!(Temperature::from_fahrenheit(68.0), cold);
    assert_eq!(cold.kelvins_absolute(), 293.15);
}

#[test]
fn sums_and_factors() {
    let parts = [1.5, 2.5].map(Length::from_metres);
    assert_eq!(parts.into_iter().sum::<Length>(), Length::from_metres(4.0));
    assert_eq!(
        2.0 * Length::from_metres(4.0) / 8.0,
        Length::from_metres(1.0)
    );
    assert_eq!(Length::from_metres(6.0) / Length::from_metres(4.0), 1.5);
    assert_eq!(
        -Length::from_metres(6.0),
        Length::ZERO - Length::from_metres(6.0)
    );
    assert_eq!(Length::from_metres(-6.0).abs(), Length::from_metres(6.0));
    assert_eq!(
        Ratio::from_percent(25.0) * Voltage::from_volts(12.0),
        Voltage::from_volts(3.0)
    );
    assert_eq!(
        Ratio::from_fraction(0.5) * Ratio::from_fraction(0.5),
        Ratio::from_fraction(0.25)
    );
    assert_eq!(Length::from_inches(12.0), Length::from_feet(1.0));
    assert_eq!(Length::from_metres(0.3048).inches(), 12.0);
}

#[test]
fn points_and_vectors() {
    let hitch = Point::from_metres(0.0, 0.0, 0.5);
    let lamp = Point::from_metres(3.0, -4.0, 12.5);
    let way = lamp - hitch;
    assert_eq!(way, Vector::from_metres(3.0, -4.0, 12.0));
    assert_eq!(way.length(), Length::from_metres(13.0));
    assert_eq!(hitch.distance(lamp), Length::from_metres(13.0));
    assert_eq!(way.length_along_axes(), Length::from_metres(19.0));
    assert_eq!(hitch + way, lamp);
    assert_eq!(lamp - way, hitch);
    assert_eq!(hitch.towards(lamp, 0.5), Point::from_metres(1.5, -2.0, 6.5));
    assert_eq!(way.dot(way), Area::from_square_metres(169.0));
    assert_eq!(way + -way, Vector::ZERO);
    assert_eq!((way - way * 0.5).length(), Length::from_metres(6.5));
}
