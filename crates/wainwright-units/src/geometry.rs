//! Length, area, volume and angle. Not here: points and vectors (`frame`).

use crate::definition::{Definition, Refused, Show, Step, Unit};
use crate::quantity::{accessors, linear, quantity};

quantity! {
    /// Length or coordinate, so it may be negative. Base unit metre \[m\].
    Length, "length", from_metres, metres, "metres",
    legal -100.0 to 100.0, examples ["7' 3-5/8\"", "12 ft 6 in", "650 mm", "1.2 m"], LENGTH
}
quantity! {
    /// Area of a surface. Base unit square metre \[m²\].
    Area, "area", from_square_metres, square_metres, "square metres",
    legal 0.0 to 1000.0, examples ["1.8 m2", "20 sq ft", "300 cm²"], AREA
}
quantity! {
    /// Volume. Base unit litre \[L\].
    Volume, "volume", from_litres, litres, "litres",
    legal 0.0 to 2000.0, examples ["40 gal", "120 L"], VOLUME
}
quantity! {
    /// Plane angle. Base unit degree [°].
    Angle, "angle", from_degrees, degrees, "degrees",
    legal -360.0 to 360.0, examples ["45°", "15 deg"], ANGLE
}

quantity! {
    /// Height over the sea. Base unit metre [m].
    Altitude, "altitude", from_metres, metres, "metres",
    legal -500.0 to 9000.0, examples ["5280 ft", "1600 m"], ALTITUDE
}

linear!(Length, Area, Volume, Angle, Altitude);

accessors! {
    Length:
    from_millimetres, millimetres, "millimetres", 1.0, 1000.0;
    from_inches, inches, "inches", 254.0, 10_000.0;
    from_feet, feet, "feet", 3048.0, 10_000.0;
}
accessors! { Volume: from_gallons, gallons, "US gallons", 3.785_411_784, 1.0; }
accessors! { Angle: from_radians, radians, "radians", 180.0, std::f64::consts::PI; }

static LENGTH: Definition = Definition {
    units: &[
        Unit::new(&["m", "metre", "metres", "meter", "meters"], 1.0, 1.0).grouped(2),
        Unit::new(
            &[
                "mm",
                "millimetre",
                "millimetres",
                "millimeter",
                "millimeters",
            ],
            1.0,
            1000.0,
        )
        .grouped(2)
        .thousands(),
        Unit::new(
            &[
                "cm",
                "centimetre",
                "centimetres",
                "centimeter",
                "centimeters",
            ],
            1.0,
            100.0,
        )
        .grouped(2)
        .thousands(),
        Unit::new(&["ft", "'", "foot", "feet"], 3048.0, 10_000.0).grouped(1),
        Unit::new(&["in", "\"", "inch", "inches"], 254.0, 10_000.0).grouped(1),
        Unit::new(&["yd", "yard", "yards"], 9144.0, 10_000.0).thousands(),
    ],
    refused: &[Refused {
        spellings: &["mil", "mils"],
        hint: "type thousandths of an inch as `0.012 in`",
    }],
    bare_up_to: None,
    us: Show::FeetAndInches,
    metric: Show::Steps(&[Step::decimals(1.0, "m", 3), Step::digits(0.0, "mm", 3)]),
};

const AREA_STEPS: &[Step] = &[
    Step::digits(0.1, "m²", 4),
    Step::digits(1e-4, "cm²", 4),
    Step::digits(0.0, "mm²", 3),
];

static AREA: Definition = Definition::same_in_both(
    &[
        Unit::new(
            &[
                "m²",
                "m2",
                "sq m",
                "square metre",
                "square metres",
                "square meters",
            ],
            1.0,
            1.0,
        ),
        Unit::new(&["cm²", "cm2", "sq cm"], 1.0, 1e4).thousands(),
        Unit::new(&["mm²", "mm2", "sq mm"], 1.0, 1e6).thousands(),
        Unit::new(
            &["ft²", "ft2", "sq ft", "square feet", "square foot"],
            0.092_903_04,
            1.0,
        )
        .thousands(),
        Unit::new(
            &["in²", "in2", "sq in", "square inches", "square inch"],
            0.000_645_16,
            1.0,
        )
        .thousands(),
    ],
    AREA_STEPS,
);

static VOLUME: Definition = Definition {
    units: &[
        Unit::new(&["L", "litre", "litres", "liter", "liters"], 1.0, 1.0),
        Unit::new(
            &[
                "mL",
                "millilitre",
                "millilitres",
                "milliliter",
                "milliliters",
            ],
            1.0,
            1000.0,
        )
        .thousands(),
        Unit::new(
            &["gal", "gals", "gallon", "gallons", "US gal"],
            3.785_411_784,
            1.0,
        )
        .thousands(),
        Unit::new(&["qt", "quart", "quarts"], 0.946_352_946, 1.0).thousands(),
        Unit::new(
            &["fl oz", "fluid ounce", "fluid ounces"],
            0.029_573_529_562_5,
            1.0,
        )
        .thousands(),
        Unit::new(&["m³", "m3", "cubic metre", "cubic metres"], 1000.0, 1.0),
        Unit::new(
            &["ft³", "ft3", "cu ft", "cubic feet", "cubic foot"],
            28.316_846_592,
            1.0,
        )
        .thousands(),
    ],
    refused: &[Refused {
        spellings: &["oz", "ounce", "ounces"],
        hint: "oz is a mass; type fluid ounces as `fl oz`",
    }],
    bare_up_to: None,
    us: Show::Steps(&[Step::digits(0.9, "gal", 4), Step::digits(0.0, "fl oz", 3)]),
    metric: Show::Steps(&[Step::digits(1.0, "L", 4), Step::digits(0.0, "mL", 3)]),
};

const ANGLE_STEPS: &[Step] = &[Step::digits(0.0, "°", 4)];

static ANGLE: Definition = Definition::same_in_both(
    &[
        Unit::new(&["°", "deg", "degree", "degrees"], 1.0, 1.0),
        Unit::new(&["rad", "radian", "radians"], 180.0, std::f64::consts::PI),
    ],
    ANGLE_STEPS,
);

static ALTITUDE: Definition = Definition {
    units: &[
        Unit::new(&["m", "metre", "metres", "meter", "meters"], 1.0, 1.0),
        Unit::new(&["ft", "foot", "feet", "'"], 0.3048, 1.0),
    ],
    refused: &[],
    bare_up_to: None,
    us: Show::Steps(&[Step::digits(0.0, "ft", 4)]),
    metric: Show::Steps(&[Step::digits(0.0, "m", 4)]),
};
