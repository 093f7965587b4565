//! How warm the air of a cabinet gets, and openings or a fan against it. Not here: the heat of its devices (`heat`).

use super::{Built, board_conductivity};
use crate::circuit::Notes;
use crate::known::{Assumption, Known};
use crate::result::cabinet::{CabinetAirFound, CoolingFound, Situation};
use wainwright_engines::cabinet_air::{
    Cabinet, CabinetAir, Closed, Cooling, CountedAt, Size, Vents, cooling_area, fan_for_rise,
    opening_for_rise, rise,
};
use wainwright_engines::moist_air::{air_pressure, dry_air};
use wainwright_engines::refusal::Refusal;
use wainwright_model::{FieldExt, Id, Project, Side};
use wainwright_reference::climate::site;
use wainwright_reference::climate_room::{CabinetSkin, Vent, cabinet_skin, vent};
use wainwright_units::{Airflow, Area, Length, Power, Ratio, Temperature, TemperatureDifference};

/// Openings where nobody measured lie this share of its height apart (judgement).
const APART: f64 = 0.75;
/// Heat does not sit so high that openings stop working, share of the height between them.
const LEAST_HEIGHT: f64 = 0.2;
/// Thickness of the boards in the table of skins \[m\].
const BOARD_OF_TABLE: f64 = 0.012;
/// Rise that openings and fans are sized for.
const TEN: TemperatureDifference = TemperatureDifference::from_kelvins(10.0);
/// Largest opening and fan that are looked at.
const MOST_OPENING: Area = Area::from_square_metres(0.2);
const MOST_FAN: f64 = 500.0;
/// Nearer to a wall than this is against it \[m\].
const AGAINST: f64 = 0.05;

/// What is asked about the air.
pub(super) struct Asked {
    pub(super) situation: Situation,
    pub(super) heat: Power,
    pub(super) ambient: Known<Temperature>,
    pub(super) air: Option<CabinetAir>,
    pub(super) for_wires: Option<Temperature>,
    pub(super) limit: (Known<Temperature>, Option<Id>),
}

/// The air inside at a heat; `None` without a size.
pub(super) fn inside(
    built: &Built<'_>,
    ambient: &Known<Temperature>,
    heat: Power,
    notes: &mut Notes,
) -> Result<Option<CabinetAir>, Refusal> {
    let Some(cabinet) = cabinet(built, ambient.value, heat)? else {
        return Ok(None);
    };
    let typed = built.cabinet.opening_height.is_some();
    if let (Cooling::Openings(vents), false) = (cabinet.cooling, typed) {
        let project = built.project;
        let own = project.cabinets.iter();
        let id = own.filter(|(_, other)| std::ptr::eq(*other, built.cabinet));
        for (id, _) in id {
            let path = ["cabinet", id.as_str(), "opening_height"];
            notes.assume(&path, vents.height, Assumption::UsualForKind);
        }
    }
    rise(&cabinet).map(Some)
}

/// The cabinet as the engine takes it.
fn cabinet(
    built: &Built<'_>,
    ambient: Temperature,
    heat: Power,
) -> Result<Option<Cabinet>, Refusal> {
    if built.place.is_none() {
        return Ok(None);
    }
    let cooling = match cooling(built) {
        CoolingFound::Fan(airflow) => Cooling::Fan(airflow),
        CoolingFound::Closed => Cooling::Sealed,
        CoolingFound::Openings { low, high, height } => Cooling::Openings(vents(low, high, height)),
    };
    Ok(Some(Cabinet {
        heat,
        skin_watts_per_kelvin: skin(built)?,
        ambient,
        air: dry_air(pressure(built.project), ambient)?,
        cooling,
    }))
}

fn vents(low: Area, high: Area, height: Length) -> Vents {
    Vents {
        low,
        high,
        coefficient: vent(Vent::SmallSharp).map_or(Ratio::from_fraction(0.6), |row| row.value),
        height,
        counted_at: CountedAt::Leaving,
    }
}

/// What takes the heat out.
pub(super) fn cooling(built: &Built<'_>) -> CoolingFound {
    let given = built.cabinet;
    if let Some(fan) = given.fan_flow.value().filter(|fan| **fan > Airflow::ZERO) {
        return CoolingFound::Fan(*fan);
    }
    let open = |area: Option<&Area>| area.copied().filter(|area| *area > Area::ZERO);
    match (
        open(given.low_opening.value()),
        open(given.high_opening.value()),
    ) {
        (Some(low), Some(high)) => CoolingFound::Openings {
            low,
            high,
            height: height(built),
        },
        _ => CoolingFound::Closed,
    }
}

