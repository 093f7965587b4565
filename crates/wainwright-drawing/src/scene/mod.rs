//! Scenes: the trailer true to scale, seen from above or from a side, with what
//! stands in it, zones, centres of gravity, trunks, wires and dimensions.
//!
//! Here: where everything comes on the sheet, and that no text lies on another.
//! Not here: where things should be, masses, routes; texts arrive ready.
//!
//! ```
//! use wainwright_drawing::scene::{Extent, Options, Scene, View, draw};
//! let scene = Scene { inside: Extent::new(4.2, 2.0, 1.9), ..Scene::default() };
//! assert!(draw(&scene, &View::plan(), &Options::default()).width > 0.0);
//! ```

mod data;
mod dimension;
mod footer;
mod frame;
mod labels;
mod lanes;
mod measure;
mod opening;
mod options;
mod places;
mod shell;
mod stage;
mod things;
mod wires;
mod zones;

pub use data::{
    Dimension, Hitch, Leaf, Mark, MarkKind, Opening, Outline, Rib, Route, RunningGear, Scene,
    Thing, Trunk, Zone,
};
pub use measure::{Axis, Extent, Space, Spot, Wall};
pub use options::{Face, Facing, Fit, Layer, Options, ScaleBar, View, Words};

use crate::board::{Board, Owner};
use crate::picture::{Pen, Picture};
use crate::svg::Ids;
use labels::{Choices, Label, Lines, List, place};
use stage::Stage;
use things::Placed;
use wires::{PlacedRoute, PlacedTrunk};
use zones::{PlacedMark, PlacedZone};

/// Draws `scene` true to scale. Total and deterministic: what cannot be drawn is
/// left out or named in the list below the drawing.
pub fn draw(scene: &Scene, view: &View, options: &Options) -> Picture {
    let stage = Stage::new(scene, view, options);
    let cast = Cast::new(&stage, options);
    let mut pen = Pen::default();
    cast.draw(&mut pen, &stage, options);
    let edge = stage.edge();
    stage.rows.draw(&mut pen, edge);
    let below = footer::draw(
        &mut pen,
        &stage,
        options,
        edge.y + stage.rows.height() + 4.0,
    );
    let corner = footer::list(&mut pen, &stage, &cast.list, options, below);
    let mut picture = pen.picture(corner.x, corner.y.max(below));
    picture.attributes = attributes(&stage);
    picture
}

/// What a script must know to turn a movement on the sheet into one in the box.
fn attributes(stage: &Stage) -> Vec<(String, String)> {
    let frame = &stage.frame;
    let way = |way: frame::Way| {
        let sign = if way.sign < 0.0 { '-' } else { '+' };
        format!("{sign}{}", way.axis.word())
    };
    let per_unit = format!("{:.4}", 1000.0 / frame.units_per_m);
    [
        ("data-mm-per-unit", per_unit),
        ("data-right", way(frame.right)),
        ("data-down", way(frame.down)),
        ("data-origin-x", format!("{:.4}", frame.origin.x)),
        ("data-origin-y", format!("{:.4}", frame.origin.y)),
    ]
    .map(|(key, value)| (key.to_owned(), value))
    .to_vec()
}

/// Everything on the sheet with its texts in place.
struct Cast<'a> {
    zones: Vec<PlacedZone<'a>>,
    things: Vec<Placed<'a>>,
    trunks: Vec<PlacedTrunk<'a>>,
    routes: Vec<PlacedRoute<'a>>,
    marks: Vec<PlacedMark<'a>>,
    openings: Vec<(&'a Opening, Option<Label>)>,
    list: List,
}

impl<'a> Cast<'a> {
    fn new(stage: &'a Stage, options: &Options) -> Self {
        let mut board = Board::new(stage.area());
        stage.rows.claim(&mut board, stage.edge());
        shell::claim(&mut board, &stage.scene, stage.view, &stage.frame);
        opening::claim(&mut board, &stage.scene, stage.view, &stage.frame);
        let mut cast = Self {
            zones: zones::zones(stage),
            things: things::order(stage, &mut board),
            trunks: wires::trunks(stage, &mut board),
            routes: wires::routes(stage, &mut board),
            marks: zones::marks(stage, &mut board),
            openings: Vec::new(),
            list: List::default(),
        };
        if options.counts {
            wires::count(&mut cast.trunks, &cast.routes, stage, &mut board);
        }
        things::label(&mut cast.things, &mut board, &mut cast.list);
        zones::label(&mut cast.zones, &mut cast.marks, &mut board, &mut cast.list);
        wires::label(
            &mut cast.trunks,
            &mut cast.routes,
            &mut board,
            &mut cast.list,
        );
        cast.openings = openings(stage, &mut board, &mut cast.list);
        cast.number();
        cast
    }

