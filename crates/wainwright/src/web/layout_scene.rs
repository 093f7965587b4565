//! The trailer with what stands in it, as a scene to be drawn: from the project
//! and the road study to plain data. Not here: drawing, and where things should be.

mod shell;
mod things;

pub use things::{place_words, small};

use crate::views::road::words;
use wainwright_analysis::frame::{BoxPlace, box_from_trailer};
use wainwright_analysis::result::road::{RoadResult, RoadState, Zone};
use wainwright_drawing::scene::{
    self, Axis, Dimension, Extent, Fit, Mark, MarkKind, Options, ScaleBar, Scene, Space, Spot, View,
};
use wainwright_drawing::{Css, Style, Tone};
use wainwright_model::{Id, Project};
use wainwright_units::{Length, Quantity, System};

/// What is shown.
pub struct Shown<'a> {
    /// The project.
    pub project: &'a Project,
    /// Its road study.
    pub road: &'a RoadResult,
    /// The chosen item.
    pub chosen: Option<&'a str>,
    /// Where the chosen item may stand.
    pub zone: Option<&'a Zone>,
    /// Items shown elsewhere than the project has them: each with its new place; outlined where it was.
    pub moved: &'a [(Id, wainwright_model::Spot)],
    /// Whether small light things are shown too; there are many, and they hide the others.
    pub small: bool,
    /// Units of the words.
    pub units: System,
}

/// Height of the zone on the floor [m]; it is seen from above, and as a strip from the side.
const ZONE_HEIGHT: f64 = 0.03;

/// The scene; none before the size of the box is known.
pub fn scene(shown: &Shown<'_>) -> Option<Scene> {
    let inside = shell::inside(shown.road)?;
    let mut scene = shell::shell(shown, inside);
    scene.things = things::things(shown);
    scene.zones = shown
        .zone
        .and_then(|zone| hatched(shown, zone))
        .into_iter()
        .collect();
    scene.points = centre(shown).into_iter().collect();
    scene.dimensions = chosen_dimensions(shown);
    Some(scene)
}

/// Distances of the ribs from the front wall [m].
pub fn rib_places(shown: &Shown<'_>) -> Vec<f64> {
    shell::inside(shown.road).map_or_else(Vec::new, |inside| shell::rib_places(shown, inside))
}

/// Draws a scene as text for the page.
pub fn draw(
    scene: &Scene,
    view: &View,
    fit: Fit,
    title: &str,
    prefix: &str,
    units: System,
) -> String {
    let options = Options {
        fit,
        scale_bars: scale_bars(units),
        id_prefix: prefix.to_owned(),
        ..Options::default()
    };
    let style = Style {
        title: title.to_owned(),
        id_prefix: prefix.to_owned(),
        css: Css::OnPage,
    };
    scene::draw(scene, view, &options).svg(&style)
}

/// Where the box is in the trailer frame.
pub fn box_place(road: &RoadResult) -> Option<BoxPlace> {
    let trailer = &road.trailer;
    Some(BoxPlace {
        ball_to_front: trailer.ball_to_front.as_ref()?.value,
        inside_width: trailer.inside_width.as_ref()?.value,
        floor_height: trailer.floor_height.as_ref()?.value,
    })
}

/// The centre of gravity of a state, by tape measure.
pub fn centre_spot(road: &RoadResult, state: &RoadState) -> Option<Spot> {
    let spot = box_from_trailer(&box_place(road)?, state.centre);
    Some(spot_of(spot))
}

/// A place as the drawing wants it.
pub fn spot_of(spot: wainwright_model::Spot) -> Spot {
    Spot::new(
        spot.from_front.metres(),
        spot.from_left.metres(),
        spot.above_floor.metres(),
    )
}

fn extent_of(size: wainwright_model::Extent) -> Extent {
    Extent::new(size.along.metres(), size.across.metres(), size.up.metres())
}

