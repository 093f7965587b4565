//! The D-value of a coupling: the horizontal force it must stand. The S-value is the tongue load
//! and needs no equation. Not here: V-values, which count above 3.5 t only.

use wainwright_units::{Force, Mass};

use crate::refusal::{Refusal, above_zero, require};

/// Acceleration of free fall that the regulation prints [m/s²] (UN Regulation No. 55; read in
/// quotation).
const REGULATION_GRAVITY: f64 = 9.81;

/// D-value that an outfit asks of its coupling \[N\], from the largest permitted mass of the tow
/// vehicle and that of the trailer (of a centre-axle trailer: of its axles, without the tongue).
///
/// # Errors
/// A mass that is not above zero.
pub fn d_value(vehicle: Mass, trailer: Mass) -> Result<Force, Refusal> {
    above_zero("mass of the tow vehicle [kg]", vehicle.kilograms())?;
    above_zero("mass of the trailer [kg]", trailer.kilograms())?;
    let together =
        vehicle.kilograms() * trailer.kilograms() / (vehicle.kilograms() + trailer.kilograms());
    Ok(Force::from_newtons(REGULATION_GRAVITY * together))
}

/// Heaviest trailer that a D-value allows behind a tow vehicle \[kg\]; `None` when the D-value
/// exceeds the weight of the vehicle and so allows any trailer.
///
/// # Errors
/// A mass or force that is not above zero.
pub fn heaviest_trailer(vehicle: Mass, rated: Force) -> Result<Option<Mass>, Refusal> {
    above_zero("mass of the tow vehicle [kg]", vehicle.kilograms())?;
    above_zero("D-value [N]", rated.newtons())?;
    let weight = REGULATION_GRAVITY * vehicle.kilograms();
    if rated.newtons() >= weight {
        return Ok(None);
    }
    let mass = rated.newtons() * vehicle.kilograms() / (weight - rated.newtons());
    require(
        "heaviest trailer [kg]",
        mass,
        mass.is_finite(),
        "a finite number",
    )?;
    Ok(Some(Mass::from_kilograms(mass)))
}
