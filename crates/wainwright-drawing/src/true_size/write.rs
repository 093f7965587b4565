//! Writes the pages of a template.

use super::tiles::{Tile, Tiles, tiles};
use super::{Box2, Cut, Template, Words};
use crate::geometry::{Point, Rect};
use crate::picture::{Pen, Picture};
use crate::sheet::Paper;
use crate::svg::writer::number;
use crate::text::fit;

/// Units of a page in a millimetre.
const UNITS: f64 = 10.0;
/// Length of the bars [mm].
const BAR: f64 = 100.0;
/// Letters: of a title, of a sentence, of a mark [mm].
const TITLE: f64 = 4.2;
const TEXT: f64 = 3.2;
const MARK: f64 = 2.4;
/// Half length of the arms of a mark [mm].
const ARM: f64 = 4.0;
/// Centre lines reach so far beyond a hole [mm].
const BEYOND: f64 = 8.0;

/// All pages with their tiles, row by row from the top; none without a size or when there would be too many.
pub fn pages(template: &Template, paper: Paper, words: &Words) -> Option<(Tiles, Vec<Picture>)> {
    let shared = tiles(&template.board, paper)?;
    let drawn = (0..shared.tiles.len()).map(|index| page(template, &shared, index, words));
    let drawn = drawn.collect();
    Some((shared, drawn))
}

/// The pen with millimetres.
struct Page<'a> {
    pen: Pen,
    tile: &'a Tile,
}

impl Page<'_> {
    /// A place on the board [mm] in units of the page.
    fn at(&self, x: f64, y: f64) -> Point {
        let (x, y) = self.tile.on_paper(x, y);
        Point::new(x * UNITS, y * UNITS)
    }

    fn line(&mut self, class: &str, from: (f64, f64), to: (f64, f64)) {
        let (from, to) = (self.at(from.0, from.1), self.at(to.0, to.1));
        self.pen.out.line(class, from, to);
    }

    fn rect(&mut self, class: &str, place: &Box2) {
        if let Some(rect) = self.placed(place) {
            self.pen.out.rect(class, rect, 0.0);
        }
    }

    fn placed(&self, place: &Box2) -> Option<Rect> {
        place.known().then(|| {
            let corner = self.at(place.x_m * 1000.0, (place.y_m + place.height_m) * 1000.0);
            let (wide, high) = (place.width_m * 1000.0, place.height_m * 1000.0);
            Rect::new(corner.x, corner.y, wide * UNITS, high * UNITS)
        })
    }

    /// A text whose line begins at a place on the paper [mm], at most so wide.
    fn text(&mut self, class: &str, size: f64, at: (f64, f64), most: f64, text: &str) {
        let text = fit(text, size * UNITS, most * UNITS);
        let numbers = [at.0 * UNITS, at.1 * UNITS, size * UNITS].map(number);
        let [x, y, size] = numbers.each_ref().map(String::as_str);
        let mut attributes = vec![("x", x), ("y", y), ("font-size", size)];
        if !class.is_empty() {
            attributes.push(("class", class));
        }
        self.pen.out.text("text", &attributes, &text);
    }
}

fn page(template: &Template, shared: &Tiles, index: usize, words: &Words) -> Picture {
    let size = shared.paper.size_mm(shared.landscape);
    let tile = &shared.tiles[index];
    let mut page = Page {
        pen: Pen::default(),
        tile,
    };
    page.pen.out.open("g", &[("class", "true-size-sheet")]);
    clipped(&mut page, template, shared);
    frame(&mut page, shared);
    bars(&mut page, words, size.1);
    let number_of = format!(
        "{} {} {} {}",
        words.page,
        index + 1,
        words.of,
        shared.tiles.len()
    );
    foot(&mut page, words, &number_of, size);
    page.pen.out.close();
    Picture {
        paper_mm: Some(size),
        ..page.pen.picture(size.0 * UNITS, size.1 * UNITS)
    }
}

/// The board, cut off at the edge of the window.
fn clipped(page: &mut Page<'_>, template: &Template, shared: &Tiles) {
    let window = page.tile.window;
    let numbers = [window.x, window.y, window.width, window.height].map(|mm| number(mm * UNITS));
    let [x, y, width, height] = numbers.each_ref().map(String::as_str);
    let view_box = format!("{x} {y} {width} {height}");
    page.pen.out.open(
        "svg",
        &[
            ("x", x),
            ("y", y),
            ("width", width),
            ("height", height),
            ("viewBox", &view_box),
        ],
    );
    page.rect("edge-line", &template.board);
    page.rect("inside-line", &template.inside);
    for behind in &template.behind {
        page.rect("behind-line", behind);
    }
    for cut in &template.cuts {
        draw_cut(page, cut);
    }
    for drill in &template.drills {
        let numbers = [drill.x_m, drill.y_m, drill.diameter_m];
        if numbers.iter().all(|number| number.is_finite()) {
            let middle = page.at(drill.x_m * 1000.0, drill.y_m * 1000.0);
            let radius = drill.diameter_m * 500.0 * UNITS;
            page.pen.out.circle("drill-line", middle, radius);
            page.pen.out.circle("solid", middle, 0.4 * UNITS);
        }
    }
    for (name, x, y) in &shared.marks {
        mark(page, name, (*x, *y));
    }
    page.pen.out.close();
}

