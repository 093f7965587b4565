//! Electrical quantities: voltage, current, resistance, power, charge, energy, resistance per
//! length, and the metal cross-section of a conductor. Not here: named wire sizes (`wire_size`).

use crate::definition::{Definition, Refused, Step, Unit};
use crate::quantity::{accessors, linear, quantity};

quantity! {
    /// Electric potential difference. Base unit volt \[V\].
    Voltage, "voltage", from_volts, volts, "volts",
    legal 0.0 to 1000.0, examples ["12.8 V", "230 V", "50 mV"], VOLTAGE
}
quantity! {
    /// Electric current. Base unit ampere \[A\].
    Current, "current", from_amperes, amperes, "amperes",
    legal 0.0 to 100_000.0, examples ["15 A", "500 mA", "20 kA"], CURRENT
}
quantity! {
    /// Electric resistance. Base unit ohm \[Ω\].
    Resistance, "resistance", from_ohms, ohms, "ohms",
    legal 0.0 to 1_000_000.0, examples ["3.5 mΩ", "0.2 ohm", "10 kΩ"], RESISTANCE
}
quantity! {
    /// Real power. Base unit watt \[W\].
    Power, "power", from_watts, watts, "watts",
    legal 0.0 to 100_000.0, examples ["60 W", "2 kW"], POWER
}
quantity! {
    /// Electric charge, as batteries are rated. Base unit ampere hour \[Ah\]. Not energy.
    Charge, "charge", from_ampere_hours, ampere_hours, "ampere hours",
    legal 0.0 to 10_000.0, examples ["100 Ah", "2500 mAh"], CHARGE
}
quantity! {
    /// Energy. Base unit watt hour \[Wh\]. Not charge.
    Energy, "energy", from_watt_hours, watt_hours, "watt hours",
    legal 0.0 to 1_000_000.0, examples ["1280 Wh", "3.6 kWh"], ENERGY
}
quantity! {
    /// Resistance of a conductor per length of it. Base unit ohm per metre [Ω/m].
    LineResistance, "resistance per length", from_ohms_per_metre, ohms_per_metre, "ohms per metre",
    legal 0.0 to 1000.0, examples ["3.3 mΩ/m", "1.2 ohm/kft", "1.91 Ω/km"], LINE_RESISTANCE
}
quantity! {
    /// Metal cross-section of a conductor. Base unit square millimetre \[mm²\].
    CrossSection, "cross-section", from_square_millimetres, square_millimetres,
    "square millimetres",
    legal 0.001 to 2000.0, examples ["16 mm2", "2.5 mm²", "250 kcmil"], CROSS_SECTION
}

linear!(
    Voltage,
    Current,
    Resistance,
    Power,
    Charge,
    Energy,
    LineResistance,
    CrossSection
);

accessors! { Voltage: from_millivolts, millivolts, "millivolts", 1.0, 1000.0; }
accessors! { Current: from_milliamperes, milliamperes, "milliamperes", 1.0, 1000.0; }
accessors! { Resistance: from_milliohms, milliohms, "milliohms", 1.0, 1000.0; }
accessors! { Power: from_kilowatts, kilowatts, "kilowatts", 1000.0, 1.0; }
accessors! { Energy: from_kilowatt_hours, kilowatt_hours, "kilowatt hours", 1000.0, 1.0; }
accessors! {
    LineResistance:
    from_milliohms_per_metre, milliohms_per_metre, "milliohms per metre", 1.0, 1000.0;
    from_ohms_per_thousand_feet, ohms_per_thousand_feet, "ohms per thousand feet", 1.0, 304.8;
}

/// One circular mil is the area of a circle one thousandth of an inch across \[mm²\]:
/// π/4 · 0.0254².
pub(crate) const SQUARE_MILLIMETRES_PER_CIRCULAR_MIL: f64 =
    std::f64::consts::FRAC_PI_4 * 0.0254 * 0.0254;

accessors! {
    CrossSection:
    from_circular_mils, circular_mils, "circular mils", SQUARE_MILLIMETRES_PER_CIRCULAR_MIL, 1.0;
}

const POWER_IS_W: &str = "a power in watts divided by the voltage gives the current in A";

static VOLTAGE: Definition = Definition::same_in_both(
    &[
        Unit::new(
            &["V", "volt", "volts", "VDC", "VAC", "V DC", "V AC"],
            1.0,
            1.0,
        ),
        Unit::new(&["mV", "millivolt", "millivolts"], 1.0, 1000.0)
            .thousands()
            .prefixed_m(),
        Unit::new(&["kV", "kilovolt", "kilovolts"], 1000.0, 1.0),
    ],
    &[Step::digits(0.1, "V", 4), Step::digits(0.0, "mV", 3)],
);

static CURRENT: Definition = Definition::same_in_both(
    &[
        Unit::new(&["A", "amp", "amps", "ampere", "amperes"], 1.0, 1.0),
        Unit::new(
            &["mA", "milliamp", "milliamps", "milliampere", "milliamperes"],
            1.0,
            1000.0,
        )
        .thousands()
        .prefixed_m(),
        Unit::new(
            &["kA", "kiloamp", "kiloamps", "kiloampere", "kiloamperes"],
            1000.0,
            1.0,
        ),
    ],
    &[
        Step::digits(10_000.0, "kA", 4),
        Step::digits(0.1, "A", 3),
        Step::digits(0.0, "mA", 3),
    ],
)
.refusing(&[Refused {
    spellings: &["W", "watt", "watts", "kW"],
    hint: POWER_IS_W,
}]);

