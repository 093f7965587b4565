//! What the parts of the study share: the project, notes of what stands in, what is missing, what was refused, and the
//! rows of the reference tables that all of them use. Not here: what is computed.

use crate::circuit::Notes;
use crate::known::{Assumption, Basis, Known};
use crate::result::indoors::IndoorsMissing;
use wainwright_engines::heat_loss::{Films, Flow};
use wainwright_engines::refusal::Refusal;
use wainwright_model::{Field, Project, Side};
use wainwright_reference::Sourced;
use wainwright_reference::climate_room::{self, Film};
use wainwright_units::Quantity;

/// Sides of the box in the order they are shown.
pub(super) const SIDES: [Side; 6] = [
    Side::Front,
    Side::Rear,
    Side::Left,
    Side::Right,
    Side::Roof,
    Side::Floor,
];

/// What the parts of the study share.
pub(super) struct Desk<'a> {
    pub(super) project: &'a Project,
    pub(super) notes: Notes,
    pub(super) missing: Vec<IndoorsMissing>,
    pub(super) refused: Vec<String>,
}

impl<'a> Desk<'a> {
    pub(super) fn new(project: &'a Project) -> Self {
        Self {
            project,
            notes: Notes::new(project),
            missing: Vec::new(),
            refused: Vec::new(),
        }
    }

    /// A value that is not there.
    pub(super) fn lack(&mut self, path: &[&str], wanted: &'static str) {
        let path = path.iter().map(|part| (*part).to_owned()).collect();
        let missing = IndoorsMissing { path, wanted };
        if !self.missing.contains(&missing) {
            self.missing.push(missing);
        }
    }

    /// What an engine found; what it refused is noted.
    pub(super) fn found<T>(&mut self, found: Result<T, Refusal>) -> Option<T> {
        match found {
            Ok(found) => Some(found),
            Err(refusal) => {
                let refused = refusal.to_string();
                if !self.refused.contains(&refused) {
                    self.refused.push(refused);
                }
                None
            }
        }
    }

    /// A typed value, or that of a table, which is then noted.
    pub(super) fn or_table<Q: Quantity>(
        &mut self,
        field: &Field<Q>,
        path: &[&str],
        row: Option<Sourced<Q>>,
        otherwise: Q,
    ) -> Known<Q> {
        let stand_in = match row {
            Some(row) => Known::new(row.value, Basis::Table(row.source)),
            None => Known::assumed(otherwise, Assumption::UsualForKind),
        };
        self.notes.given_or_known(field, path, stand_in)
    }

    /// A typed number, or a stand-in, which is then noted.
    pub(super) fn number_or(
        &mut self,
        field: &Field<f64>,
        path: &[&str],
        stand_in: f64,
    ) -> Known<f64> {
        self.notes.given(field).unwrap_or_else(|| {
            let known = Known::assumed(stand_in, Assumption::UsualForKind);
            self.notes
                .assume_text(path, stand_in.to_string(), &known.basis);
            known
        })
    }
}

/// Films of a side in winter, and the way its heat goes.
pub(super) fn films(side: Side) -> (Flow, Films) {
    let (flow, inside) = match side {
        Side::Roof => (Flow::Up, Film::InsideUp),
        Side::Floor => (Flow::Down, Film::InsideDown),
        _ => (Flow::Horizontal, Film::InsideWall),
    };
    let films = Films {
        inside: film(inside),
        outside: film(Film::Outside),
    };
    (flow, films)
}

/// Resistance of a film [m²K/W].
pub(super) fn film(film: Film) -> f64 {
    climate_room::film(film).map_or(0.0, |row| row.value)
}

/// A figure of a table, zero when the table lacks it, which the tests of the reference rule out.
pub(super) fn value(row: Option<Sourced<f64>>) -> f64 {
    row.map_or(0.0, |row| row.value)
}
