//! The weather file somebody read in last, until it is put in the project or another one is read. Not here: reading
//! it (the analysis).

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use wainwright_analysis::weather::{WeatherFault, WeatherPlace, WeatherRead, read_weather};

/// A file with what was found in it.
#[derive(Debug, Clone)]
pub struct WeatherFile {
    /// Counts the files that were read.
    pub number: u64,
    bytes: Arc<[u8]>,
    /// What is in it, or why it is of no use.
    pub found: Arc<Result<WeatherRead, Vec<WeatherFault>>>,
}

/// The last file.
#[derive(Debug, Default)]
pub struct WeatherFiles(Mutex<(u64, Option<WeatherFile>)>);

impl WeatherFiles {
    /// Reads a file and keeps it; tells its number.
    pub fn read(&self, bytes: &[u8]) -> u64 {
        let bytes: Arc<[u8]> = bytes.into();
        let found = Arc::new(read_weather(&bytes, None));
        let mut kept = self.kept();
        kept.0 += 1;
        let number = kept.0;
        kept.1 = Some(WeatherFile {
            number,
            bytes,
            found,
        });
        number
    }

    /// The file of this number, unless another one was read since.
    pub fn of(&self, number: u64) -> Option<WeatherFile> {
        let kept = self.kept();
        kept.1.clone().filter(|file| file.number == number)
    }

    /// Reads the file of this number again, from a place that it does not say itself.
    pub fn read_again(&self, number: u64, place: WeatherPlace) -> Option<()> {
        let file = self.of(number)?;
        let found = Arc::new(read_weather(&file.bytes, Some(place)));
        let mut kept = self.kept();
        kept.1 = Some(WeatherFile { found, ..file });
        Some(())
    }

    fn kept(&self) -> MutexGuard<'_, (u64, Option<WeatherFile>)> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
