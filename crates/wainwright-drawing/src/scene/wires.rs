//! Trunks and the wires in them: bands, lanes, counts, names.

use super::data::{Route, Trunk};
use super::labels::{Choices, Label, Lines, List, place};
use super::lanes;
use super::stage::Stage;
use super::things::open;
use crate::board::{Board, Candidate, Owner};
use crate::diagram::{Pole, Tone};
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Voice};
use crate::svg::Ids;
use crate::svg::writer::number;

/// How far a wire may be from a trunk to count as lying in it [px].
const NEAR: f64 = 2.0;

/// A trunk on the sheet.
#[derive(Debug)]
pub(super) struct PlacedTrunk<'a> {
    pub trunk: &'a Trunk,
    path: Vec<Point>,
    count: Option<(Rect, String)>,
    pub label: Option<Label>,
}

/// A wire on the sheet.
#[derive(Debug)]
pub(super) struct PlacedRoute<'a> {
    pub route: &'a Route,
    path: Vec<Point>,
    rises: Vec<Point>,
    pub label: Option<Label>,
}

/// Places trunks; their texts come later.
pub(super) fn trunks<'a>(stage: &'a Stage, board: &mut Board) -> Vec<PlacedTrunk<'a>> {
    let place = |trunk: &'a Trunk| {
        let path: Vec<Point> = trunk
            .path
            .iter()
            .map(|spot| stage.frame.point(*spot))
            .collect();
        for (a, b) in pairs(&path) {
            board.line(a, b);
        }
        PlacedTrunk {
            trunk,
            path,
            count: None,
            label: None,
        }
    };
    stage.scene.trunks.iter().map(place).collect()
}

/// Places wires in their lanes; their texts come later.
pub(super) fn routes<'a>(stage: &'a Stage, board: &mut Board) -> Vec<PlacedRoute<'a>> {
    let points = |route: &Route| {
        route
            .path
            .iter()
            .map(|spot| stage.frame.point(*spot))
            .collect()
    };
    let plain: Vec<Vec<Point>> = stage.scene.routes.iter().map(points).collect();
    let apart = lanes::apart(&plain);
    let place = |((route, path), plain): ((&'a Route, Vec<Point>), &Vec<Point>)| {
        for (a, b) in pairs(&path) {
            board.line(a, b);
        }
        PlacedRoute {
            route,
            path,
            rises: lanes::rises(plain),
            label: None,
        }
    };
    stage
        .scene
        .routes
        .iter()
        .zip(apart)
        .zip(&plain)
        .map(place)
        .collect()
}

fn pairs(path: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    path.windows(2).filter_map(|pair| match pair {
        &[a, b] => Some((a, b)),
        _ => None,
    })
}

/// Finds places for the names of wires and trunks.
pub(super) fn label(
    trunks: &mut [PlacedTrunk],
    routes: &mut [PlacedRoute],
    board: &mut Board,
    list: &mut List,
) {
    for placed in routes.iter_mut() {
        let choices = along(&placed.path, &placed.route.label);
        placed.label = place(board, list, Owner::Over, &placed.route.label, choices);
    }
    for placed in trunks.iter_mut() {
        let choices = along(&placed.path, &placed.trunk.label);
        placed.label = place(board, list, Owner::Over, &placed.trunk.label, choices);
    }
}

/// Finds places for the counts of wires, on the longest pieces of each trunk.
pub(super) fn count(
    trunks: &mut [PlacedTrunk],
    routes: &[PlacedRoute],
    stage: &Stage,
    board: &mut Board,
) {
    for placed in trunks {
        let mut pieces: Vec<(Point, Point)> = pairs(&placed.path).collect();
        pieces.sort_by(|(a, b), (c, d)| {
            let length = |a: &Point, b: &Point| (a.x - b.x).hypot(a.y - b.y);
            length(c, d).total_cmp(&length(a, b))
        });
        let mut places = Vec::new();
        let mut texts = Vec::new();
        for (rank, (a, b)) in pieces.into_iter().enumerate().take(3) {
            for share in [0.5, 0.35, 0.65, 0.2, 0.8] {
                let at = Point::new(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share);
                let wires = routes
                    .iter()
                    .filter(|wire| passes(wire.route, stage, at))
                    .count();
                if wires < 2 {
                    continue;
                }
                let text = format!("×{wires}");
                let width = Voice::Key.width(&text) + 8.0;
                places.push(Candidate {
                    rect: Rect::new(at.x - width / 2.0, at.y - 8.0, width, 16.0),
                    leader: None,
                    price: rank as f64,
                    opaque: true,
                });
                texts.push(text);
            }
        }
        let taken = board.take(Owner::Over, &places);
        let taken =
            taken.and_then(|number| Some((places.get(number)?.rect, texts.get(number)?.clone())));
        placed.count = taken;
    }
}

