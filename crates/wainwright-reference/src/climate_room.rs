//! The room as a climate: films of its surfaces, sun on its skin, people in it, conditions and
//! limits, fixed openings, heating grades, cabinets.
//!
//! Not here: materials (`material`), weather, heat and air flows (engines).

use wainwright_units::{Airflow, Area, Length, Ratio, Temperature, ThermalConductivity};

use crate::id::ids;
use crate::mark::Sourced;
use crate::span::{Span, span};
use crate::store::{Topic, find, rows};

ids! {
    /// A film of air on a surface.
    Film {
        /// Inside, heat sideways.
        InsideWall = "inside-wall",
        /// Inside, heat upwards.
        InsideUp = "inside-up",
        /// Inside, heat downwards.
        InsideDown = "inside-down",
        /// Outside.
        Outside = "outside",
        /// Outside of a trailer under way.
        OutsideMoving = "outside-moving",
        /// Inside, for mould.
        InsideMould = "inside-mould",
    }
}

ids! {
    /// What sun and sky do to the skin.
    SkinSun {
        /// Absorbed share over the outer film of a light skin [m²K/W].
        Light = "light-skin",
        /// The same of a dark skin [m²K/W].
        Dark = "dark-skin",
        /// How much the open sky cools a roof [K].
        SkyRoof = "sky-roof",
        /// How much it cools a wall [K].
        SkyWall = "sky-wall",
    }
}

ids! {
    /// A figure of people.
    PeopleFigure {
        /// Water asleep [g/h].
        WaterAsleep = "water-asleep",
        /// Water sitting [g/h].
        WaterSitting = "water-sitting",
        /// Water active [g/h].
        WaterActive = "water-active",
        /// Water of cooking, while it lasts [g/h].
        WaterCooking = "water-cooking",
        /// Water of a shower, while it lasts [g/h].
        WaterShower = "water-shower",
        /// Heat that warms the air [W].
        HeatSensible = "heat-sensible",
        /// Heat in the water [W].
        HeatLatent = "heat-latent",
        /// Activity asleep, over rest.
        ActivityAsleep = "activity-asleep",
        /// Activity sitting, over rest.
        ActivitySitting = "activity-sitting",
        /// Carbon dioxide out over oxygen in.
        RespiratoryQuotient = "respiratory-quotient",
        /// Basal rate of a man of 30 to 40 [MJ/d].
        BasalMan = "basal-man",
        /// Basal rate of a woman of 30 to 40 [MJ/d].
        BasalWoman = "basal-woman",
        /// Carbon dioxide of a man of 30 to 40 at rest [L/s].
        Co2Man = "co2-man",
        /// Carbon dioxide of a woman of 30 to 40 at rest [L/s].
        Co2Woman = "co2-woman",
        /// Carbon dioxide of a man of 60 to 70 at rest [L/s].
        Co2ElderMan = "co2-elder-man",
        /// Carbon dioxide of a child of 6 to 11 at rest [L/s].
        Co2Child = "co2-child",
    }
}

ids! {
    /// A condition or limit without a unit of its own in the program.
    Design {
        /// Factor of a heater over what leaves, low end.
        WarmUpLow = "warm-up-factor-low",
        /// The same, high end.
        WarmUpHigh = "warm-up-factor-high",
        /// Heat of a volume of air [J/(m³·K)].
        AirHeat = "air-joules-per-m3-kelvin",
        /// Carbon dioxide of outside air [ppm].
        OutsideCo2 = "outside-co2-ppm",
        /// Carbon dioxide of good air [ppm].
        Co2Good = "co2-good-ppm",
        /// Most carbon dioxide [ppm].
        Co2Most = "co2-most-ppm",
        /// Water that runs off a surface which soaks up none [g/m²].
        RunOff = "run-off-grams-per-m2",
        /// Water of burnt propane [kg/kg].
        PropaneWater = "propane-water-kg-per-kg",
        /// Carbon dioxide of burnt propane [kg/kg].
        PropaneCo2 = "propane-co2-kg-per-kg",
        /// Oxygen that burning propane takes [kg/kg].
        PropaneOxygen = "propane-oxygen-kg-per-kg",
    }
}

