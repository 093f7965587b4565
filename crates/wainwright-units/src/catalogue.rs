//! Every quantity by name, so that a unit of another quantity can be recognised.

use crate::definition::Definition;
use crate::quantity::Quantity;
use crate::{
    Airflow, Altitude, Angle, Area, Charge, CrossSection, Current, Duration, Energy, Force, Length,
    LineHeat, LineResistance, Mass, Power, Ratio, Resistance, Speed, Stiffness, Temperature,
    TemperatureDifference, ThermalConductivity, ThermalResistivity, Torque, Voltage, Volume,
};

const fn entry<Q: Quantity>() -> (&'static str, &'static Definition) {
    (Q::NAME, Q::DEFINITION)
}

/// Name and definition of every quantity, the most usual first.
pub(crate) static CATALOGUE: &[(&str, &Definition)] = &[
    entry::<Length>(),
    entry::<Mass>(),
    entry::<Voltage>(),
    entry::<Current>(),
    entry::<Resistance>(),
    entry::<Power>(),
    entry::<Charge>(),
    entry::<Energy>(),
    entry::<Temperature>(),
    entry::<Volume>(),
    entry::<Duration>(),
    entry::<Ratio>(),
    entry::<CrossSection>(),
    entry::<Area>(),
    entry::<Force>(),
    entry::<Torque>(),
    entry::<Speed>(),
    entry::<Stiffness>(),
    entry::<Angle>(),
    entry::<TemperatureDifference>(),
    entry::<Airflow>(),
    entry::<Altitude>(),
    entry::<LineResistance>(),
    entry::<LineHeat>(),
    entry::<ThermalResistivity>(),
    entry::<ThermalConductivity>(),
];
