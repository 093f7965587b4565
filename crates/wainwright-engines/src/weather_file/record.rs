//! What a file holds once it is read. Not here: how it is read, and what follows from it (`climate`).

use super::alignment::Alignment;
use super::fault::Fault;
use crate::sun::Place;
use wainwright_units::{Angle, Length, Temperature};

/// The form of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Eight lines of header, then hours of 35 fields (EPW).
    EnergyPlusWeather,
    /// A line for the place, a line of names, then hours (TMY3).
    TypicalYear,
    /// A line of names, then days: `date,ghi_kwh_m2[,tmin_c,tmax_c]`.
    Daily,
}

/// Where the readings were taken, as far as the file says.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Site {
    /// Town or station.
    pub name: String,
    /// State or region.
    pub region: String,
    /// Country.
    pub country: String,
    /// Number of the station.
    pub station: String,
    /// North positive [°].
    pub latitude: Option<Angle>,
    /// East positive [°].
    pub longitude: Option<Angle>,
    /// Above the sea [m].
    pub altitude: Option<Length>,
    /// Hours the clock is ahead of universal time, without daylight saving [h].
    pub zone: Option<f64>,
}

/// A file that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// Its form.
    pub form: Form,
    /// Where it is from.
    pub site: Site,
    /// What was measured.
    pub readings: Readings,
    /// Rows that were read.
    pub rows: usize,
    /// How the light agrees with the sun; `None` when the file does not say where it is from, or
    /// holds days.
    pub alignment: Option<Alignment>,
    /// What is wrong with the file without making it useless.
    pub warnings: Vec<Fault>,
}

/// Hours or days, in the order of the calendar.
#[derive(Debug, Clone, PartialEq)]
pub enum Readings {
    /// One typical year; each month may be of another year.
    Hours(Vec<HourReading>),
    /// Days, of one year or many.
    Days(Vec<DayReading>),
}

/// One hour in local standard time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourReading {
    /// 1 to 12.
    pub month: u32,
    /// 1 to 31.
    pub day: u32,
    /// 0 to 23: the hour that begins then.
    pub hour: u32,
    /// Light on flat ground [Wh/m²].
    pub global: Option<f64>,
    /// Light from the sun's disc on a surface that faces it [Wh/m²].
    pub beam: Option<f64>,
    /// Light from the rest of the sky on flat ground [Wh/m²].
    pub diffuse: Option<f64>,
    /// Air temperature.
    pub air: Option<Temperature>,
    /// Wind [m/s].
    pub wind: Option<f64>,
}

/// One day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DayReading {
    /// Year of the calendar.
    pub year: i32,
    /// 1 to 12.
    pub month: u32,
    /// 1 to 31.
    pub day: u32,
    /// Light on flat ground [Wh/m²].
    pub global: Option<f64>,
    /// Lowest temperature of the day.
    pub coldest: Option<Temperature>,
    /// Highest temperature of the day.
    pub warmest: Option<Temperature>,
}

/// Place, hours, rows and warnings of an hourly file.
pub(super) type Hourly = (Site, Vec<HourReading>, usize, Vec<Fault>);

impl Site {
    /// The place, when latitude and longitude are known; sea level when the altitude is not.
    #[must_use]
    pub fn place(&self) -> Option<Place> {
        Some(Place {
            latitude: self.latitude?,
            longitude: self.longitude?,
            altitude: self.altitude.unwrap_or(Length::ZERO),
        })
    }

    /// Hours the clock is ahead, or the nearest whole hour for the longitude.
    #[must_use]
    pub fn zone_or_nearest(&self) -> Option<f64> {
        let by_sun = |longitude: Angle| (longitude.degrees() / 15.0).round();
        self.zone.or_else(|| self.longitude.map(by_sun))
    }
}