/// Whether a wire runs through a place, before it got its lane.
fn passes(route: &Route, stage: &Stage, at: Point) -> bool {
    let path: Vec<Point> = route
        .path
        .iter()
        .map(|spot| stage.frame.point(*spot))
        .collect();
    pairs(&path).any(|(a, b)| {
        let (x, y) = (b.x - a.x, b.y - a.y);
        let square = x * x + y * y;
        let share = match square > 0.0 {
            true => (((at.x - a.x) * x + (at.y - a.y) * y) / square).clamp(0.0, 1.0),
            false => 0.0,
        };
        (a.x + x * share - at.x).hypot(a.y + y * share - at.y) <= NEAR
    })
}

fn along(path: &[Point], name: &str) -> Choices {
    let mut choices = Choices::default();
    let lines = Lines {
        lines: vec![(Voice::Note, name.to_owned())],
    };
    for (rank, (a, b)) in pairs(path).enumerate().take(12) {
        for share in [0.5, 0.3, 0.7] {
            let at = Point::new(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share);
            let around = Rect::new(at.x - 3.0, at.y - 3.0, 6.0, 6.0);
            choices.outside(&lines, around, rank as f64 * 0.2);
            if share == 0.5 && rank < 4 {
                choices.number(around);
            }
        }
    }
    choices
}

/// Draws one trunk.
pub(super) fn draw_trunk(pen: &mut Pen, placed: &PlacedTrunk, ids: &mut Ids) {
    let trunk = placed.trunk;
    if placed.path.len() < 2 {
        return;
    }
    let hidden = if trunk.hidden { " dashed" } else { "" };
    let selected = if trunk.selected { " selected" } else { "" };
    let id = ids.next("trunk", &trunk.id);
    let class = format!("trunk{hidden}{selected}");
    open(pen, &id, &class, &trunk.id, "trunk", &trunk.words, None);
    let data = data(&placed.path);
    pen.out.path("touch-line", &data);
    pen.out.path("duct", &data);
    if trunk.hidden {
        pen.out.path("behind", &data);
    }
    pen.out.close();
}

/// Draws one wire.
pub(super) fn draw_route(pen: &mut Pen, placed: &PlacedRoute, ids: &mut Ids) {
    let route = placed.route;
    if placed.path.len() < 2 && placed.rises.is_empty() {
        return;
    }
    let scaled = if matches!(route.tone, Tone::Scale(_)) {
        " scaled"
    } else {
        ""
    };
    let selected = if route.selected { " selected" } else { "" };
    let class = format!(
        "link route {} {} t{}{scaled}{selected}",
        route.pole.word(),
        route.tone.class(),
        route.thickness.min(5)
    );
    let id = ids.next("wire", &route.id);
    open(pen, &id, &class, &route.id, "wire", &route.words, None);
    let data = data(&placed.path);
    if placed.path.len() > 1 {
        pen.out.path("hit", &data);
        pen.out.path("halo", &data);
        pen.out.path("wire", &data);
        if route.pole == Pole::Minus {
            pen.out.path("core", &data);
        }
    }
    for rise in &placed.rises {
        pen.out.circle("rise", *rise, 2.6);
    }
    pen.out.close();
}

/// Draws counts and names over all wires.
pub(super) fn draw_texts(pen: &mut Pen, trunks: &[PlacedTrunk], routes: &[PlacedRoute]) {
    for trunk in trunks {
        if let Some((rect, text)) = &trunk.count {
            pen.out.rect("count", *rect, 8.0);
            pen.text_in(Voice::Key, *rect, Align::Middle, text);
        }
        if let Some(label) = &trunk.label {
            label.write(pen);
        }
    }
    for label in routes.iter().filter_map(|route| route.label.as_ref()) {
        label.write(pen);
    }
}

fn data(path: &[Point]) -> String {
    let mut data = String::new();
    for (index, point) in path.iter().enumerate() {
        let letter = if index == 0 { 'M' } else { 'L' };
        data.push(letter);
        data.push_str(&format!("{} {}", number(point.x), number(point.y)));
    }
    data
}
