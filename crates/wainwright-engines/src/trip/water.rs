//! Fresh and waste water of a trip.

use wainwright_units::Volume;

/// Tanks and how much is used by the hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Water {
    /// Fresh water tank [L].
    pub fresh_tank: Volume,
    /// Waste water tank [L].
    pub waste_tank: Volume,
    /// Use in each hour of the day [L].
    pub day: [Volume; 24],
    /// Share of the used water that goes to waste, the rest is drunk or lost.
    pub to_waste: f64,
}

/// Water on board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Tanks {
    pub fresh: Volume,
    pub waste: Volume,
}

/// What an hour did to the water [L].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct WaterHour {
    pub missing: Volume,
    pub spilled: Volume,
}

impl Water {
    /// No tanks and no use.
    pub const NONE: Water = Water {
        fresh_tank: Volume::ZERO,
        waste_tank: Volume::ZERO,
        day: [Volume::ZERO; 24],
        to_waste: 1.0,
    };

    /// One hour; a place with water first fills the fresh tank and empties the waste tank.
    #[inline(always)]
    pub(super) fn hour(&self, tanks: &mut Tanks, hour_of_day: u32, at_tap: bool) -> WaterHour {
        if at_tap {
            tanks.fresh = tanks.fresh.max(self.fresh_tank);
            tanks.waste = Volume::ZERO;
        }
        let wanted = self.day.get((hour_of_day % 24) as usize);
        let wanted = wanted.copied().unwrap_or(Volume::ZERO);
        let used = if wanted.litres() < tanks.fresh.litres() {
            wanted
        } else {
            tanks.fresh
        };
        tanks.fresh -= used;
        let waste = tanks.waste + used * self.to_waste;
        tanks.waste = if waste.litres() < self.waste_tank.litres() {
            waste
        } else {
            self.waste_tank
        };
        WaterHour {
            missing: wanted - used,
            spilled: waste - tanks.waste,
        }
    }
}
