//! The tables that are built into the program.
//!
//! Here: the one list of data files, their loading, the list of all sources and the page made from it. Not here: what the
//! tables mean (topic modules).

use std::fmt::Write as _;
use std::sync::OnceLock;

use crate::mark::Source;
use crate::table::{LoadError, Row, Table, load};

macro_rules! topics {
    ($($variant:ident = $name:literal,)+) => {
        /// One variant per data file.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub(crate) enum Topic { $($variant,)+ }

        /// Name and text of every data file, in the order of [`Topic`].
        const FILES: &[(&str, &str)] = &[
            $(($name, include_str!(concat!("../data/", $name, ".csv"))),)+
        ];
    };
}

topics! {
    AmpacityAircraftBundle = "ampacity/aircraft_bundle",
    AmpacityAmbient75 = "ampacity/ambient_75",
    AmpacityBoat = "ampacity/boat",
    AmpacityBundle = "ampacity/bundle",
    AmpacityCrossLinkGuide = "ampacity/cross_link_guide",
    AmpacityFreeAir = "ampacity/free_air",
    AmpacityHotSpace = "ampacity/hot_space",
    AmpacityMetric = "ampacity/metric",
    AmpacityRaceway = "ampacity/raceway",
    AmpacityRacewayCount = "ampacity/raceway_count",
    AmpacityRacewayOvercurrent = "ampacity/raceway_overcurrent",
    AmpacityRvOvercurrent = "ampacity/rv_overcurrent",
    AmpacityThermalInsulation = "ampacity/thermal_insulation",
    BatteryBoards = "battery/boards",
    BatteryCellAgeing = "battery_cell/ageing",
    BatteryCellCapacity = "battery_cell/capacity",
    BatteryCellChargeBands = "battery_cell/charge_bands",
    BatteryCellConstants = "battery_cell/constants",
    BatteryCellLeadAcid = "battery_cell/lead_acid",
    BatteryChargeMargins = "battery/charge_margins",
    BatteryChargeProfile = "battery/charge_profile",
    BatteryChargeRates = "battery/charge_rates",
    BatteryChemistry = "battery/chemistry",
    BatteryLfpOpenCircuit = "battery/lfp_open_circuit",
    BatteryLfpResistance = "battery/lfp_resistance",
    BatteryShortCircuit = "battery/short_circuit",
    BoxTrailers = "box/trailers",
    ClimateConstants = "climate/constants",
    ClimateDefault = "climate/default",
    ClimateMonths = "climate/months",
    ClimateSites = "climate/sites",
    ClimateTurbidity = "climate/turbidity",
    ColourConductors = "colour/conductors",
    ConductorAdiabaticK = "conductor/adiabatic_k",
    ConductorAircraft = "conductor/aircraft",
    ConductorAwgCoated = "conductor/awg_coated",
    ConductorAwgDefinition = "conductor/awg_definition",
    ConductorAwgSolid = "conductor/awg_solid",
    ConductorAwgUncoated = "conductor/awg_uncoated",
    ConductorClass5 = "conductor/class5",
    ConductorClass5Diameter = "conductor/class5_diameter",
    ConductorConstants = "conductor/constants",
    ConductorResistance20 = "conductor/resistance_20",
    ConductorSae = "conductor/sae",
    ConductorSaeDiameter = "conductor/sae_diameter",
    CostHardware = "cost/hardware",
    CostJoint = "cost/joint",
    CostProtection = "cost/protection",
    CostWireAwg = "cost/wire_awg",
    CostWireMetric = "cost/wire_metric",
    CostWork = "cost/work",
    DeviceClasses = "device/classes",
    DeviceInverterCurve = "device/inverter_curve",
    DeviceInverterIdle = "device/inverter_idle",
    FastenerNailing = "fastener/nailing",
    FastenerShares = "fastener/shares",
    HouseholdConstants = "household/constants",
    HouseholdFridges = "household/fridges",
    HouseholdHours = "household/hours",
    HouseholdLoads = "household/loads",
    HouseholdPresets = "household/presets",
    HouseholdShape = "household/shape",
    InsulationClasses = "insulation/classes",
    InsulationMaterials = "insulation/materials",
    InsulationNames = "insulation/names",
    InsulationWalls = "insulation/walls",
    JointDrop = "joint/drop",
    JointHeat = "joint/heat",
    JointResistance = "joint/resistance",
    LawBrakes = "law/brakes",
    LawStops = "law/stops",
    LimitLengths = "limit/lengths",
    LimitRatios = "limit/ratios",
    LimitSizes = "limit/sizes",
    LugColour = "lug/colour",
    LugConnections = "lug/connections",
    LugRange = "lug/range",
    LugStuds = "lug/studs",
    LumberDensity = "lumber/density",
    LumberGreen = "lumber/green",
    LumberLaying = "lumber/laying",
    LumberMovement = "lumber/movement",
    LumberPatterns = "lumber/patterns",
    LumberPlywood = "lumber/plywood",
    LumberSheets = "lumber/sheets",
    LumberThickness = "lumber/thickness",
    LumberWaste = "lumber/waste",
    LumberWidth = "lumber/width",
    MaterialDensity = "material/density",
    MaterialEmissivity = "material/emissivity",
    MaterialHeat = "material/heat",
    MaterialSheet = "material/sheet",
    MaterialVapour = "material/vapour",
    MaterialWarmth = "material/warmth",
    PlanBars = "plan/bars",
    PlanBend = "plan/bend",
    PlanDensity = "plan/density",
    PlanEnds = "plan/ends",
    PlanHolders = "plan/holders",
    PlanMainFuse = "plan/main_fuse",
    PlanShares = "plan/shares",
    PositionInterruptMinimum = "position/interrupt_minimum",
    PositionLargeBank = "position/large_bank",
    PositionUnfused = "position/unfused",
    ProtectionCold = "protection/cold",
    ProtectionColdRule = "protection/cold_rule",
    ProtectionColours = "protection/colours",
    ProtectionColoursLarge = "protection/colours_large",
    ProtectionFamilies = "protection/families",
    ProtectionGates = "protection/gates",
    ProtectionHot = "protection/hot",
    ProtectionHotPlace = "protection/hot_place",
    ProtectionInterrupt = "protection/interrupt",
    ProtectionRatings = "protection/ratings",
    RoadConstants = "road/constants",
    RoadDrag = "road/drag",
    RoadFuel = "road/fuel",
    RoadRolling = "road/rolling",
    RoomCabinetSkin = "room/cabinet_skin",
    RoomDesign = "room/design",
    RoomFilms = "room/films",
    RoomHeatingGrades = "room/heating_grades",
    RoomMesh = "room/mesh",
    RoomOpenings = "room/openings",
    RoomPanes = "room/panes",
    RoomPeople = "room/people",
    RoomStudZone = "room/stud_zone",
    RoomSun = "room/sun",
    RoomVents = "room/vents",
    SecuringBolts = "securing/bolts",
    SecuringFriction = "securing/friction",
    SecuringProfiles = "securing/profiles",
    SecuringScrews = "securing/screws",
    SecuringShares = "securing/shares",
    SecuringStressArea = "securing/stress_area",
    SecuringWebbing = "securing/webbing",
    SecuringWood = "securing/wood",
    SolarConstants = "solar/constants",
    SurroundingsFoam = "surroundings/foam",
    SurroundingsTemperatures = "surroundings/temperatures",
    TowingAdvice = "towing/advice",
    TowingHeights = "towing/heights",
    TowingHitchClasses = "towing/hitch_classes",
    TowingLimits = "towing/limits",
    TowingSway = "towing/sway",
    TowingTongue = "towing/tongue",
    TowingVertical = "towing/vertical",
    TyreConstants = "tyre/constants",
    TyreCornering = "tyre/cornering",
    TyreLoadIndex = "tyre/load_index",
    VehicleConstants = "vehicle/constants",
    VehicleFigures = "vehicle/figures",
    WaterConstants = "water/constants",
    WeatherChains = "weather/chains",
}

