//! A wall cut through, to scale: its layers from outside inwards, the temperature through them as a line, and where
//! water forms. Not here: what any of it is reckoned from, and names of layers, which stand in a list beside it.

use super::plot::{LEAST_WIDTH, Mark, Plot, widest};
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Picture, Voice};
use crate::svg::writer::number;
use std::fmt::Write as _;

const HEIGHT: f64 = 190.0;
/// Air drawn at either side [px].
const AIR: f64 = 46.0;
/// A layer is drawn at least so thick [px].
const THINNEST: f64 = 2.0;
/// Rows that numbers of layers and words for water may take.
const ROWS: usize = 3;

/// A wall cut through.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BuildUp {
    /// From outside inwards.
    pub plies: Vec<Ply>,
    /// Air outside and its name.
    pub outside: (Option<f64>, String),
    /// Air inside and its name.
    pub inside: (Option<f64>, String),
    /// Lowest and highest temperature of the scale.
    pub span: (f64, f64),
    /// Round temperatures, with their texts.
    pub marks: Vec<Mark>,
    /// Where water forms.
    pub wet: Vec<WetMark>,
    /// The whole thickness as people read it.
    pub thick: String,
}

/// One layer.
#[derive(Debug, Clone, PartialEq)]
pub struct Ply {
    /// Thickness \[m\].
    pub thickness_m: f64,
    /// What it looks like: `skin`, `battens`, `foam`, `planks`, `sheets`, `film` or `air`.
    pub class: &'static str,
    /// Its number in the list.
    pub number: String,
    /// Temperature of its outer and inner face.
    pub faces: Option<(f64, f64)>,
}

/// Water at a place.
#[derive(Debug, Clone, PartialEq)]
pub struct WetMark {
    /// So many layers lie outside of it; with a half: in the middle of a layer.
    pub after: f64,
    /// How much, in a few letters.
    pub text: String,
}

/// Draws the wall; at least 300 px wide.
pub fn build_up(wall: &BuildUp, width: f64) -> Picture {
    let width = width.max(LEAST_WIDTH);
    let high = Voice::Note.height();
    let left = widest(&wall.marks) + 8.0;
    let field = Rect::new(
        left,
        ROWS as f64 * (high + 2.0) + 4.0,
        width - left - 4.0,
        HEIGHT,
    );
    let plot = Plot::new(field, wall.span.0, wall.span.1);
    let edges = edges(wall, field);
    let mut pen = Pen::default();
    plies(&mut pen, wall, field, &edges);
    plot.marks(&mut pen, &wall.marks);
    numbers(&mut pen, wall, field, &edges);
    temperature(&mut pen, wall, &plot, &edges);
    let words = wet(&mut pen, wall, field, &edges);
    plot.frame(&mut pen);
    let foot = field.bottom() + 4.0 + words;
    ends(&mut pen, wall, field, &edges, foot);
    pen.picture(width, foot + high + 4.0)
}

/// Where layers begin and end [px], outside first; one more than there are layers.
fn edges(wall: &BuildUp, field: Rect) -> Vec<f64> {
    let sizes: Vec<f64> = wall.plies.iter().map(thick).collect();
    let all: f64 = sizes.iter().sum();
    let room = field.width - 2.0 * AIR;
    let drawn: Vec<f64> = sizes
        .iter()
        .map(|size| (size / all.max(1e-9) * room).max(THINNEST))
        .collect();
    // Thin layers took more than their share.
    let shrink = room / drawn.iter().sum::<f64>().max(1.0);
    let mut at = field.x + AIR;
    let mut edges = vec![at];
    for size in drawn {
        at += size * shrink;
        edges.push(at);
    }
    edges
}

fn thick(ply: &Ply) -> f64 {
    if ply.thickness_m.is_finite() {
        ply.thickness_m.max(0.0)
    } else {
        0.0
    }
}

fn plies(pen: &mut Pen, wall: &BuildUp, field: Rect, edges: &[f64]) {
    for (ply, pair) in wall.plies.iter().zip(edges.windows(2)) {
        let rect = Rect::new(pair[0], field.y, pair[1] - pair[0], field.height);
        pen.out.rect(&format!("ply {}", ply.class), rect, 0.0);
    }
}

/// A place for a text around `middle` in the first row that is free there; the row and the left edge.
fn row(taken: &mut [f64; ROWS], middle: f64, wide: f64, span: (f64, f64)) -> Option<(usize, f64)> {
    let start = (middle - wide / 2.0).max(span.0).min(span.1 - wide);
    let row = taken.iter().position(|right| start > right + 3.0)?;
    taken[row] = start + wide;
    Some((row, start))
}

