//! Water in the sides through a year, and mould on their inner surfaces. Not here: what would help (`helps`).

use super::desk::{Desk, film, films, value};
use super::helps::helps;
use super::night::Airs;
use super::sides::{SideFound, share_of_ribs};
use super::stack::Stack;
use crate::known::{Assumption, Known};
use crate::result::indoors::{
    DampMonth, DampResult, DampSide, DampWay, Mould, WayKind, Wet, WetPlace,
};
use crate::trips::ClimateFound;
use wainwright_engines::damp::{self, Climate, Month, MonthWater, Place, Surface, WayYear};
use wainwright_engines::heat_loss::Films;
use wainwright_engines::moist_air::{Formula, relative_humidity, vapour_pressure};
use wainwright_reference::climate_room::{self, Design, DesignHumidity, Film};
use wainwright_units::{Duration, Ratio, Temperature};

/// Humidity outside where nobody said (judgement): the mean of temperate places.
pub(super) const OUTSIDE_HUMIDITY: Ratio = Ratio::from_fraction(0.8);
/// Less water than this is none [g/m²]: a film of a hundredth of a millimetre (judgement).
pub(super) const COUNTS_FROM: f64 = 10.0;
/// Hours of a mean month.
const HOURS_OF_A_MONTH: f64 = 730.5;

/// A year of airs, with what they are judged by.
pub(super) struct Year {
    pub(super) months: Vec<Month>,
    /// The coldest, counted from 0.
    pub(super) coldest: usize,
    pub(super) cold_night: Climate,
    pub(super) limit: Ratio,
    pub(super) runs_off: f64,
}

impl Year {
    /// The climate of the coldest month.
    pub(super) fn cold(&self) -> Option<&Climate> {
        self.months.get(self.coldest).map(|month| &month.climate)
    }
}

/// Films against mould: more still air before the surface, as behind furniture.
pub(super) fn mould_films() -> Films {
    Films {
        inside: film(Film::InsideMould),
        outside: film(Film::Outside),
    }
}

/// A year of damp. With `helps`, what would keep each side dry.
pub(super) fn damp(
    desk: &mut Desk<'_>,
    sides: &[SideFound],
    airs: &Airs,
    climate: &ClimateFound,
    with_helps: bool,
) -> Option<DampResult> {
    let outside_humidity = outside_humidity(desk, climate);
    let year = year(desk, airs, climate, &outside_humidity.value)?;
    let mut found: Vec<DampSide> = Vec::new();
    let mut alike: Vec<(&Stack, usize)> = Vec::new();
    for side in sides {
        let Some(stack) = &side.stack else { continue };
        // Three walls of one build-up are reckoned once.
        let same = alike
            .iter()
            .find(|(other, _)| other.build_up == stack.build_up)
            .and_then(|(_, place)| found.get(*place));
        if let Some(same) = same {
            let same = DampSide {
                side: side.shown.side,
                ..same.clone()
            };
            found.push(same);
            continue;
        }
        let Some(ways) = ways(desk, side, stack, &year) else {
            continue;
        };
        let helps = if with_helps {
            helps(desk, side, stack, &year, &ways)
        } else {
            Vec::new()
        };
        alike.push((stack, found.len()));
        found.push(DampSide {
            side: side.shown.side,
            ways,
            helps,
        });
    }
    Some(DampResult {
        climate: climate.id.clone(),
        inside: airs.inside.clone(),
        humidity: airs.humidity.clone(),
        outside: (1..=12).map(|month| climate.month(month).mean).collect(),
        outside_humidity,
        coldest: u32::try_from(year.coldest).unwrap_or(0) + 1,
        sides: found,
        runs_off: year.runs_off,
        counts_from: COUNTS_FROM,
    })
}

/// Humidity outside in each month.
fn outside_humidity(desk: &mut Desk<'_>, climate: &ClimateFound) -> Known<Vec<Ratio>> {
    let name = climate.id.as_str();
    let typed = desk
        .project
        .climates
        .get(name)
        .and_then(|climate| desk.notes.given(&climate.humidity));
    if let Some(typed) = typed.filter(|typed| typed.value.len() == 12) {
        return typed;
    }
    let known = Known::assumed(vec![OUTSIDE_HUMIDITY; 12], Assumption::UsualForKind);
    let path = ["climate", name, "humidity"];
    desk.notes.assume_text(&path, "80 %".into(), &known.basis);
    known
}

fn year(
    desk: &mut Desk<'_>,
    airs: &Airs,
    climate: &ClimateFound,
    humidity: &[Ratio],
) -> Option<Year> {
    let mut months = Vec::with_capacity(12);
    for (month, humidity) in (1..=12).zip(humidity) {
        let outside = climate.month(month).mean;
        let made = within(airs, outside, *humidity);
        let climate = desk.found(made)?;
        months.push(Month {
            climate,
            duration: Duration::from_hours(HOURS_OF_A_MONTH),
        });
    }
    let outside = |month: &Month| month.climate.outside;
    let coldest = (0..months.len()).min_by(|a, b| {
        let of = |at: &usize| {
            months
                .get(*at)
                .map_or(f64::MAX, |month| outside(month).celsius())
        };
        of(a).total_cmp(&of(b))
    })?;
    let at_night = humidity.get(coldest).copied().unwrap_or(OUTSIDE_HUMIDITY);
    let cold_night = desk.found(within(airs, airs.outside.value, at_night))?;
    Some(Year {
        months,
        coldest,
        cold_night,
        limit: climate_room::design_humidity(DesignHumidity::Surface)
            .map_or(Ratio::from_percent(80.0), |row| row.value),
        runs_off: value(climate_room::design(Design::RunOff)),
    })
}