struct Store {
    tables: Vec<Option<Table>>,
    errors: Vec<LoadError>,
}

/// Every table that loaded, in a fixed order.
pub fn tables() -> impl Iterator<Item = &'static Table> {
    store().tables.iter().flatten()
}

/// Every distinct source of every table, in a fixed order.
pub fn sources() -> Vec<&'static Source> {
    tables().flat_map(|table| table.sources()).collect()
}

/// The tables that were refused; empty in every released build, because a test says so.
pub fn load_errors() -> &'static [LoadError] {
    &store().errors
}

/// The page that lists every table with its sources and marks.
pub fn sources_markdown() -> String {
    let mut page = String::from(PAGE_HEAD);
    for table in tables() {
        section(&mut page, table);
    }
    page
}

/// The rows of one table.
pub(crate) fn rows(topic: Topic) -> impl Iterator<Item = Row> {
    table(topic).into_iter().flat_map(Table::rows)
}

/// The first row of a table whose cell in `column` is `text`.
pub(crate) fn find(topic: Topic, column: &str, text: &str) -> Option<Row> {
    table(topic)?.find(column, text)
}

const PAGE_HEAD: &str = "# Sources of the published numbers\n\n\
Generated from the data files; do not edit. Marks: `read` = read in a retrieved copy or a page that quotes it; \
`derived` = computed from other rows; `memory` = known but not yet verified; `judgement` = a default of this project.\n";

fn table(topic: Topic) -> Option<&'static Table> {
    store().tables.get(topic as usize)?.as_ref()
}

fn store() -> &'static Store {
    static STORE: OnceLock<Store> = OnceLock::new();
    STORE.get_or_init(|| {
        let mut store = Store {
            tables: Vec::new(),
            errors: Vec::new(),
        };
        for (name, text) in FILES {
            match load(name, text) {
                Ok(table) => store.tables.push(Some(table)),
                Err(error) => {
                    store.errors.push(error);
                    store.tables.push(None);
                }
            }
        }
        store
    })
}

fn section(page: &mut String, table: &Table) {
    let units = table.head("units").unwrap_or_default();
    // Writing to a String cannot fail.
    let _ = write!(page, "\n## {}\n\nUnits: {units}.\n", table.name());
    if let Some(note) = table.head("note") {
        let _ = writeln!(page, "\n{note}");
    }
    page.push_str("\n| document | edition | place | mark | rows |\n|--|--|--|--|--|\n");
    for (index, source) in table.sources().iter().enumerate() {
        let _ = writeln!(
            page,
            "| {} | {} | {} | {} | {} |",
            source.document,
            source.edition,
            source.place,
            source.mark,
            table.rows_of(index)
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_table_loads() {
        assert_eq!(load_errors(), &[]);
        assert_eq!(tables().count(), FILES.len());
    }

    #[test]
    fn every_row_is_covered_by_the_page_of_sources() {
        let page = sources_markdown();
        for source in sources() {
            assert!(page.contains(&source.document), "{}", source.id);
        }
        let listed = page
            .lines()
            .filter(|line| line.starts_with("| ") && !line.contains("| document |"));
        assert_eq!(listed.count(), sources().len());
    }

    #[test]
    fn source_ids_are_distinct() {
        let mut ids: Vec<&str> = sources().iter().map(|source| source.id.as_str()).collect();
        let count = ids.len();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), count);
    }
}
