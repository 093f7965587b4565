//! The bare trailer: its figures, given or those of the nearest usual box trailer. Not here: what is in it (`loads`).

use super::notes::{RoadNotes, usual};
use super::shelf::{profile_of, shelf};
use crate::frame::BoxPlace;
use crate::known::Known;
use crate::result::road::{RoadTrailer, RoadWanted};
use wainwright_engines::balance::{self, Chassis, Heights, Load};
use wainwright_model::{Field, FieldExt, Project, Suspension, TongueAdvice};
use wainwright_reference::Sourced;
use wainwright_reference::box_trailer::BoxTrailer;
use wainwright_units::frame::{Point, Vector};
use wainwright_units::{Length, Mass, Quantity};

/// What a wrong number of axles weighs against wrong sizes when the nearest usual box is looked for \[m\] (judgement).
const AXLES_AS_METRES: f64 = 0.5;

/// The trailer's figures.
pub(super) fn trailer(
    project: &Project,
    advice: TongueAdvice,
    notes: &mut RoadNotes,
) -> RoadTrailer {
    let own = &project.trailer;
    let mut desk = StandIns {
        like: nearest(project, advice),
        notes,
        used: false,
    };
    let inside_length = desk.notes.given(&own.inside_length);
    let axles = desk.axles(project);
    let several = axles.as_ref().is_some_and(|known| known.value > 1);
    let ball_to_front = desk.quantity(&own.ball_to_front, "ball_to_front", |b| {
        b.ball_to_front.value
    });
    let inside = inside_length.as_ref().map(|known| known.value);
    let front = ball_to_front.as_ref().map(|known| known.value);
    let empty_mass = desk.quantity(&own.empty_mass, "empty_mass", |b| b.empty_mass.value);
    let mass = empty_mass.as_ref().map(|known| known.value);
    RoadTrailer {
        inside_width: desk.quantity(&own.inside_width, "inside_width", |b| b.inside_width.value),
        inside_height: desk.quantity(&own.inside_height, "inside_height", |b| {
            b.inside_height.value
        }),
        ball_to_axle: desk.quantity(&own.ball_to_axle, "ball_to_axle", |b| {
            axle_at(b, inside, front)
        }),
        axle_spacing: several.then(|| desk.spacing(&own.axle_spacing)).flatten(),
        suspension: desk.suspension(&own.suspension, several),
        axle_stiffness: desk.notes.given(&own.axle_stiffness),
        track: desk.quantity(&own.track, "track", |b| b.track.value),
        floor_height: desk.quantity(&own.floor_height, "floor_height", |b| b.floor_height.value),
        wheel_radius: desk.quantity(&own.wheel_radius, "wheel_radius", |b| b.wheel_radius.value),
        coupling_height: desk.quantity(&own.coupling_height, "coupling_height", |b| {
            b.coupling_height.value
        }),
        empty_tongue: desk.quantity(&own.empty_tongue, "empty_tongue", |b| tongue_of(b, mass)),
        empty_centre_height: desk.quantity(&own.empty_centre_height, "empty_centre_height", |b| {
            b.empty_centre_height.value
        }),
        brakes: desk.brakes(&own.brakes),
        inside_length,
        axles,
        ball_to_front,
        empty_mass,
        stands_in: desk.like.filter(|_| desk.used).map(|found| found.value.id),
    }
}

/// The lengths that decide where weight goes; what lacks is noted.
pub(super) fn chassis(found: &RoadTrailer, notes: &mut RoadNotes) -> Option<Chassis> {
    if found.inside_length.is_none() {
        notes.lack(&["trailer", "inside_length"], RoadWanted::Trailer);
    }
    let needed = [
        ("ball_to_axle", found.ball_to_axle.is_none()),
        ("track", found.track.is_none()),
        ("empty_mass", found.empty_mass.is_none()),
        ("empty_tongue", found.empty_tongue.is_none()),
        ("ball_to_front", found.ball_to_front.is_none()),
        ("inside_width", found.inside_width.is_none()),
        ("floor_height", found.floor_height.is_none()),
    ];
    for (field, lacks) in needed {
        if lacks {
            notes.lack(&["trailer", field], RoadWanted::Trailer);
        }
    }
    Some(Chassis {
        coupling_to_axle: found.ball_to_axle.as_ref()?.value,
        track: found.track.as_ref()?.value,
        suspension: engine_suspension(found, notes),
    })
}