/// Air inside beside an air outside: kept warm and as humid as typed, but never colder or with less vapour than the
/// air outside, which comes in.
fn within(
    airs: &Airs,
    outside: Temperature,
    outside_humidity: Ratio,
) -> Result<Climate, wainwright_engines::refusal::Refusal> {
    let inside = airs.inside.value.max(outside);
    let vapour = vapour_pressure(outside, outside_humidity, Formula::Standard)?;
    let brought = relative_humidity(inside, vapour, Formula::Standard)?;
    let least = Ratio::from_percent(1.0);
    Ok(Climate {
        inside,
        inside_humidity: airs.humidity.value.max(brought).max(least).min(Ratio::ONE),
        outside,
        outside_humidity: outside_humidity.max(least),
    })
}

fn ways(desk: &mut Desk<'_>, side: &SideFound, stack: &Stack, year: &Year) -> Option<Vec<DampWay>> {
    let (_, films) = films(side.shown.side);
    let years = desk.found(damp::year(&stack.build_up, films, &year.months))?;
    let cold = year.cold()?;
    let mould = damp::surface(&stack.build_up, mould_films(), cold, year.limit);
    let mould = desk.found(mould)?;
    let night = damp::surface(&stack.build_up, films, &year.cold_night, year.limit);
    let night = desk.found(night)?;
    let metal = stack.ribs.as_ref().is_some_and(|ribs| ribs.metal);
    let ribs = share_of_ribs(&side.shown);
    let mut ways = Vec::new();
    let surfaces = mould.iter().zip(&night);
    for (index, (found, (mould, night))) in years.iter().zip(surfaces).enumerate() {
        let kind = match (index, metal) {
            (0, _) => WayKind::Between,
            (_, true) => WayKind::AtRib,
            (_, false) => WayKind::AtBatten,
        };
        let share = match kind {
            WayKind::Between => Ratio::from_fraction(1.0 - ribs.fraction()),
            _ => ribs,
        };
        ways.push(way(kind, share, stack, year, (found, mould, night)));
    }
    Some(ways)
}

fn way(
    kind: WayKind,
    share: Ratio,
    stack: &Stack,
    year: &Year,
    (found, mould, night): (&WayYear, &Surface, &Surface),
) -> DampWay {
    let mut months: Vec<DampMonth> = found.months.iter().map(month).collect();
    months.sort_by_key(|month| month.month);
    let mut places: Vec<Wet> = Vec::new();
    for wet in &found.peak_at {
        let place = at_ribs(kind, stack, place(stack, wet.place));
        match places.iter_mut().find(|known| known.place == place) {
            Some(known) => known.grams += wet.grams_per_m2,
            None => places.push(Wet {
                place,
                grams: wet.grams_per_m2,
            }),
        }
    }
    places.sort_by(|a, b| b.grams.total_cmp(&a.grams));
    DampWay {
        kind,
        share,
        months,
        peak: found.peak_grams_per_m2,
        peak_month: found.peak_month.map(number),
        places,
        left: found.left_grams_per_m2,
        dries: found.left_grams_per_m2 < COUNTS_FROM,
        runs_off: found.peak_grams_per_m2 > year.runs_off,
        surface_wet: found
            .surface_wet_months
            .iter()
            .copied()
            .map(number)
            .collect(),
        mould: Mould {
            temperature: mould.temperature,
            humidity: mould.humidity,
            factor: mould.factor,
            factor_needed: mould.needed_factor,
            humidity_allowed: mould.humidity_allowed,
            limit: year.limit,
            holds: mould.holds,
            cold_night: night.temperature,
            wet_on_cold_night: night.humidity >= Ratio::ONE,
        },
    }
}

/// At a metal rib the layers that it bridges are the rib: water is on its inner face.
fn at_ribs(kind: WayKind, stack: &Stack, place: WetPlace) -> WetPlace {
    let (WayKind::AtRib, Some(ribs), WetPlace::In(layer)) = (kind, &stack.ribs, place) else {
        return place;
    };
    let (first, last) = ribs.bridges;
    if (first..=last).contains(&layer) {
        WetPlace::After(last)
    } else {
        place
    }
}

fn number(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(0) + 1
}

fn month((index, water): &(usize, MonthWater)) -> DampMonth {
    DampMonth {
        month: number(*index),
        change: water.change.iter().map(|wet| wet.grams_per_m2).sum(),
        stored: water.stored_grams_per_m2(),
    }
}

/// A place of the engine as one of the side.
fn place(stack: &Stack, place: Place) -> WetPlace {
    let of = |layer: usize| stack.of.get(layer).copied().unwrap_or(0);
    match place {
        Place::OuterSurface => WetPlace::Outer,
        Place::InnerSurface => WetPlace::Inner,
        Place::Inside { layer } => WetPlace::In(of(layer)),
        // A foil is part of the layer it is on.
        Place::Between { outer } if of(outer) == of(outer + 1) => WetPlace::In(of(outer)),
        Place::Between { outer } => WetPlace::After(of(outer)),
    }
}