fn numbers(pen: &mut Pen, wall: &BuildUp, field: Rect, edges: &[f64]) {
    let high = Voice::Key.height();
    let mut taken = [f64::NEG_INFINITY; ROWS];
    for (ply, pair) in wall.plies.iter().zip(edges.windows(2)) {
        let middle = (pair[0] + pair[1]) / 2.0;
        let wide = Voice::Key.width(&ply.number);
        let span = (field.x, field.right());
        let Some((row, start)) = row(&mut taken, middle, wide, span) else {
            continue;
        };
        let top = field.y - 4.0 - (row + 1) as f64 * (high + 2.0);
        pen.out.line(
            "leader",
            Point::new(middle, top + high),
            Point::new(middle, field.y),
        );
        let rect = Rect::new(start, top, wide, high);
        pen.text_in(Voice::Key, rect, Align::Middle, &ply.number);
    }
}

fn temperature(pen: &mut Pen, wall: &BuildUp, plot: &Plot, edges: &[f64]) {
    let mut points: Vec<(f64, f64)> = Vec::new();
    if let Some(air) = wall.outside.0 {
        points.push((plot.field.x, air));
        points.push((plot.field.x + AIR * 0.6, air));
    }
    for (ply, pair) in wall.plies.iter().zip(edges.windows(2)) {
        if let Some((outer, inner)) = ply.faces {
            points.extend([(pair[0], outer), (pair[1], inner)]);
        }
    }
    if let Some(air) = wall.inside.0 {
        points.push((plot.field.right() - AIR * 0.6, air));
        points.push((plot.field.right(), air));
    }
    if points.len() < 2 {
        return;
    }
    let mut data = String::new();
    for (index, (x, value)) in points.iter().enumerate() {
        let start = if index == 0 { 'M' } else { 'L' };
        let _ = write!(data, "{start}{} {}", number(*x), number(plot.y(*value)));
    }
    pen.out.path("through-halo", &data);
    pen.out.path("through", &data);
}

/// Where water forms: a blue line with a drop on it, and how much below. Returns the height of the words.
fn wet(pen: &mut Pen, wall: &BuildUp, field: Rect, edges: &[f64]) -> f64 {
    let high = Voice::Note.height();
    let mut taken = [f64::NEG_INFINITY; ROWS];
    let mut rows = 0;
    for mark in &wall.wet {
        let Some(x) = place(mark.after, edges) else {
            continue;
        };
        let (top, foot) = (Point::new(x, field.y), Point::new(x, field.bottom() + 4.0));
        pen.out.line("wet-line", top, foot);
        let y = field.y + 12.0;
        let drop = format!(
            "M{x} {}c5 8 7 10 7 14a7 7 0 0 1 -14 0c0 -4 2 -6 7 -14z",
            number(y),
            x = number(x)
        );
        pen.out.path("drop", &drop);
        let wide = Voice::Note.width(&mark.text);
        let Some((row, start)) = row(&mut taken, x, wide, (field.x, field.right())) else {
            continue;
        };
        rows = rows.max(row + 1);
        let top = field.bottom() + 4.0 + row as f64 * (high + 2.0);
        pen.text(Voice::Note, Point::new(start, top), &mark.text);
    }
    rows as f64 * (high + 2.0)
}

/// Where so many layers lie outside [px].
fn place(after: f64, edges: &[f64]) -> Option<f64> {
    if !(after.is_finite() && after >= 0.0) {
        return None;
    }
    let low = edges.get(after.floor() as usize)?;
    let high = edges.get(after.ceil() as usize)?;
    Some(low + (high - low) * after.fract())
}

fn ends(pen: &mut Pen, wall: &BuildUp, field: Rect, edges: &[f64], top: f64) {
    let high = Voice::Note.height();
    let third = field.width / 3.0;
    let box_at = |index: f64| Rect::new(field.x + third * index, top, third, high);
    let fit = |text: &str| Voice::Note.fit(text, third);
    pen.text_in(
        Voice::Note,
        box_at(0.0),
        Align::Start,
        &fit(&wall.outside.1),
    );
    pen.text_in(Voice::Note, box_at(2.0), Align::End, &fit(&wall.inside.1));
    if edges.len() > 1 {
        pen.text_in(Voice::Note, box_at(1.0), Align::Middle, &fit(&wall.thick));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ply(thickness_m: f64) -> Ply {
        Ply {
            thickness_m,
            class: "foam",
            number: "1".into(),
            faces: None,
        }
    }

    #[test]
    fn layers_are_as_thick_as_they_are_and_fill_the_wall() {
        let wall = BuildUp {
            plies: vec![ply(0.03), ply(0.01)],
            ..BuildUp::default()
        };
        let field = Rect::new(0.0, 0.0, 400.0 + 2.0 * AIR, 100.0);
        assert_eq!(edges(&wall, field), vec![AIR, AIR + 300.0, AIR + 400.0]);
    }

    #[test]
    fn water_stands_between_layers_or_in_the_middle_of_one() {
        let edges = [10.0, 20.0, 60.0];
        assert_eq!(place(1.0, &edges), Some(20.0));
        assert_eq!(place(1.5, &edges), Some(40.0));
        assert_eq!(place(3.0, &edges), None);
        assert_eq!(place(f64::NAN, &edges), None);
    }
}
