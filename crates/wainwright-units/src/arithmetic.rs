//! Physical products and quotients between different quantities.
//! Not here: sums and scaling of one quantity (macro `linear` in `quantity`), temperature
//! differences (`thermal`).

use crate::electrical::{
    Charge, CrossSection, Current, Energy, LineResistance, Power, Resistance, Voltage,
};
use crate::general::{Duration, Ratio};
use crate::geometry::{Area, Length, Volume};
use crate::mechanical::{Force, Mass, Torque};
use crate::quantity::{Quantity, product};
use crate::thermal::{LineHeat, TemperatureDifference};

/// Standard acceleration of free fall [m/s²] (defined, 3rd CGPM 1901).
pub const STANDARD_GRAVITY: f64 = 9.806_65;

product! {
    Current * Resistance = Voltage, 1.0, 1.0;
    Voltage * Current = Power, 1.0, 1.0;
    LineResistance * Length = Resistance, 1.0, 1.0;
    LineHeat * Length = Power, 1.0, 1.0;
    Voltage * Charge = Energy, 1.0, 1.0;
    Current * Duration = Charge, 1.0, 3600.0;
    Power * Duration = Energy, 1.0, 3600.0;
    Force * Length = Torque, 1.0, 1.0;
    Area * Length = Volume, 1000.0, 1.0;
}

impl std::ops::Mul for Length {
    type Output = Area;
    fn mul(self, other: Length) -> Area {
        Area::from_square_metres(self.metres() * other.metres())
    }
}

impl std::ops::Div<Length> for Area {
    type Output = Length;
    fn div(self, other: Length) -> Length {
        Length::from_metres(self.square_metres() / other.metres())
    }
}

impl Mass {
    /// The pull of the earth on this mass, at standard gravity.
    #[must_use]
    pub const fn weight(self) -> Force {
        Force::from_newtons(self.kilograms() * STANDARD_GRAVITY)
    }
}

impl CrossSection {
    /// The same cross-section as an area.
    #[must_use]
    pub const fn area(self) -> Area {
        Area::from_square_metres(self.square_millimetres() / 1e6)
    }
}

macro_rules! ratio_of {
    ($($name:ident),+ $(,)?) => { $(
        impl std::ops::Mul<$name> for Ratio {
            type Output = $name;
            fn mul(self, whole: $name) -> $name {
                self.fraction() * whole
            }
        }

        impl std::ops::Mul<Ratio> for $name {
            type Output = $name;
            fn mul(self, share: Ratio) -> $name {
                self * share.fraction()
            }
        }
    )+ };
}

ratio_of!(
    Voltage,
    Current,
    Resistance,
    Power,
    Charge,
    Energy,
    LineResistance,
    CrossSection,
    Length,
    Area,
    Volume,
    Mass,
    Force,
    Torque,
    Duration,
    LineHeat,
    TemperatureDifference,
);

impl std::ops::Mul for Ratio {
    type Output = Ratio;
    fn mul(self, other: Ratio) -> Ratio {
        Ratio::from_fraction(self.fraction() * other.fraction())
    }
}
