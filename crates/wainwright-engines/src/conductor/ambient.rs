//! How an ampacity stated for one ambient temperature changes with another.

use wainwright_units::{Ratio, Temperature};

/// Factor √((θlimit − θair) / (θlimit − θtable)) on an ampacity stated at `table` air.
///
/// Heat given off is taken as proportional to the temperature rise and heat made to the square of
/// the current; this is the rule behind the printed factors of NEC 310.15(B) and of the 50 °C notes
/// of 33 CFR 183.425 (reproduced within 0.01). Zero when the air is at or above the limit.
pub fn ambient_factor(limit: Temperature, air: Temperature, table: Temperature) -> Ratio {
    let rise = limit.celsius() - air.celsius();
    let stated = limit.celsius() - table.celsius();
    if rise <= 0.0 || stated <= 0.0 {
        return Ratio::from_fraction(0.0);
    }
    Ratio::from_fraction((rise / stated).sqrt())
}