ids! {
    /// A temperature to design for.
    DesignTemperature {
        /// Held by the heater.
        Heating = "heating-inside-celsius",
        /// Taken for damp.
        Damp = "damp-inside-celsius",
        /// Held by a cooler.
        Cooling = "cooling-inside-celsius",
    }
}

ids! {
    /// A relative humidity to design for.
    DesignHumidity {
        /// Of the room.
        Inside = "damp-inside-humidity",
        /// Highest at an inner surface.
        Surface = "surface-humidity",
    }
}

ids! {
    /// How freely an opening lets air through.
    Vent {
        /// Usual single openings.
        Usual = "usual",
        /// Small openings with sharp edges.
        SmallSharp = "small-sharp",
        /// Free share of a louvre or screen, low end.
        GrilleFreeLow = "grille-free-low",
        /// The same, high end.
        GrilleFreeHigh = "grille-free-high",
        /// Flow of a fan in place over its free flow.
        FanInPlace = "fan-in-place",
    }
}

ids! {
    /// What stands before an opening.
    Mesh {
        /// Screen of square bars.
        SquareScreen = "square_screen",
        /// Screen of round wire.
        RoundWire = "round_wire",
        /// Grille of square bars.
        SquareGrille = "square_grille",
    }
}

ids! {
    /// Skin of a closed cabinet.
    CabinetSkin {
        /// Painted steel.
        PaintedSteel = "painted-steel",
        /// Stainless steel.
        Stainless = "stainless",
        /// Aluminium.
        Aluminium = "aluminium",
        /// Plywood of 12 mm.
        Plywood = "plywood-12mm",
    }
}

ids! {
    /// What an opening of the box is closed with.
    Pane {
        /// One pane.
        Single = "single",
        /// Two panes with air between.
        Double = "double",
        /// Solid, as a door.
        Solid = "solid",
    }
}

/// What an opening lets through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PaneFigures {
    /// Heat, with the films of both sides [W/(m²K)].
    pub watts_per_m2_kelvin: f64,
    /// Share of the sun's light that heats the room.
    pub solar_gain: Ratio,
}

/// Free areas that stay open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FixedOpenings {
    /// High, in a wall.
    pub high: Area,
    /// High, in the roof.
    pub high_in_roof: Area,
    /// Low.
    pub low: Area,
}

/// A C-stud of the published wall equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StudRow {
    /// Spacing.
    pub spacing: Length,
    /// Thickness of the metal.
    pub sheet: Length,
    /// Coefficients of the zone's width.
    pub coefficients: [f64; 6],
    /// Conductivity of the metal.
    pub conductivity: ThermalConductivity,
}

/// Btu·in/(h·ft²·°F) in W/(m·K) (exact conversion).
const IMPERIAL_CONDUCTIVITY: f64 = 0.144_227_9;

/// Resistance of a film [m²K/W].
pub fn film(film: Film) -> Option<Sourced<f64>> {
    value(Topic::RoomFilms, "film", film.id())
}

/// What sun and sky do to the skin, in the unit of the figure.
pub fn skin_sun(figure: SkinSun) -> Option<Sourced<f64>> {
    value(Topic::RoomSun, "id", figure.id())
}

/// A figure of people, in its unit.
pub fn people(figure: PeopleFigure) -> Option<Sourced<Span<f64>>> {
    span(find(Topic::RoomPeople, "id", figure.id())?, |value| value)
}

/// A condition or limit, in its unit.
pub fn design(figure: Design) -> Option<Sourced<f64>> {
    value(Topic::RoomDesign, "id", figure.id())
}

/// A temperature to design for.
pub fn design_temperature(figure: DesignTemperature) -> Option<Sourced<Temperature>> {
    Some(value(Topic::RoomDesign, "id", figure.id())?.map(Temperature::from_celsius))
}

/// A relative humidity to design for.
pub fn design_humidity(figure: DesignHumidity) -> Option<Sourced<Ratio>> {
    Some(value(Topic::RoomDesign, "id", figure.id())?.map(Ratio::from_fraction))
}

/// Fresh air for each sleeper.
pub fn sleeper_air() -> Option<Sourced<Airflow>> {
    let litres = value(Topic::RoomDesign, "id", "sleeping-litres-per-second")?;
    Some(litres.map(Airflow::from_litres_per_second))
}