static RESISTANCE: Definition = Definition::same_in_both(
    &[
        Unit::new(&["Ω", "ohm", "ohms"], 1.0, 1.0),
        Unit::new(
            &["mΩ", "mohm", "mohms", "milliohm", "milliohms"],
            1.0,
            1000.0,
        )
        .thousands()
        .prefixed_m(),
        Unit::new(
            &[
                "µΩ",
                "uohm",
                "uohms",
                "microohm",
                "microohms",
                "microhm",
                "microhms",
            ],
            1.0,
            1e6,
        )
        .thousands(),
        Unit::new(
            &[
                "kΩ", "kohm", "kohms", "kiloohm", "kiloohms", "kilohm", "kilohms",
            ],
            1000.0,
            1.0,
        ),
    ],
    &[
        Step::digits(1000.0, "kΩ", 4),
        Step::digits(0.1, "Ω", 4),
        Step::digits(1e-4, "mΩ", 4),
        Step::digits(0.0, "µΩ", 3),
    ],
);

static POWER: Definition = Definition::same_in_both(
    &[
        Unit::new(&["W", "watt", "watts"], 1.0, 1.0).thousands(),
        Unit::new(&["kW", "kilowatt", "kilowatts"], 1000.0, 1.0),
        Unit::new(&["mW", "milliwatt", "milliwatts"], 1.0, 1000.0)
            .thousands()
            .prefixed_m(),
    ],
    &[
        Step::digits(1000.0, "kW", 4),
        Step::digits(0.1, "W", 3),
        Step::digits(0.0, "mW", 3),
    ],
)
.refusing(&[
    Refused {
        spellings: &["VA", "kVA", "volt-ampere", "volt-amperes", "volt-amps"],
        hint: "VA is apparent power; type the real power in W, which is VA times the power factor",
    },
    Refused {
        spellings: &["hp", "PS", "horsepower"],
        hint: "type the electrical power in W from the rating plate",
    },
    Refused {
        spellings: &["BTU", "BTU/h", "BTUh", "btu per hour"],
        hint: "type the electrical power in W from the rating plate; BTU/h is the heat moved",
    },
]);

static CHARGE: Definition = Definition::same_in_both(
    &[
        Unit::new(
            &["Ah", "amp hour", "amp hours", "ampere hour", "ampere hours"],
            1.0,
            1.0,
        )
        .thousands(),
        Unit::new(&["mAh", "milliamp hour", "milliamp hours"], 1.0, 1000.0)
            .thousands()
            .prefixed_m(),
    ],
    &[Step::digits(0.1, "Ah", 4), Step::digits(0.0, "mAh", 3)],
)
.refusing(&[Refused {
    spellings: &["Wh", "kWh", "watt hour", "watt hours"],
    hint: "Wh is energy; divide it by the battery's nominal voltage to get Ah",
}]);

static ENERGY: Definition = Definition::same_in_both(
    &[
        Unit::new(&["Wh", "watt hour", "watt hours"], 1.0, 1.0).thousands(),
        Unit::new(&["kWh", "kilowatt hour", "kilowatt hours"], 1000.0, 1.0),
        Unit::new(&["MJ", "megajoule", "megajoules"], 1000.0, 3.6).prefixed_m(),
        Unit::new(&["kJ", "kilojoule", "kilojoules"], 1.0, 3.6),
        Unit::new(&["J", "joule", "joules"], 1.0, 3600.0),
    ],
    &[Step::digits(10_000.0, "kWh", 4), Step::digits(0.0, "Wh", 4)],
)
.refusing(&[Refused {
    spellings: &["Ah", "mAh", "amp hour", "amp hours"],
    hint: "Ah is charge; multiply it by the battery's nominal voltage to get Wh",
}]);

static LINE_RESISTANCE: Definition = Definition::same_in_both(
    &[
        Unit::new(&["mΩ/m", "mohm/m", "milliohm/m"], 1.0, 1000.0).prefixed_m(),
        Unit::new(&["Ω/m", "ohm/m", "ohms/m"], 1.0, 1.0),
        Unit::new(&["Ω/km", "ohm/km", "ohms/km"], 1.0, 1000.0),
        Unit::new(
            &[
                "Ω/kft",
                "ohm/kft",
                "ohms/kft",
                "Ω/1000 ft",
                "ohm/1000 ft",
                "ohms/1000 ft",
            ],
            1.0,
            304.8,
        ),
        Unit::new(&["Ω/ft", "ohm/ft", "ohms/ft"], 10_000.0, 3048.0),
        Unit::new(&["mΩ/ft", "mohm/ft", "milliohm/ft"], 10.0, 3048.0).prefixed_m(),
    ],
    &[Step::digits(1.0, "Ω/m", 4), Step::digits(0.0, "mΩ/m", 4)],
);

static CROSS_SECTION: Definition = Definition::same_in_both(
    &[
        Unit::new(
            &[
                "mm²",
                "mm2",
                "sq mm",
                "square millimetres",
                "square millimeters",
            ],
            1.0,
            1.0,
        ),
        Unit::new(
            &["kcmil", "MCM"],
            1000.0 * SQUARE_MILLIMETRES_PER_CIRCULAR_MIL,
            1.0,
        ),
        Unit::new(
            &["cmil", "circular mil", "circular mils"],
            SQUARE_MILLIMETRES_PER_CIRCULAR_MIL,
            1.0,
        )
        .thousands(),
    ],
    &[Step::digits(0.0, "mm²", 4)],
)
.refusing(&[Refused {
    spellings: &["mm"],
    hint: "mm would be a diameter; type the metal area, for example `16 mm2`",
}]);