    fn number(&mut self) {
        let things = self.things.iter_mut();
        let things = things.map(|t| {
            let name = with_note(&t.name(), &t.thing.note);
            (&mut t.label, name)
        });
        let zones = self
            .zones
            .iter_mut()
            .map(|z| (&mut z.label, z.zone.label.clone()));
        let marks = self
            .marks
            .iter_mut()
            .map(|m| (&mut m.label, m.mark.label.clone()));
        let trunks = self
            .trunks
            .iter_mut()
            .map(|t| (&mut t.label, t.trunk.label.clone()));
        let routes = self
            .routes
            .iter_mut()
            .map(|r| (&mut r.label, r.route.label.clone()));
        let openings = self
            .openings
            .iter_mut()
            .map(|(o, label)| (label, o.label.clone()));
        let all = things
            .chain(zones)
            .chain(marks)
            .chain(trunks)
            .chain(routes)
            .chain(openings);
        let labels = all.filter_map(|(label, name)| Some((label.as_mut()?, name)));
        labels::number(labels.collect(), &mut self.list);
    }

    fn draw(&self, pen: &mut Pen, stage: &Stage, options: &Options) {
        let mut ids = Ids::new(&options.id_prefix);
        let (scene, view, frame) = (&stage.scene, stage.view, &stage.frame);
        pen.out.open("g", &[("class", "shell")]);
        shell::draw_below(pen, scene, view, frame);
        pen.out
            .rect("floor", frame.rect(&shell::inside(scene)), 0.0);
        shell::draw_axles(pen, scene, view, frame);
        shell::draw_walls(pen, scene, view, frame);
        stage.rows.draw_extensions(pen, stage.edge());
        pen.out.close();
        for (opening, label) in &self.openings {
            let id = ids.next("opening", &opening.id);
            let selected = if opening.selected { " selected" } else { "" };
            let class = format!("opening{selected}");
            things::open(
                pen,
                &id,
                &class,
                &opening.id,
                "opening",
                &opening.words,
                None,
            );
            opening::draw(pen, opening, scene, frame);
            if let Some(label) = label {
                label.write(pen);
            }
            pen.out.close();
        }
        for zone in &self.zones {
            zones::draw_zone(pen, zone, &mut ids);
        }
        let wires_first = options.top == Layer::Things;
        if wires_first {
            self.draw_wires(pen, &mut ids);
        }
        for placed in &self.things {
            things::draw(pen, placed, &mut ids);
        }
        if !wires_first {
            self.draw_wires(pen, &mut ids);
        }
        wires::draw_texts(pen, &self.trunks, &self.routes);
        for label in self.zones.iter().filter_map(|zone| zone.label.as_ref()) {
            label.write(pen);
        }
        for mark in &self.marks {
            zones::draw_mark(pen, mark, stage, &mut ids);
        }
    }

    fn draw_wires(&self, pen: &mut Pen, ids: &mut Ids) {
        for trunk in &self.trunks {
            wires::draw_trunk(pen, trunk, ids);
        }
        let plain = self.routes.iter().filter(|route| !route.route.selected);
        let chosen = self.routes.iter().filter(|route| route.route.selected);
        for route in plain.chain(chosen) {
            wires::draw_route(pen, route, ids);
        }
    }
}

fn with_note(name: &str, note: &str) -> String {
    let parts = [name, note];
    let parts = parts.iter().filter(|part| !part.is_empty());
    parts.copied().collect::<Vec<_>>().join(" · ")
}

/// Openings that this view shows, with their names.
fn openings<'a>(
    stage: &'a Stage,
    board: &mut Board,
    list: &mut List,
) -> Vec<(&'a Opening, Option<Label>)> {
    let face = stage.view.face.wall();
    let shown = stage.scene.openings.iter();
    let shown = shown.filter(|opening| opening::shown(opening, &stage.frame, face));
    let mut placed = Vec::new();
    for opening in shown {
        let mut choices = Choices::default();
        let lines = Lines {
            lines: vec![(crate::picture::Voice::Note, opening.label.clone())],
        };
        let extent = opening::extent(opening, &stage.scene, &stage.frame);
        choices.inside(&lines, extent, 0.0);
        choices.outside(&lines, extent, 0.0);
        choices.number(stage.frame.rect(&opening::hole(opening, &stage.scene)));
        placed.push((
            opening,
            place(board, list, Owner::Below, &opening.label, choices),
        ));
    }
    placed
}