/// Outside temperature at which a heating grade holds its inside temperature; none for grade 1.
pub fn heating_grade(grade: u32) -> Option<Sourced<(Temperature, Temperature)>> {
    let row = find(Topic::RoomHeatingGrades, "grade", &grade.to_string())?;
    let celsius = |column| Some(Temperature::from_celsius(row.number(column)?));
    Some(row.sourced((celsius("inside_celsius")?, celsius("outside_celsius")?)))
}

/// Highest mean U of a heating grade [W/(m²K)], where one is known.
pub fn heating_grade_most_u(grade: u32) -> Option<Sourced<f64>> {
    let id = if grade == 1 {
        "1".to_owned()
    } else {
        format!("{grade}-insulation")
    };
    find(Topic::RoomHeatingGrades, "grade", &id)?.quantity("most_u", |value| value)
}

/// Fixed openings of a room with a plan area, with or without flames that take air from it; none
/// where the rule names no figure.
pub fn fixed_openings(plan: Area, flames: bool) -> Option<Sourced<FixedOpenings>> {
    let word = if flames { "yes" } else { "no" };
    let fits = |up_to: f64| plan.square_metres() <= up_to + 1e-9;
    let row = rows(Topic::RoomOpenings).find(|row| {
        row.text("flames") == Some(word) && row.number("plan_up_to").is_some_and(fits)
    })?;
    let area = |column| Some(Area::from_square_metres(row.number(column)? * 1e-4));
    Some(row.sourced(FixedOpenings {
        high: area("high_cm2")?,
        high_in_roof: area("high_in_roof_cm2")?,
        low: area("low_cm2")?,
    }))
}

/// What an opening lets through.
pub fn pane(pane: Pane) -> Option<Sourced<PaneFigures>> {
    let row = find(Topic::RoomPanes, "pane", pane.id())?;
    Some(row.sourced(PaneFigures {
        watts_per_m2_kelvin: row.number("u")?,
        solar_gain: Ratio::from_fraction(row.number("solar_gain")?),
    }))
}

/// How freely an opening lets air through.
pub fn vent(vent: Vent) -> Option<Sourced<Ratio>> {
    Some(value(Topic::RoomVents, "id", vent.id())?.map(Ratio::from_fraction))
}

/// Loss of a mesh by its open share, straight between the rows in logarithms; none outside them.
pub fn mesh_loss(mesh: Mesh, open: Ratio) -> Option<Sourced<f64>> {
    let table: Vec<_> = rows(Topic::RoomMesh)
        .filter_map(|row| Some((row, row.number("open")?, row.number(mesh.id())?)))
        .collect();
    let wanted = open.fraction();
    table.windows(2).find_map(|two| {
        let [(row, from, high), (_, to, low)] = two else {
            return None;
        };
        let share = (wanted - from) / (to - from);
        (-1e-9..=1.0 + 1e-9)
            .contains(&share)
            .then(|| row.sourced((high.ln() + share * (low.ln() - high.ln())).exp()))
    })
}

/// Heat through the skin of a closed cabinet [W/(m²K)].
pub fn cabinet_skin(skin: CabinetSkin) -> Option<Sourced<f64>> {
    value(Topic::RoomCabinetSkin, "skin", skin.id())
}

/// Every C-stud of the published wall equation.
pub fn studs() -> Vec<Sourced<StudRow>> {
    rows(Topic::RoomStudZone)
        .filter_map(|row| {
            let coefficient = |column| row.number(column);
            Some(row.sourced(StudRow {
                spacing: Length::from_inches(row.number("spacing_in")?),
                sheet: Length::from_inches(row.number("mil")? / 1000.0),
                coefficients: [
                    coefficient("c0")?,
                    coefficient("c1")?,
                    coefficient("c2")?,
                    coefficient("c3")?,
                    coefficient("c4")?,
                    coefficient("c5")?,
                ],
                conductivity: ThermalConductivity::from_watts_per_kelvin_metre(
                    row.number("conductivity")? * IMPERIAL_CONDUCTIVITY,
                ),
            }))
        })
        .collect()
}

fn value(topic: Topic, column: &str, id: &str) -> Option<Sourced<f64>> {
    find(topic, column, id)?.quantity("value", |value| value)
}
