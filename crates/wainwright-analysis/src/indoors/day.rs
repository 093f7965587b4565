//! The hottest hour of a clear summer day, parked the worst way round. Not here: the layers.

use super::desk::{Desk, value};
use super::night::{Airs, bare_room};
use super::sides::SideFound;
use super::vents::Vents;
use crate::known::{Assumption, Basis, Known};
use crate::result::indoors::{PaneHeat, RoomFound, SunnyDay, SunnyPane, SunnySide};
use crate::trips::ClimateFound;
use std::f64::consts::PI;
use wainwright_engines::heat_loss::{Balance, Gain, Room, balance, cooler};
use wainwright_engines::sun::{
    Air, Ground, Method, Moment, Orientation, Place, Sky, Sun, clear_sky, on_panel_even_sky,
    position,
};
use wainwright_model::Side;
use wainwright_reference::climate_room::{self, DesignTemperature, PeopleFigure, SkinSun};
use wainwright_units::{Angle, Length, Power, Temperature, TemperatureDifference};

/// Where nobody said a climate: the middle of the United States, sea level.
const USUAL_LATITUDE: f64 = 40.0;
const USUAL_MONTH: u32 = 7;
const USUAL_HIGH: Temperature = Temperature::from_celsius(35.0);
const USUAL_SWING: f64 = 14.0;
/// Any year does: the sun stands alike in all.
const YEAR: i32 = 2027;
const DAY: u32 = 21;
/// Haze of summer air where no month is known.
const TURBIDITY: f64 = 3.0;
/// Share of the light that grass and gravel throw back (usual).
const GROUND: f64 = 0.2;
/// Standard time at which a day is warmest \[h\].
const WARMEST: f64 = 15.0;
/// Ways round that are tried \[°\].
const HEADINGS: [f64; 8] = [0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0];
/// Share of the sunlight that the dark skin of the table takes up.
const DARK_ABSORBS: f64 = 0.9;

/// A summer day at a place.
struct Summer {
    month: u32,
    place: Place,
    zone: f64,
    high: Known<Temperature>,
    swing: f64,
    turbidity: f64,
}

/// The box in the sun.
struct Sunny<'a> {
    summer: Summer,
    sides: &'a [SideFound],
    panes: &'a [PaneHeat],
    room: Room,
    absorbing: f64,
    sky_roof: f64,
    inside: Temperature,
}

/// One hour one way round.
struct Hour {
    hour: f64,
    front: f64,
    light: [f64; 6],
    found: Balance,
}

pub(super) fn day(
    desk: &mut Desk<'_>,
    room: &RoomFound,
    sides: &[SideFound],
    panes: &[PaneHeat],
    (airs, vents): (&Airs, &Vents),
    climate: Option<&ClimateFound>,
) -> Option<SunnyDay> {
    let summer = summer(desk, climate);
    let inside = climate_room::design_temperature(DesignTemperature::Cooling)?;
    let inside = Known::new(inside.value, Basis::Table(inside.source));
    let absorbing = absorbing(desk)?;
    let natural = vents.natural(desk, inside.value, summer.high.value);
    let mut bare = bare_room(sides, panes, airs.leaking, natural);
    let of = |figure| climate_room::people(figure).map_or(0.0, |row| row.value.usual);
    let each = |figure| Power::from_watts(of(figure)) * f64::from(room.people.value);
    bare.people = Gain {
        sensible: each(PeopleFigure::HeatSensible),
        latent: each(PeopleFigure::HeatLatent),
    };
    let sunny = Sunny {
        summer,
        sides,
        panes,
        room: bare,
        absorbing: absorbing.value,
        sky_roof: value(climate_room::skin_sun(SkinSun::SkyRoof)),
        inside: inside.value,
    };
    let mut all = Vec::new();
    for hour in 0..24 {
        for front in HEADINGS {
            all.extend(sunny.hour(desk, f64::from(hour), front));
        }
    }
    let worst = all
        .iter()
        .max_by(|a, b| a.found.sensible.total_cmp(&b.found.sensible))?;
    let hours = all.iter().filter(|hour| hour.front == worst.front);
    let hours = hours
        .map(|hour| (hour.hour, cooler(&hour.found).total))
        .collect();
    Some(sunny.shown(worst, hours, inside, absorbing))
}

fn summer(desk: &mut Desk<'_>, climate: Option<&ClimateFound>) -> Summer {
    let turbidity =
        |month| wainwright_reference::climate::turbidity(month).map_or(TURBIDITY, |row| row.value);
    let Some(climate) = climate else {
        let high = desk
            .notes
            .assume(&["living", "climate"], USUAL_HIGH, Assumption::UsualForKind);
        return Summer {
            month: USUAL_MONTH,
            place: Place {
                latitude: Angle::from_degrees(USUAL_LATITUDE),
                longitude: Angle::ZERO,
                altitude: Length::ZERO,
            },
            zone: 0.0,
            high,
            swing: USUAL_SWING,
            turbidity: turbidity(USUAL_MONTH),
        };
    };
    let mut month = USUAL_MONTH;
    for other in 1..=12 {
        if climate.month(other).mean > climate.month(month).mean {
            month = other;
        }
    }
    let found = climate.month(month);
    let high = found.mean + TemperatureDifference::from_kelvins(0.5 * found.swing.kelvins());
    Summer {
        month,
        place: climate.place,
        zone: climate.zone,
        high: Known::computed(high),
        swing: found.swing.kelvins(),
        turbidity: turbidity(month),
    }
}

