//! The `Quantity` trait and the macros that make a newtype for each quantity.
//! Not here: the quantities themselves (`electrical`, `mechanical`, `thermal`).

use std::fmt::Debug;

use crate::definition::{Definition, Legal, System};
use crate::error::QuantityError;

/// A physical quantity with a name, a legal range, and a way to be typed and shown.
pub trait Quantity: Copy + PartialEq + PartialOrd + Debug + 'static {
    /// Plain name in lower case, as used in messages.
    const NAME: &'static str;
    /// Range a person may type, in the base unit.
    const LEGAL: Legal;
    /// Texts that are accepted, the most usual first.
    const EXAMPLES: &'static [&'static str];
    /// Units typed and shown.
    const DEFINITION: &'static Definition;

    /// The quantity from a number of base units, unchecked: results may leave the legal range.
    fn from_base(base: f64) -> Self;

    /// Number of base units.
    fn base(self) -> f64;

    /// Reads what a person typed.
    ///
    /// # Errors
    /// A text that is not understood, lacks its unit, or leaves [`Self::LEGAL`].
    fn parse(text: &str) -> Result<Self, QuantityError> {
        crate::parse::base_value(
            text,
            Self::NAME,
            Self::LEGAL,
            Self::EXAMPLES,
            Self::DEFINITION,
        )
        .map(Self::from_base)
    }

    /// The quantity as a person wants to read it, rounded to 3 or 4 significant digits.
    fn show(self, system: System) -> String {
        crate::show::text(self.base(), Self::DEFINITION, system)
    }
}

/// Makes one newtype over f64 in base units, with its trait and its comparison helpers.
macro_rules! quantity {
    (
        $(#[$meta:meta])*
        $name:ident, $label:literal, $from:ident, $get:ident, $unit:literal,
        legal $low:literal to $high:literal, examples $examples:expr, $definition:ident
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            #[doc = concat!("From a number of ", $unit, ", unchecked.")]
            #[must_use]
            pub const fn $from(value: f64) -> Self {
                $name(value)
            }

            #[doc = concat!("Number of ", $unit, ".")]
            #[must_use]
            pub const fn $get(self) -> f64 {
                self.0
            }

            /// The lower of two values; the other one when one is NaN.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                $name(self.0.min(other.0))
            }

            /// The higher of two values; the other one when one is NaN.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                $name(self.0.max(other.0))
            }

            /// Whether the value is neither NaN nor infinite.
            #[must_use]
            pub const fn is_finite(self) -> bool {
                self.0.is_finite()
            }

            /// A total order, for sorting.
            #[must_use]
            pub fn total_cmp(&self, other: &Self) -> std::cmp::Ordering {
                self.0.total_cmp(&other.0)
            }
        }

        impl $crate::quantity::Quantity for $name {
            const NAME: &'static str = $label;
            const LEGAL: $crate::definition::Legal =
                $crate::definition::Legal { low: $low, high: $high };
            const EXAMPLES: &'static [&'static str] = &$examples;
            const DEFINITION: &'static $crate::definition::Definition = &$definition;

            fn from_base(base: f64) -> Self {
                $name(base)
            }

            fn base(self) -> f64 {
                self.0
            }
        }
    };
}

/// Adds the arithmetic of a quantity whose zero means nothing of it (all but temperature).
macro_rules! linear {
    ($($name:ident),+ $(,)?) => { $(
        impl $name {
            /// None of it.
            pub const ZERO: Self = $name(0.0);

            /// The magnitude.
            #[must_use]
            pub const fn abs(self) -> Self {
                $name(self.0.abs())
            }
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                $name(self.0 + other.0)
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                $name(self.0 - other.0)
            }
        }

        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl std::ops::SubAssign for $name {
            fn sub_assign(&mut self, other: Self) {
                self.0 -= other.0;
            }
        }

        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                $name(-self.0)
            }
        }

        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                $name(self.0 * factor)
            }
        }

        impl std::ops::Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, quantity: $name) -> $name {
                $name(self * quantity.0)
            }
        }

        impl std::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                $name(self.0 / divisor)
            }
        }

        impl std::ops::Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(values: I) -> Self {
                $name(values.map(|value| value.0).sum())
            }
        }
    )+ };
}

/// Adds accessors in another unit: base = number · times / over.
macro_rules! accessors {
    ($name:ident: $($from:ident, $get:ident, $unit:literal, $times:expr, $over:expr;)+) => {
        impl $name { $(
            #[doc = concat!("From a number of ", $unit, ", unchecked.")]
            #[must_use]
            pub const fn $from(value: f64) -> Self {
                $name(value * $times / $over)
            }

            #[doc = concat!("Number of ", $unit, ".")]
            #[must_use]
            pub const fn $get(self) -> f64 {
                self.0 * $over / $times
            }
        )+ }
    };
}

/// Adds `a * b = c` and its inverses for two different quantities; c = a · b · times / over
/// in base units.
macro_rules! product {
    ($($a:ident * $b:ident = $c:ident, $times:expr, $over:expr;)+) => { $(
        impl std::ops::Mul<$b> for $a {
            type Output = $c;
            fn mul(self, other: $b) -> $c {
                <$c>::from_base(self.base() * other.base() * $times / $over)
            }
        }

        impl std::ops::Mul<$a> for $b {
            type Output = $c;
            fn mul(self, other: $a) -> $c {
                <$c>::from_base(self.base() * other.base() * $times / $over)
            }
        }

        impl std::ops::Div<$a> for $c {
            type Output = $b;
            fn div(self, other: $a) -> $b {
                <$b>::from_base(self.base() * $over / $times / other.base())
            }
        }

        impl std::ops::Div<$b> for $c {
            type Output = $a;
            fn div(self, other: $b) -> $a {
                <$a>::from_base(self.base() * $over / $times / other.base())
            }
        }
    )+ };
}

pub(crate) use {accessors, linear, product, quantity};
