//! How much vapour air holds, and at which temperature it begins to come out. Not here: anything
//! that depends on the pressure of the air.

use wainwright_units::Temperature;

use crate::refusal::{Refusal, above_zero, require};

/// Most steps of Newton's method on ln p, which is nearly straight in 1/T: five do as a rule.
const MOST_STEPS: usize = 30;

/// Temperature change at which the search for the dew point stops [K].
const FINE_KELVINS: f64 = 1e-10;

/// Where the handbook form changes from ice to water [°C].
const TRIPLE_POINT: f64 = 0.01;

/// Which published form of the saturation pressure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Formula {
    /// Long polynomial of the ASHRAE handbook.
    Handbook,
    /// Short form of ISO 13788, for walls.
    Standard,
}

impl Formula {
    /// Range in which the form is used here [°C].
    const fn range(self) -> (f64, f64, &'static str) {
        match self {
            Self::Handbook => (-100.0, 200.0, "-100 to 200 °C"),
            Self::Standard => (-60.0, 100.0, "-60 to 100 °C"),
        }
    }
}

/// Pressure of the vapour in saturated air [Pa].
///
/// # Errors
/// A temperature outside the range of the form.
pub fn saturation_pressure(air: Temperature, formula: Formula) -> Result<f64, Refusal> {
    let (low, high, expected) = formula.range();
    let celsius = air.celsius();
    require(
        "temperature of the air [°C]",
        celsius,
        (low..=high).contains(&celsius),
        expected,
    )?;
    Ok(saturation(celsius, formula))
}

/// Temperature at which vapour of a pressure [Pa] begins to come out.
///
/// # Errors
/// A pressure that is not above zero, or whose dew point is outside the range of the form.
pub fn dew_point(vapour_pascals: f64, formula: Formula) -> Result<Temperature, Refusal> {
    above_zero("vapour pressure [Pa]", vapour_pascals)?;
    let celsius = match formula {
        Formula::Handbook => handbook_dew_point(vapour_pascals)?,
        Formula::Standard => standard_dew_point(vapour_pascals),
    };
    let (low, high, _) = formula.range();
    require(
        "vapour pressure [Pa]",
        vapour_pascals,
        (low..=high).contains(&celsius),
        "a pressure that air at these temperatures can hold",
    )?;
    Ok(Temperature::from_celsius(celsius))
}

/// As [`saturation_pressure`], for temperatures already checked [°C].
pub(super) fn saturation(celsius: f64, formula: Formula) -> f64 {
    match formula {
        Formula::Handbook => handbook_log(celsius).exp(),
        Formula::Standard if celsius >= 0.0 => 610.5 * (17.269 * celsius / (237.3 + celsius)).exp(),
        Formula::Standard => 610.5 * (21.875 * celsius / (265.5 + celsius)).exp(),
    }
}

fn standard_dew_point(pascals: f64) -> f64 {
    let log = (pascals / 610.5).ln();
    if log >= 0.0 {
        237.3 * log / (17.269 - log)
    } else {
        265.5 * log / (21.875 - log)
    }
}

/// ln of the saturation pressure in the handbook's form.
fn handbook_log(celsius: f64) -> f64 {
    let kelvin = Temperature::from_celsius(celsius).kelvins_absolute();
    if celsius <= TRIPLE_POINT {
        -5.674_535_9e3 / kelvin
            + 6.392_524_7
            + kelvin
                * (-9.677_843e-3
                    + kelvin
                        * (6.221_570_1e-7 + kelvin * (2.074_782_5e-9 + kelvin * -9.484_024e-13)))
            + 4.163_501_9 * kelvin.ln()
    } else {
        -5.800_220_6e3 / kelvin
            + 1.391_499_3
            + kelvin * (-4.864_023_9e-2 + kelvin * (4.176_476_8e-5 + kelvin * -1.445_209_3e-8))
            + 6.545_967_3 * kelvin.ln()
    }
}

/// d ln p/dT of the same.
fn handbook_slope(celsius: f64) -> f64 {
    let kelvin = Temperature::from_celsius(celsius).kelvins_absolute();
    let squared = kelvin * kelvin;
    if celsius <= TRIPLE_POINT {
        5.674_535_9e3 / squared - 9.677_843e-3
            + kelvin
                * (2.0 * 6.221_570_1e-7
                    + kelvin * (3.0 * 2.074_782_5e-9 - 4.0 * 9.484_024e-13 * kelvin))
            + 4.163_501_9 / kelvin
    } else {
        5.800_220_6e3 / squared - 4.864_023_9e-2
            + kelvin * (2.0 * 4.176_476_8e-5 - 3.0 * 1.445_209_3e-8 * kelvin)
            + 6.545_967_3 / kelvin
    }
}

/// Newton's method from the closed inverse of the other form, which is within a few hundredths.
fn handbook_dew_point(pascals: f64) -> Result<f64, Refusal> {
    let wanted = pascals.ln();
    let (low, high, _) = Formula::Handbook.range();
    let mut celsius = standard_dew_point(pascals).clamp(low, high);
    for _ in 0..MOST_STEPS {
        let step = (wanted - handbook_log(celsius)) / handbook_slope(celsius);
        celsius = (celsius + step).clamp(low - 1.0, high + 1.0);
        if step.abs() <= FINE_KELVINS {
            return Ok(celsius);
        }
    }
    // The two branches of the form leave a gap of some 1e-5 in ln p at 0.01 °C, in which Newton's
    // steps go to and fro; the gap itself is then the answer.
    let residual = wanted - handbook_log(celsius);
    require(
        "vapour pressure [Pa]",
        pascals,
        residual.abs() < 1e-4,
        "a pressure whose dew point can be found",
    )?;
    Ok(celsius)
}