/// Share of the sunlight that the skin takes up, over its film [m²K/W].
fn absorbing(desk: &mut Desk<'_>) -> Option<Known<f64>> {
    let dark = climate_room::skin_sun(SkinSun::Dark)?;
    let light = climate_room::skin_sun(SkinSun::Light)?;
    let typed = desk.notes.given(&desk.project.living.skin_absorbs);
    Some(match typed {
        Some(share) => {
            let value = dark.value * share.value.fraction() / DARK_ABSORBS;
            Known::new(value, share.basis)
        }
        None => {
            let known = Known::new(light.value, Basis::Table(light.source));
            let path = ["living", "skin_absorbs"];
            desk.notes
                .assume_text(&path, "a light skin".to_owned(), &known.basis);
            known
        }
    })
}

impl Sunny<'_> {
    fn hour(&self, desk: &mut Desk<'_>, hour: f64, front: f64) -> Option<Hour> {
        let (sun, sky, _) = self.sky(hour)?;
        let mut light = [0.0; 6];
        let mut room = self.room.clone();
        let both = self.sides.iter().zip(room.faces.iter_mut());
        for ((side, face), light) in both.zip(light.iter_mut()) {
            *light = lit(side.shown.side, front, sun, sky);
            face.sun_watts_per_m2 = *light;
            face.absorbing_m2_kelvin_per_watt = self.absorbing;
            if side.shown.side == Side::Roof {
                face.sky = TemperatureDifference::from_kelvins(self.sky_roof);
            }
        }
        for (pane, window) in self.panes.iter().zip(room.windows.iter_mut()) {
            window.sun_watts_per_m2 = lit(pane.side, front, sun, sky);
        }
        let outside = self.outside(hour);
        let found = desk.found(balance(&room, self.inside, outside))?;
        Some(Hour {
            hour,
            front,
            light,
            found,
        })
    }

    /// Sun and clear sky at an hour of standard time.
    fn sky(&self, hour: f64) -> Option<(Sun, Sky, u32)> {
        let at = &self.summer;
        let midnight = Moment::from_utc(YEAR, at.month, DAY, 0.0).ok()?;
        let moment = midnight.after_hours(hour - at.zone);
        let air = Air::standard(at.place.altitude);
        let sun = position(moment, at.place, air, Method::Fast).ok()?;
        let day = moment.day_of_year();
        let sky = clear_sky(sun, day, at.place.altitude, at.turbidity);
        Some((sun, sky, day))
    }

    fn outside(&self, hour: f64) -> Temperature {
        let turn = (1.0 - ((hour - WARMEST) * PI / 12.0).cos()) * 0.5;
        let below = TemperatureDifference::from_kelvins(self.summer.swing * turn);
        self.summer.high.value - below
    }

    fn shown(
        &self,
        worst: &Hour,
        hours: Vec<(f64, Power)>,
        inside: Known<Temperature>,
        absorbing: Known<f64>,
    ) -> SunnyDay {
        let found = &worst.found;
        let taken = cooler(found);
        let lights = worst.light.iter().zip(&found.faces);
        let sides = self
            .sides
            .iter()
            .zip(lights)
            .map(|(side, (light, heat))| SunnySide {
                side: side.shown.side,
                light: *light,
                sol_air: heat.sol_air,
                heat: heat.into_room,
            });
        let light_of = |side| {
            let place = self.sides.iter().position(|found| found.shown.side == side);
            place.and_then(|place| worst.light.get(place).copied())
        };
        let panes = self.panes.iter().zip(&found.windows);
        SunnyDay {
            month: self.summer.month,
            hour: worst.hour,
            front: Angle::from_degrees(worst.front),
            outside: Known::new(self.outside(worst.hour), self.summer.high.basis.clone()),
            inside,
            absorbing,
            sides: sides.collect(),
            panes: panes
                .map(|(pane, heat)| SunnyPane {
                    opening: pane.opening.clone(),
                    light: light_of(pane.side).unwrap_or(0.0),
                    conducted: heat.conducted,
                    sun: heat.sun,
                })
                .collect(),
            air: found.leaking + found.ventilating,
            people: found.people,
            sensible: taken.sensible,
            latent: taken.latent,
            total: taken.total,
            hours,
        }
    }
}

/// Light on a side when the front looks to a compass direction [W/m²]; none gets under the floor.
fn lit(side: Side, front: f64, sun: Sun, sky: Sky) -> f64 {
    let (tilt, turned) = match side {
        Side::Front => (90.0, 0.0),
        Side::Right => (90.0, 90.0),
        Side::Rear => (90.0, 180.0),
        Side::Left => (90.0, 270.0),
        Side::Roof => (0.0, 0.0),
        Side::Floor => return 0.0,
    };
    let panel = Orientation {
        tilt: Angle::from_degrees(tilt),
        azimuth: Angle::from_degrees((front + turned) % 360.0),
    };
    let light = on_panel_even_sky(sky, sun, panel, Ground::from_fraction(GROUND));
    light.total().max(0.0)
}