fn draw_cut(page: &mut Page<'_>, cut: &Cut) {
    let Some(rect) = page.placed(&cut.place) else {
        return;
    };
    let middle = Point::new(rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
    page.pen.out.open("g", &[("data-cut", &cut.id)]);
    if cut.round {
        page.pen.out.circle("waste", middle, rect.width / 2.0);
        page.pen.out.circle("cut-line", middle, rect.width / 2.0);
    } else {
        page.pen.out.rect("waste", rect, 0.0);
        page.pen.out.rect("cut-line", rect, 0.0);
    }
    page.pen.out.close();
    let beyond = BEYOND * UNITS;
    page.pen.out.line(
        "centre-line",
        Point::new(rect.x - beyond, middle.y),
        Point::new(rect.right() + beyond, middle.y),
    );
    page.pen.out.line(
        "centre-line",
        Point::new(middle.x, rect.y - beyond),
        Point::new(middle.x, rect.bottom() + beyond),
    );
    let window = page.tile.window;
    let at = (middle.x / UNITS + 3.0, middle.y / UNITS + TEXT + 4.0);
    let room = window.right() - at.0 - 2.0;
    if room > 15.0 && at.1 > window.y && at.1 < window.bottom() {
        page.text("", TEXT, at, room, &cut.name);
        page.text("", TEXT, (at.0, at.1 + TEXT * 1.35), room, &cut.middle);
    }
}

fn mark(page: &mut Page<'_>, name: &str, (x, y): (f64, f64)) {
    page.line("crosshair", (x - ARM, y), (x + ARM, y));
    page.line("crosshair", (x, y - ARM), (x, y + ARM));
    let middle = page.at(x, y);
    page.pen.out.circle("crosshair", middle, 2.0 * UNITS);
    let (px, py) = page.tile.on_paper(x, y);
    page.text("", MARK, (px + 0.8, py - 2.4), 12.0, name);
}

/// The window's edges: the middle of an overlap is where a page may be cut.
fn frame(page: &mut Page<'_>, shared: &Tiles) {
    let (tile, w) = (page.tile, page.tile.window);
    let at = |x: f64, y: f64| Point::new(x * UNITS, y * UNITS);
    let half = super::tiles::OVERLAP / 2.0;
    let mut line = |from: Point, to: Point| page.pen.out.line("tile-edge", from, to);
    if tile.column > 0 {
        line(at(w.x + half, w.y), at(w.x + half, w.bottom()));
    }
    if tile.column + 1 < shared.columns {
        line(at(w.right() - half, w.y), at(w.right() - half, w.bottom()));
    }
    if tile.row > 0 {
        line(at(w.x, w.y + half), at(w.right(), w.y + half));
    }
    if tile.row + 1 < shared.rows {
        line(at(w.x, w.bottom() - half), at(w.right(), w.bottom() - half));
    }
}

/// Bars of 100 mm both ways.
fn bars(page: &mut Page<'_>, words: &Words, height: f64) {
    let w = page.tile.window;
    let level = (w.x, height - 14.0);
    let upright = (w.x - 4.0, w.y + 10.0);
    let at = |(x, y): (f64, f64)| Point::new(x * UNITS, y * UNITS);
    page.pen
        .out
        .line("check-bar", at(level), at((level.0 + BAR, level.1)));
    page.pen
        .out
        .line("check-bar", at(upright), at((upright.0, upright.1 + BAR)));
    for end in [0.0, BAR] {
        let (x, y) = (level.0 + end, level.1);
        page.pen
            .out
            .line("check-end", at((x, y - 2.5)), at((x, y + 2.5)));
        let (x, y) = (upright.0, upright.1 + end);
        page.pen
            .out
            .line("check-end", at((x - 2.5, y)), at((x + 2.5, y)));
    }
    page.text("", TEXT, (level.0, level.1 + 2.5 + TEXT), BAR, &words.bar);
}

fn foot(page: &mut Page<'_>, words: &Words, number_of: &str, (width, height): (f64, f64)) {
    let w = page.tile.window;
    let top = height - 14.0 - 18.0;
    let room = width - w.x - 10.0;
    page.text("", TITLE, (w.x, top + TITLE), room - 55.0, &words.title);
    let place = format!(
        "{number_of}: {} {}, {} {}",
        words.place[0],
        page.tile.row + 1,
        words.place[1],
        page.tile.column + 1
    );
    let right = (width - 10.0, top + TITLE);
    page.text("end", TEXT, right, 90.0, &place);
    for (line, text) in [&words.print, &words.join].into_iter().enumerate() {
        let y = top + TITLE + (line + 1) as f64 * TEXT * 1.4;
        page.text("", TEXT, (w.x, y), room, text);
    }
    let beside = (w.x + BAR + 6.0, height - 12.6);
    page.text("", TEXT, beside, width - 10.0 - beside.0, &words.cut);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::true_size::Drill;
    use crate::{Css, Style};

    fn template() -> Template {
        Template {
            board: Box2::new(-0.0127, -0.0127, 0.6254, 0.4254),
            inside: Box2::new(0.0, 0.0, 0.6, 0.4),
            cuts: vec![Cut {
                id: "meter".into(),
                name: "Meter".into(),
                middle: "middle".into(),
                place: Box2::new(0.1234, 0.2101, 0.0523, 0.0523),
                round: true,
            }],
            drills: vec![Drill {
                x_m: 0.1495,
                y_m: 0.2362,
                diameter_m: 0.006,
            }],
            behind: Vec::new(),
        }
    }

    /// Numbers of an attribute after a mark in the text.
    fn numbers(text: &str, mark: &str, attribute: &str) -> Vec<Vec<f64>> {
        let mut all = Vec::new();
        for part in text.split(mark).skip(1) {
            let value = part.split(&format!("{attribute}=\"")).nth(1).unwrap();
            let value = value.split('"').next().unwrap();
            let clean = value.replace(['M', 'L', 'm'], " ");
            all.push(
                clean
                    .split_whitespace()
                    .map(|n| n.parse().unwrap())
                    .collect(),
            );
        }
        all
    }

    #[test]
    fn bars_are_a_hundred_millimetres_on_every_page_both_ways() {
        for paper in [Paper::Letter, Paper::A4] {
            let (shared, all) = pages(&template(), paper, &Words::default()).unwrap();
            for picture in &all {
                let text = picture.svg(&Style {
                    css: Css::OnPage,
                    ..Style::default()
                });
                let view = &numbers(&text, "<svg", "viewBox")[0];
                let (wide, high) = shared.paper.size_mm(shared.landscape);
                let printed = &numbers(&text, "<svg", "width")[0][0];
                assert!((printed - wide).abs() < 0.05, "{printed}");
                let mm = (wide / view[2], high / view[3]);
                let bars = numbers(&text, "class=\"check-bar\"", "d");
                let lengths: Vec<(f64, f64)> = bars
                    .iter()
                    .map(|bar| ((bar[2] - bar[0]) * mm.0, (bar[3] - bar[1]) * mm.1))
                    .collect();
                assert_eq!(lengths.len(), 2);
                assert!(
                    (lengths[0].0 - 100.0).abs() < 0.005 && lengths[0].1 == 0.0,
                    "{lengths:?}"
                );
                assert!(
                    (lengths[1].1 - 100.0).abs() < 0.005 && lengths[1].0 == 0.0,
                    "{lengths:?}"
                );
            }
        }
    }

    #[test]
    fn a_hole_is_where_the_model_has_it_to_a_tenth_of_a_millimetre() {
        let (shared, all) = pages(&template(), Paper::A4, &Words::default()).unwrap();
        for (tile, picture) in shared.tiles.iter().zip(&all) {
            let text = picture.svg(&Style::default());
            let x = numbers(&text, "class=\"cut-line\"", "cx")[0][0] / 10.0;
            let y = numbers(&text, "class=\"cut-line\"", "cy")[0][0] / 10.0;
            let r = numbers(&text, "class=\"cut-line\"", "r")[0][0] / 10.0;
            // 123.4 + 26.15 and 210.1 + 26.15 mm on the board.
            let (on_x, on_y) = (
                x - tile.window.x + tile.left,
                tile.top - (y - tile.window.y),
            );
            assert!((on_x - 149.55).abs() < 0.1 && (on_y - 236.25).abs() < 0.1);
            assert!((r - 26.15).abs() < 0.1, "{r}");
        }
    }

    #[test]
    fn names_are_escaped_and_no_number_is_none() {
        let mut bad = template();
        bad.cuts[0].name = "<x>".into();
        bad.drills[0].x_m = f64::NAN;
        let (_, all) = pages(&bad, Paper::Letter, &Words::default()).unwrap();
        for picture in all {
            let text = picture.svg(&Style::default());
            assert!(!text.contains("NaN") && !text.contains("<x>"));
        }
    }
}