/// Where the box is; `None` while one of its lengths is not known.
pub(super) fn place(found: &RoadTrailer) -> Option<BoxPlace> {
    Some(BoxPlace {
        ball_to_front: found.ball_to_front.as_ref()?.value,
        inside_width: found.inside_width.as_ref()?.value,
        floor_height: found.floor_height.as_ref()?.value,
    })
}

/// The bare trailer as a load: an even box of the inside size about its own centre of gravity.
pub(super) fn shell(found: &RoadTrailer) -> Option<Load> {
    let (mass, tongue) = (
        found.empty_mass.as_ref()?.value,
        found.empty_tongue.as_ref()?.value,
    );
    let axle = found.ball_to_axle.as_ref()?.value;
    let height = found
        .empty_centre_height
        .as_ref()
        .map_or(0.0, |z| z.value.metres());
    let size = |known: &Option<Known<Length>>| known.as_ref().map_or(Length::ZERO, |k| k.value);
    Some(Load {
        mass,
        centre: Point::from_metres(axle.metres() * (1.0 - tongue / mass), 0.0, height),
        extent: Vector::new(
            size(&found.inside_length),
            size(&found.inside_width),
            Length::ZERO,
        ),
    })
}

/// Heights that decide how tilt moves weight.
pub(super) fn heights(found: &RoadTrailer) -> Option<Heights> {
    Some(Heights {
        wheel_radius: found.wheel_radius.as_ref()?.value,
        coupling_when_level: found.coupling_height.as_ref()?.value,
    })
}

/// Number of axles, at least one.
pub(super) fn axle_count(found: &RoadTrailer) -> usize {
    found
        .axles
        .as_ref()
        .map_or(1, |known| known.value.max(1) as usize)
}

struct StandIns<'a> {
    like: Option<&'static Sourced<BoxTrailer>>,
    notes: &'a mut RoadNotes,
    used: bool,
}

impl StandIns<'_> {
    fn quantity<Q: Quantity>(
        &mut self,
        field: &Field<Q>,
        name: &'static str,
        from: impl Fn(&BoxTrailer) -> Q,
    ) -> Option<Known<Q>> {
        let row = self.like.map(|found| found.map_ref(&from));
        self.used |= field.is_none() && row.is_some();
        self.notes.given_or_row(field, &["trailer", name], row)
    }

    fn axles(&mut self, project: &Project) -> Option<Known<u32>> {
        let row = self.like.map(|found| found.map_ref(&|b| b.axles));
        let field = &project.trailer.axles;
        let path = ["trailer", "axles"];
        // Springs that share between axles speak of two of them.
        let several = matches!(
            project.trailer.suspension.value(),
            Some(Suspension::Equalised | Suspension::Independent)
        );
        match (field, row) {
            (None, Some(row)) if several && row.value < 2 => {
                let two = row.map(|_| 2);
                self.notes
                    .given_or_word(field, &path, Some(two), u32::to_string)
            }
            (_, row) => self.notes.given_or_word(field, &path, row, u32::to_string),
        }
    }

    /// Axle to axle: of the nearest box, or of the first one that has two axles.
    fn spacing(&mut self, field: &Field<Length>) -> Option<Known<Length>> {
        let own = self.like.filter(|found| found.value.axle_spacing.is_some());
        let row = own.or_else(|| {
            let boxes = shelf().boxes.iter();
            let profile = self.like?.value.profile;
            let mut alike = boxes.filter(|found| found.value.profile == profile);
            alike.find(|found| found.value.axle_spacing.is_some())
        });
        let row = row.and_then(|found| {
            let spacing = found.value.axle_spacing?;
            Some(found.map_ref(&|_| spacing.value))
        });
        self.notes
            .given_or_row(field, &["trailer", "axle_spacing"], row)
    }

    fn suspension(
        &mut self,
        field: &Field<Suspension>,
        several: bool,
    ) -> Option<Known<Suspension>> {
        if !several {
            return Some(Known::computed(Suspension::Single));
        }
        match field.value() {
            Some(Suspension::Equalised | Suspension::Independent) => self.notes.given(field),
            _ => {
                let row = self
                    .like
                    .map(|found| found.map_ref(&|_| Suspension::Equalised));
                let path = ["trailer", "suspension"];
                self.notes
                    .given_or_word(&None, &path, row, |word| word.as_str().to_owned())
                    .or(Some(usual(Suspension::Equalised)))
            }
        }
    }

    fn brakes(&mut self, field: &Field<bool>) -> Option<Known<bool>> {
        let row = self.like.map(|found| found.map_ref(&|b| b.brakes));
        let yes = |brakes: &bool| if *brakes { "true" } else { "false" }.to_owned();
        self.notes
            .given_or_word(field, &["trailer", "brakes"], row, yes)
    }
}

