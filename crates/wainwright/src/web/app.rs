//! What all pages share while the program runs. Not here: anything that
//! belongs to one request (see `view`).

use super::linings::Linings;
use super::mender::Mender;
use super::outlooks::Outlooks;
use super::planned::Plans;
use super::weather_files::WeatherFiles;
use super::what_if::WhatIfs;
use crate::session::Session;
use std::sync::Arc;
use tokio::sync::watch;

/// What all pages share.
#[derive(Debug)]
pub struct App {
    /// The open project.
    pub session: Arc<Session>,
    /// Proves fixes while nobody waits.
    pub mender: Arc<Mender>,
    /// Situations people tried out lately.
    pub what_ifs: WhatIfs,
    /// The wiring plan somebody looked at last.
    pub plans: Plans,
    /// Outlooks of trips somebody looked at.
    pub outlooks: Arc<Outlooks>,
    /// The weather file somebody read in last.
    pub weather_files: WeatherFiles,
    /// The lining somebody looked at last.
    pub linings: Linings,
    /// Our port.
    pub port: u16,
    ended: watch::Sender<bool>,
}

impl App {
    /// For pages served on `port`.
    pub fn new(session: Arc<Session>, port: u16) -> Arc<Self> {
        Arc::new(Self {
            session,
            mender: Arc::default(),
            what_ifs: WhatIfs::default(),
            plans: Plans::default(),
            outlooks: Arc::default(),
            weather_files: WeatherFiles::default(),
            linings: Linings::default(),
            port,
            ended: watch::Sender::new(false),
        })
    }

    /// Tells everything that goes on for ever to end.
    pub fn end(&self) {
        self.ended.send_replace(true);
        self.mender.end();
    }

    /// Tells when to end.
    pub fn ended(&self) -> watch::Receiver<bool> {
        self.ended.subscribe()
    }
}