/// From the middle of the heat to the high openings: what stands high makes less air rise.
fn height(built: &Built<'_>) -> Length {
    let tall = built.place.map_or(Length::ZERO, |(_, size)| size.up);
    let apart = built.cabinet.opening_height.value().copied();
    let apart = apart.unwrap_or(tall * APART);
    let Some((spot, _)) = built.place else {
        return apart;
    };
    let middles = built
        .holds
        .iter()
        .filter(|(_, item)| warm(item))
        .filter_map(|(_, item)| {
            let (own, size) = (item.body.spot.value()?, item.body.size.value()?);
            Some((own.above_floor + size.up * 0.5 - spot.above_floor).metres())
        });
    let (count, sum) = middles.fold((0.0, 0.0), |(count, sum), at| (count + 1.0, sum + at));
    if count < 1.0 {
        return apart;
    }
    let low = 0.5 * (tall - apart).metres().max(0.0);
    let above = apart.metres() - (sum / count - low).max(0.0);
    Length::from_metres(above.max(LEAST_HEIGHT * apart.metres()).max(1e-3))
}

/// Whether an item is one of those whose heat counts.
fn warm(item: &wainwright_model::Item) -> bool {
    use wainwright_model::Kind;
    item.body.heat_loss.is_some()
        || matches!(
            item.spec.kind(),
            Kind::Inverter | Kind::ShoreCharger | Kind::DcdcCharger | Kind::SolarController
        )
}

/// Heat through the boards \[W/K\]: the back against a wall counts less, the floor nothing.
fn skin(built: &Built<'_>) -> Result<f64, Refusal> {
    let Some((spot, size)) = built.place else {
        return Ok(0.0);
    };
    let (width, depth) = match built.faces.value {
        Side::Front | Side::Rear => (size.across, size.along),
        _ => (size.along, size.across),
    };
    let trailer = &built.project.trailer;
    let near = |gap: f64| gap < AGAINST;
    let to_right = trailer.inside_width.value().map_or(1.0, |width| {
        (*width - spot.from_left - size.across).metres()
    });
    let back = match built.faces.value {
        Side::Right => near(spot.from_left.metres()),
        Side::Left => near(to_right),
        _ => true,
    };
    let size = Size {
        height: size.up,
        width,
        depth,
    };
    let closed = Closed {
        top: false,
        back,
        sides: 0,
    };
    Ok(cooling_area(&size, closed)?.square_metres() * board_u(built))
}

/// Heat through a board between two airs [W/(m²K)].
fn board_u(built: &Built<'_>) -> f64 {
    let of_table = cabinet_skin(CabinetSkin::Plywood).map_or(2.92, |row| row.value);
    let films = 1.0 / of_table - BOARD_OF_TABLE / board_conductivity();
    1.0 / (films + built.board.value.metres() / board_conductivity())
}

/// Pressure of the air where it is used \[Pa\]; sea level where no climate says a height.
fn pressure(project: &Project) -> f64 {
    let said = project.living.climate.value().map(String::as_str);
    let mut climates = project.climates.iter();
    let found = climates.find(|(id, _)| said.is_none_or(|said| id.as_str() == said));
    let altitude = found.and_then(|(_, climate)| {
        let typed = climate.altitude.value();
        let typed = typed.map(|altitude| Length::from_metres(altitude.metres()));
        typed.or_else(|| Some(site(climate.listed.value()?)?.value.altitude))
    });
    air_pressure(altitude.unwrap_or(Length::ZERO))
}

/// The air of a cabinet, and what openings or fans would do.
pub(super) fn found(
    built: &Built<'_>,
    asked: Asked,
    refuse: &mut impl FnMut(Refusal) -> Option<CabinetAir>,
) -> CabinetAirFound {
    let base = match cabinet(built, asked.ambient.value, asked.heat) {
        Ok(base) => base,
        Err(refusal) => {
            refuse(refusal);
            None
        }
    };
    let spare = asked.limit.0.value - asked.ambient.value;
    let searched = |rise: TemperatureDifference| {
        let base = base.filter(|_| rise.kelvins() > 0.0)?;
        let nominal = vents(MOST_OPENING, MOST_OPENING, height(built).max(LEAST));
        let opening = opening_for_rise(&base, &nominal, rise, MOST_OPENING).ok();
        let most = Airflow::from_cubic_metres_per_hour(MOST_FAN);
        let fan = fan_for_rise(&base, rise, most).ok();
        let opening = opening
            .filter(|found| found.reached)
            .map(|found| found.value);
        let fan = fan.filter(|found| found.reached).map(|found| found.value);
        Some((opening, fan))
    };
    let (opening_for_ten, fan_for_ten) = searched(TEN).unwrap_or_default();
    let (opening_for_limit, fan_for_limit) = searched(spare).unwrap_or_default();
    CabinetAirFound {
        situation: asked.situation,
        heat: asked.heat,
        cooling: cooling(built),
        skin_watts_per_kelvin: base.map_or(0.0, |base| base.skin_watts_per_kelvin),
        rise: asked.air.map(|air| air.rise),
        inside: asked.air.map(|air| air.inside),
        for_wires: asked.for_wires,
        airflow: asked.air.map_or(Airflow::ZERO, |air| air.airflow),
        by_air: asked.air.map_or(Power::ZERO, |air| air.by_air),
        by_skin: asked.air.map_or(Power::ZERO, |air| air.by_skin),
        ambient: asked.ambient,
        limit: asked.limit,
        opening_for_ten,
        fan_for_ten,
        opening_for_limit,
        fan_for_limit,
    }
}

/// Least height between openings that are still to be made.
const LEAST: Length = Length::from_metres(0.05);