/// A row with a value made from it.
trait MapRef<T> {
    fn map_ref<U>(&self, change: &impl Fn(&T) -> U) -> Sourced<U>;
}

impl<T> MapRef<T> for Sourced<T> {
    fn map_ref<U>(&self, change: &impl Fn(&T) -> U) -> Sourced<U> {
        Sourced {
            value: change(&self.value),
            source: self.source,
            mark: self.mark,
        }
    }
}

/// The usual box of the region whose inside is nearest to the one given.
fn nearest(project: &Project, advice: TongueAdvice) -> Option<&'static Sourced<BoxTrailer>> {
    let own = &project.trailer;
    let length = own.inside_length.value()?;
    // Boxes are listed for two regions; the metric ones stand in outside the United States.
    let american = profile_of(advice) == profile_of(TongueAdvice::Us);
    let miss = |found: &&'static Sourced<BoxTrailer>| {
        let like = &found.value;
        let off = |given: Option<&Length>, usual: Length| {
            given.map_or(0.0, |given| (*given - usual).metres().abs())
        };
        let axles = own.axles.value().is_some_and(|axles| *axles != like.axles);
        off(Some(length), like.inside_length.value)
            + off(own.inside_width.value(), like.inside_width.value)
            + if axles { AXLES_AS_METRES } else { 0.0 }
    };
    let boxes = shelf()
        .boxes
        .iter()
        .filter(|found| (found.value.profile == profile_of(TongueAdvice::Us)) == american);
    boxes.min_by(|one, other| miss(one).total_cmp(&miss(other)))
}

/// The axle stands at the same share of the box's length as in the usual box.
fn axle_at(like: &BoxTrailer, inside: Option<Length>, front: Option<Length>) -> Length {
    let behind_front = like.ball_to_axle.value - like.ball_to_front.value;
    let share = behind_front / like.inside_length.value;
    let inside = inside.unwrap_or(like.inside_length.value);
    front.unwrap_or(like.ball_to_front.value) + inside * share
}

/// The bare trailer's ball load at the share that the usual box has.
fn tongue_of(like: &BoxTrailer, mass: Option<Mass>) -> Mass {
    let share = like.empty_tongue.value / like.empty_mass.value;
    mass.unwrap_or(like.empty_mass.value) * share
}

fn engine_suspension(found: &RoadTrailer, notes: &mut RoadNotes) -> balance::Suspension {
    let several = axle_count(found) > 1;
    let spacing = found.axle_spacing.as_ref().map(|known| known.value);
    let (true, Some(spacing)) = (several, spacing) else {
        return balance::Suspension::Single;
    };
    let independent = found
        .suspension
        .as_ref()
        .is_some_and(|known| known.value == Suspension::Independent);
    match &found.axle_stiffness {
        Some(rate) if independent && rate.value.newtons_per_metre() > 0.0 => {
            balance::Suspension::Independent {
                spacing,
                newtons_per_metre: rate.value.newtons_per_metre(),
            }
        }
        _ => {
            if independent {
                notes.lack(&["trailer", "axle_stiffness"], RoadWanted::Stiffness);
            }
            balance::Suspension::Equalised { spacing }
        }
    }
}