/// Lengths for the scale bar.
pub fn scale_bars(units: System) -> Vec<ScaleBar> {
    let bar = |length: Length, text: &str| ScaleBar {
        length_m: length.metres(),
        text: text.to_owned(),
    };
    match units {
        System::Us => vec![
            bar(Length::from_inches(12.0), "1 ft"),
            bar(Length::from_inches(24.0), "2 ft"),
            bar(Length::from_inches(48.0), "4 ft"),
        ],
        System::Metric => vec![
            bar(Length::from_metres(0.25), "25 cm"),
            bar(Length::from_metres(0.5), "50 cm"),
            bar(Length::from_metres(1.0), "1 m"),
        ],
    }
}

/// The centre of gravity in the heaviest state, with where it goes in the other extreme ones.
fn centre(shown: &Shown<'_>) -> Option<Mark> {
    let road = shown.road;
    let worst = road.worst?;
    let heaviest = road.states.get(worst.most_mass)?;
    let at = centre_spot(road, heaviest)?;
    let mut travel: Vec<Spot> = worst
        .distinct()
        .into_iter()
        .filter_map(|index| centre_spot(road, road.states.get(index)?))
        .collect();
    travel.sort_by(|one, other| one.from_front_m.total_cmp(&other.from_front_m));
    travel.dedup();
    let metres = |value: f64| Length::from_metres(value).show(shown.units);
    Some(Mark {
        id: "centre".into(),
        label: "centre of gravity".into(),
        words: format!(
            "Centre of gravity, heaviest state: {} from the front wall, {} from the left wall, {} above the floor; all mass {}",
            metres(at.from_front_m),
            metres(at.from_left_m),
            metres(at.up_m),
            heaviest.mass.show(shown.units)
        ),
        at,
        travel: if travel.len() > 1 { travel } else { Vec::new() },
        spread: None,
        kind: MarkKind::Centre,
        tone: Tone::Scale(0.0),
    })
}

/// Where the chosen item may stand, as the floor its body may cover.
fn hatched(shown: &Shown<'_>, zone: &Zone) -> Option<scene::Zone> {
    let (front, rear) = zone.along?;
    let inside = shell::inside(shown.road)?;
    let size = things::size(shown.project, zone.item.as_str());
    let (left, right) = zone
        .across
        .map_or((0.0, inside.across_m - size.across_m), |(left, right)| {
            (left.metres(), right.metres())
        });
    let name = words::item(shown.project, zone.item.as_str());
    Some(scene::Zone {
        id: zone.item.to_string(),
        label: "may stand here".into(),
        words: format!(
            "{name} may stand from {} to {} behind the front wall",
            front.show(shown.units),
            rear.show(shown.units)
        ),
        spaces: vec![Space {
            at: Spot::new(front.metres(), left, 0.0),
            size: Extent::new(
                rear.metres() - front.metres() + size.along_m,
                right - left + size.across_m,
                ZONE_HEIGHT,
            ),
        }],
        tone: Tone::Calm,
    })
}

/// How far the chosen item is from the walls and the floor.
fn chosen_dimensions(shown: &Shown<'_>) -> Vec<Dimension> {
    let item = shown.chosen.and_then(|id| shown.project.items.get(id));
    let Some(spot) = item
        .and_then(|item| item.body.spot.as_ref())
        .map(|given| given.value)
    else {
        return Vec::new();
    };
    let at = spot_of(spot);
    let from = |axis: Axis, from: Spot, length: Length| Dimension {
        from,
        to: at,
        axis,
        text: length.show(shown.units),
    };
    vec![
        from(
            Axis::Along,
            Spot {
                from_front_m: 0.0,
                ..at
            },
            spot.from_front,
        ),
        from(
            Axis::Across,
            Spot {
                from_left_m: 0.0,
                ..at
            },
            spot.from_left,
        ),
        from(Axis::Up, Spot { up_m: 0.0, ..at }, spot.above_floor),
    ]
}
