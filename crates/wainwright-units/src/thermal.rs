//! Thermal quantities: temperature, its differences, heat per length, resistivity, conductivity.

use crate::definition::{Definition, Refused, Show, Step, Unit};
use crate::quantity::{linear, quantity};

quantity! {
    /// Temperature on the Celsius scale. Base unit degree Celsius [°C].
    Temperature, "temperature", from_celsius, celsius, "degrees Celsius",
    legal -90.0 to 1200.0, examples ["80 °F", "-5 °C", "105 C"], TEMPERATURE
}
quantity! {
    /// Difference of two temperatures. Base unit kelvin \[K\].
    TemperatureDifference, "temperature difference", from_kelvins, kelvins, "kelvins",
    legal -1000.0 to 1000.0, examples ["10 K", "10 °C", "18 °F"], TEMPERATURE_DIFFERENCE
}
quantity! {
    /// Heat given off per length of wire. Base unit watt per metre \[W/m\].
    LineHeat, "heat per length", from_watts_per_metre, watts_per_metre, "watts per metre",
    legal 0.0 to 100_000.0, examples ["3 W/m", "1 W/ft"], LINE_HEAT
}
quantity! {
    /// Thermal resistivity of a material. Base unit kelvin metre per watt [K·m/W].
    ThermalResistivity, "thermal resistivity", from_kelvin_metres_per_watt,
    kelvin_metres_per_watt, "kelvin metres per watt",
    legal 0.001 to 1000.0, examples ["3.5 K·m/W", "5 K m/W"], THERMAL_RESISTIVITY
}
quantity! {
    /// Thermal conductivity of a material. Base unit watt per kelvin and metre [W/(K·m)].
    ThermalConductivity, "thermal conductivity", from_watts_per_kelvin_metre,
    watts_per_kelvin_metre, "watts per kelvin metre",
    legal 0.001 to 1000.0, examples ["0.03 W/(m·K)", "0.03 W/mK"], THERMAL_CONDUCTIVITY
}

linear!(
    TemperatureDifference,
    LineHeat,
    ThermalResistivity,
    ThermalConductivity
);

impl Temperature {
    /// From a number of degrees Fahrenheit, unchecked.
    #[must_use]
    pub const fn from_fahrenheit(value: f64) -> Self {
        Temperature((value - 32.0) * 5.0 / 9.0)
    }

    /// Number of degrees Fahrenheit.
    #[must_use]
    pub const fn fahrenheit(self) -> f64 {
        self.0 * 9.0 / 5.0 + 32.0
    }

    /// Absolute temperature \[K\].
    #[must_use]
    pub const fn kelvins_absolute(self) -> f64 {
        self.0 + 273.15
    }
}

impl std::ops::Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Temperature) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}

impl std::ops::Add<TemperatureDifference> for Temperature {
    type Output = Temperature;
    fn add(self, rise: TemperatureDifference) -> Temperature {
        Temperature(self.0 + rise.0)
    }
}

impl std::ops::Sub<TemperatureDifference> for Temperature {
    type Output = Temperature;
    fn sub(self, fall: TemperatureDifference) -> Temperature {
        Temperature(self.0 - fall.0)
    }
}

impl ThermalConductivity {
    /// The resistivity of the same material, which is the reciprocal.
    #[must_use]
    pub const fn resistivity(self) -> ThermalResistivity {
        ThermalResistivity(1.0 / self.0)
    }
}

impl ThermalResistivity {
    /// The conductivity of the same material, which is the reciprocal.
    #[must_use]
    pub const fn conductivity(self) -> ThermalConductivity {
        ThermalConductivity(1.0 / self.0)
    }
}

static TEMPERATURE: Definition = Definition {
    units: &[
        Unit::new(
            &[
                "°C",
                "C",
                "° C",
                "deg C",
                "degree C",
                "degrees C",
                "Celsius",
                "deg Celsius",
                "degrees Celsius",
            ],
            1.0,
            1.0,
        ),
        Unit::new(
            &[
                "°F",
                "F",
                "° F",
                "deg F",
                "degree F",
                "degrees F",
                "Fahrenheit",
                "deg Fahrenheit",
                "degrees Fahrenheit",
            ],
            5.0,
            9.0,
        )
        .zero_at(32.0)
        .thousands(),
    ],
    refused: &[
        Refused {
            spellings: &["°", "deg", "degrees", "degree"],
            hint: "say which degrees: `°F` or `°C`",
        },
        Refused {
            spellings: &["K", "kelvin", "kelvins"],
            hint: "subtract 273.15 and type `°C`",
        },
    ],
    bare_up_to: None,
    us: Show::Steps(&[Step::decimals(0.0, "°F", 1)]),
    metric: Show::Steps(&[Step::decimals(0.0, "°C", 1)]),
};

static TEMPERATURE_DIFFERENCE: Definition = Definition::same_in_both(
    &[
        Unit::new(&["K", "kelvin", "kelvins"], 1.0, 1.0),
        Unit::new(
            &["°C", "C", "° C", "deg C", "degrees C", "Celsius"],
            1.0,
            1.0,
        ),
        Unit::new(
            &["°F", "F", "° F", "deg F", "degrees F", "Fahrenheit"],
            5.0,
            9.0,
        ),
    ],
    &[Step::digits(0.0, "K", 3)],
);

static LINE_HEAT: Definition = Definition::same_in_both(
    &[
        Unit::new(
            &["W/m", "watt/m", "watts/m", "W/metre", "W/meter"],
            1.0,
            1.0,
        ),
        Unit::new(&["W/ft", "watt/ft", "watts/ft"], 10_000.0, 3048.0),
    ],
    &[Step::digits(0.0, "W/m", 3)],
);

static THERMAL_RESISTIVITY: Definition = Definition::same_in_both(
    &[Unit::new(&["K·m/W", "m·K/W", "°C·m/W", "m·°C/W"], 1.0, 1.0)],
    &[Step::digits(0.0, "K·m/W", 3)],
);

static THERMAL_CONDUCTIVITY: Definition = Definition::same_in_both(
    &[Unit::new(
        &[
            "W/(m·K)",
            "W/(K·m)",
            "W/mK",
            "W/Km",
            "W/m/K",
            "W/K/m",
            "W/(m·°C)",
            "W/m°C",
        ],
        1.0,
        1.0,
    )],
    &[Step::digits(0.0, "W/(m·K)", 3)],
);
