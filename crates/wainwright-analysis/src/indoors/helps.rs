//! What would keep a side dry and free of mould: thicker foam, a layer that holds vapour back, less humid air. Not
//! here: what it costs.

use super::damp::{COUNTS_FROM, Year, mould_films};
use super::desk::{Desk, films};
use super::material;
use super::sides::SideFound;
use super::stack::Stack;
use crate::result::indoors::{DampChange, DampHelp, DampWay};
use wainwright_engines::damp::{
    Allowed, Month, foam_for_surface, foam_for_water, surface, vapour_layer_for, with_vapour_layer,
    year,
};
use wainwright_engines::heat_loss::{BuildUp, Layer as Ply};
use wainwright_model::LayerKind;
use wainwright_reference::material::Sheet;
use wainwright_units::{Length, Ratio};

/// Thickest foam that is looked at: nobody gives more room away.
const MOST_FOAM: Length = Length::from_metres(0.15);
/// Thinnest that is looked at.
const LEAST_FOAM: Length = Length::from_metres(0.002);
/// Tightest vapour layer that is looked at \[m\]: foil.
const MOST_VAPOUR: f64 = 1500.0;
/// Humidities that are tried, in hundredths.
const HUMIDITIES: [u32; 12] = [80, 75, 70, 65, 60, 55, 50, 45, 40, 35, 30, 25];

/// What would help a side; nothing when it is dry and free of mould.
pub(super) fn helps(
    desk: &mut Desk<'_>,
    side: &SideFound,
    stack: &Stack,
    of: &Year,
    ways: &[DampWay],
) -> Vec<DampHelp> {
    let wet = ways.iter().any(|way| !way.dries || way.runs_off);
    let mouldy = ways.iter().any(|way| !way.mould.holds);
    if !wet && !mouldy {
        return Vec::new();
    }
    let asked = Asked {
        side,
        stack,
        of,
        wet,
        mouldy,
    };
    let mut helps = Vec::new();
    helps.extend(asked.over_ribs(desk));
    helps.extend(asked.thicker(desk));
    helps.extend(asked.vapour(desk));
    helps.extend(asked.drier(desk));
    helps
}

/// A thickness, and what it cures.
#[derive(Clone, Copy)]
struct Need {
    thickness: Length,
    cures_water: bool,
    cures_mould: bool,
}

impl Need {
    const fn help(self, change: DampChange) -> DampHelp {
        DampHelp {
            change,
            cures_water: self.cures_water,
            cures_mould: self.cures_mould,
        }
    }
}

struct Asked<'a> {
    side: &'a SideFound,
    stack: &'a Stack,
    of: &'a Year,
    wet: bool,
    mouldy: bool,
}

impl Asked<'_> {
    fn allowed(&self) -> Allowed {
        Allowed {
            peak_grams_per_m2: self.of.runs_off,
            left_grams_per_m2: COUNTS_FROM,
        }
    }

    /// The innermost foam, as a layer of the side and of the engine.
    fn foam(&self) -> Option<(usize, usize)> {
        let layers = &self.side.shown.layers;
        let own = layers
            .iter()
            .rposition(|layer| layer.of == LayerKind::Foam)?;
        let engine = self.stack.of.iter().position(|of| *of == own)?;
        Some((own, engine))
    }

    /// Thicker foam.
    fn thicker(&self, desk: &mut Desk<'_>) -> Option<DampHelp> {
        let (own, engine) = self.foam()?;
        let layer = self.side.shown.layers.get(own)?;
        let id = layer.layer.clone()?;
        let now = layer.thickness.value;
        let range = (now, MOST_FOAM.max(now));
        let need = self.need(desk, &self.stack.build_up, engine, range)?;
        Some(need.help(DampChange::Thickness {
            layer: id,
            thickness: need.thickness,
        }))
    }

    /// Foam over the ribs: heat no longer goes round through them.
    fn over_ribs(&self, desk: &mut Desk<'_>) -> Option<DampHelp> {
        let ribs = self.stack.ribs.as_ref()?;
        let (own, engine) = self.foam()?;
        let layer = self.side.shown.layers.get(own)?;
        let like = layer.layer.clone()?;
        // The foil of such a board goes with it.
        let foil = if layer.foil {
            material::sheet(Sheet::AluminiumFoil)
        } else {
            0.0
        };
        let after = self.stack.of.iter().rposition(|of| *of == ribs.bridges.1)? + 1;
        let mut built = self.stack.build_up.clone();
        for section in &mut built.sections {
            let foam = *self.stack.build_up.sections.first()?.layers.get(engine)?;
            let of_foam = foam.vapour_metres * LEAST_FOAM.metres() / foam.thickness.metres();
            let thin = Ply {
                thickness: LEAST_FOAM,
                vapour_metres: of_foam + foil,
                ..foam
            };
            section.layers.insert(after, thin);
        }
        let need = self.need(desk, &built, after, (LEAST_FOAM, MOST_FOAM))?;
        Some(need.help(DampChange::OverRibs {
            like,
            thickness: need.thickness,
        }))
    }

    /// How thick a layer of a build-up must be, against what is wrong; `None` when no thickness cures anything.
    fn need(
        &self,
        desk: &mut Desk<'_>,
        built: &BuildUp,
        layer: usize,
        range: (Length, Length),
    ) -> Option<Need> {
        let (_, films) = films(self.side.shown.side);
        let mut need = Need {
            thickness: range.0,
            cures_water: false,
            cures_mould: false,
        };
        if self.wet {
            let months = &self.of.months;
            let found = foam_for_water(built, layer, films, months, self.allowed(), range);
            let found = desk.found(found)?;
            need.cures_water = found.reached;
            if found.reached {
                need.thickness = need.thickness.max(found.value);
            }
        }
        if self.mouldy {
            let (cold, limit) = (self.of.cold()?, self.of.limit);
            let found = foam_for_surface(built, layer, mould_films(), cold, limit, range);
            let found = desk.found(found)?;
            need.cures_mould = found.reached;
            if found.reached {
                need.thickness = need.thickness.max(found.value);
            }
        }
        (need.cures_water || need.cures_mould).then_some(need)
    }

    /// A vapour layer on the warm side of the foam; without foam, inside.
    fn vapour(&self, desk: &mut Desk<'_>) -> Option<DampHelp> {
        if !self.wet {
            return None;
        }
        let (_, films) = films(self.side.shown.side);
        let before = match self.foam() {
            Some((own, _)) => self.stack.of.iter().rposition(|of| *of == own)? + 1,
            None => self.stack.of.len(),
        };
        let found = vapour_layer_for(
            &self.stack.build_up,
            before,
            films,
            &self.of.months,
            self.allowed(),
            MOST_VAPOUR,
        );
        let found = desk.found(found)?;
        // What is asked must hold with what is sold, too: with foil itself.
        let foil = with_vapour_layer(&self.stack.build_up, before, MOST_VAPOUR);
        let foil = desk.found(foil)?;
        let holds = self.dry(desk, &foil, &self.of.months);
        let before = self.stack.of.get(before).copied();
        (found.reached && found.value > 0.0 && holds).then(|| DampHelp {
            change: DampChange::VapourLayer {
                before: before.unwrap_or(self.side.shown.layers.len()),
                metres: found.value,
            },
            cures_water: true,
            cures_mould: false,
        })
    }

    /// The most humid air with which it stays as it should.
    fn drier(&self, desk: &mut Desk<'_>) -> Option<DampHelp> {
        let now = self.of.cold_night.inside_humidity;
        for percent in HUMIDITIES {
            let humidity = Ratio::from_percent(f64::from(percent));
            if humidity >= now {
                continue;
            }
            let months = self.with(humidity);
            let dry = !self.wet || self.dry(desk, &self.stack.build_up, &months);
            let free = !self.mouldy || self.free(desk, &months);
            if dry && free {
                return Some(DampHelp {
                    change: DampChange::Humidity { most: humidity },
                    cures_water: self.wet,
                    cures_mould: self.mouldy,
                });
            }
        }
        None
    }

    /// The year with air inside no more humid than this.
    fn with(&self, humidity: Ratio) -> Vec<Month> {
        let mut months = self.of.months.clone();
        for month in &mut months {
            month.climate.inside_humidity = month.climate.inside_humidity.min(humidity);
        }
        months
    }

    fn dry(&self, desk: &mut Desk<'_>, built: &BuildUp, months: &[Month]) -> bool {
        let (_, films) = films(self.side.shown.side);
        let allowed = self.allowed();
        desk.found(year(built, films, months)).is_some_and(|ways| {
            ways.iter().all(|way| {
                way.peak_grams_per_m2 <= allowed.peak_grams_per_m2
                    && way.left_grams_per_m2 < allowed.left_grams_per_m2
            })
        })
    }

    fn free(&self, desk: &mut Desk<'_>, months: &[Month]) -> bool {
        let Some(cold) = months.get(self.of.coldest) else {
            return false;
        };
        let found = surface(
            &self.stack.build_up,
            mould_films(),
            &cold.climate,
            self.of.limit,
        );
        desk.found(found)
            .is_some_and(|ways| ways.iter().all(|way| way.holds))
    }
}
