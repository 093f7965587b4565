//! Lays out and writes the legend card.

use super::data::{CardOptions, Corner, FuseCard, Order, Way};
use crate::diagram::Tone;
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Picture, Voice};
use crate::svg::Ids;

/// Colours of blade fuses (names as in ISO 8820-3) that have a swatch. The shades
/// on the screen are our own.
pub(crate) const SWATCHES: &[&str] = &[
    "black",
    "grey",
    "violet",
    "pink",
    "tan",
    "brown",
    "red",
    "light blue",
    "blue",
    "yellow",
    "white",
    "clear",
    "natural",
    "light green",
    "green",
    "blue-green",
    "orange",
    "amber",
];

/// Edge of the card and of the block [px].
const EDGE: f64 = 10.0;
/// Between the two columns [px]: the rail of the block.
const SPINE: f64 = 14.0;
/// From the left edge of a way to its texts [px].
const TEXTS: f64 = 58.0;
/// Least height of a way [px].
const LEAST: f64 = 50.0;

/// The texts of one way, in lines.
struct Cell<'a> {
    way: &'a Way,
    lines: Vec<(Voice, String)>,
}

/// Draws the card of one fuse block. Total and deterministic.
pub fn fuse_card(card: &FuseCard, options: &CardOptions) -> Picture {
    let wanted = if options.width.is_finite() {
        options.width
    } else {
        560.0
    };
    let width = wanted.clamp(280.0, 2000.0);
    let cell_width = (width - 4.0 * EDGE - SPINE) / 2.0;
    let mut pen = Pen::default();
    let mut y = EDGE;
    for (voice, text) in [(Voice::Heading, &card.title), (Voice::Note, &card.subtitle)] {
        for line in voice.wrap(text, width - 2.0 * EDGE) {
            pen.text(voice, Point::new(EDGE, y), &line);
            y += voice.height() + 1.0;
        }
    }
    let top = y + 6.0;
    let rows = rows(card, cell_width);
    let heights: Vec<f64> = rows.iter().map(height).collect();
    let tall: f64 = heights.iter().sum();
    let block = Rect::new(EDGE, top, width - 2.0 * EDGE, tall + 2.0 * EDGE);
    pen.out.rect("box", block, 9.0);
    let rail = Rect::new(width / 2.0 - 3.0, top + EDGE, 6.0, tall);
    pen.out.rect("spine", rail, 3.0);
    let mut ids = Ids::new(&options.id_prefix);
    y = top + EDGE;
    for (row, height) in rows.iter().zip(&heights) {
        for (column, cell) in row.iter().enumerate() {
            let x = 2.0 * EDGE + column as f64 * (cell_width + SPINE);
            if let Some(cell) = cell {
                let rect = Rect::new(x, y + 2.0, cell_width, height - 4.0);
                write(&mut pen, cell, rect, &mut ids);
            }
        }
        y += height;
    }
    y = block.bottom() + 8.0;
    for note in &card.notes {
        for line in Voice::Note.wrap(note, width - 2.0 * EDGE) {
            pen.text(Voice::Note, Point::new(EDGE, y), &line);
            y += Voice::Note.height() + 2.0;
        }
    }
    pen.picture(width, y + EDGE)
}

/// The ways in rows as they are mounted, left before right.
fn rows(card: &FuseCard, cell_width: f64) -> Vec<[Option<Cell<'_>>; 2]> {
    let count = card.ways.len().div_ceil(2);
    let mut rows: Vec<[Option<Cell>; 2]> = (0..count).map(|_| [None, None]).collect();
    for (index, way) in card.ways.iter().enumerate() {
        let (row, column) = match card.order {
            Order::DownColumns => (index % count.max(1), index / count.max(1)),
            Order::AcrossRows => (index / 2, index % 2),
        };
        let row = match card.first {
            Corner::TopLeft | Corner::TopRight => row,
            Corner::BottomLeft | Corner::BottomRight => count - 1 - row,
        };
        let column = match card.first {
            Corner::TopLeft | Corner::BottomLeft => column,
            Corner::TopRight | Corner::BottomRight => 1 - column.min(1),
        };
        let place = rows.get_mut(row).and_then(|row| row.get_mut(column));
        if let Some(place) = place {
            *place = Some(cell(way, cell_width));
        }
    }
    rows
}

fn cell(way: &Way, cell_width: f64) -> Cell<'_> {
    let room = cell_width - TEXTS - 4.0;
    let sign = match way.tone {
        Tone::Bad => "! ",
        Tone::Watch => "? ",
        _ => "",
    };
    let fuse = [way.rating.as_str(), way.colour.as_str()];
    let fuse: Vec<&str> = fuse.into_iter().filter(|text| !text.is_empty()).collect();
    let mut lines = Vec::new();
    for (voice, text) in [
        (Voice::Name, format!("{sign}{}", way.circuit)),
        (Voice::Note, fuse.join(" · ")),
        (Voice::Note, way.detail.clone()),
    ] {
        lines.extend(
            voice
                .wrap(&text, room)
                .into_iter()
                .map(|line| (voice, line)),
        );
    }
    Cell { way, lines }
}

fn height(row: &[Option<Cell>; 2]) -> f64 {
    let tall = |cell: &Cell| {
        cell.lines
            .iter()
            .map(|(voice, _)| voice.height())
            .sum::<f64>()
            + 14.0
    };
    row.iter().flatten().map(tall).fold(LEAST, f64::max)
}

fn write(pen: &mut Pen, cell: &Cell, rect: Rect, ids: &mut Ids) {
    let way = cell.way;
    let selected = if way.selected { " selected" } else { "" };
    let id = ids.next("way", &way.id);
    let class = format!("way {}{selected}", way.tone.class());
    let attributes = [
        ("id", id.as_str()),
        ("class", &class),
        ("data-id", &way.id),
        ("data-kind", "way"),
        ("tabindex", "0"),
        ("role", "button"),
    ];
    pen.out.open("g", &attributes);
    pen.out.text("title", &[], &way.words);
    pen.out.rect("slot", rect, 5.0);
    let middle = rect.y + rect.height / 2.0;
    let number = Rect::new(rect.x + 3.0, middle - 8.0, 24.0, 16.0);
    pen.text_in(
        Voice::Key,
        number,
        Align::Middle,
        &Voice::Key.fit(&way.number, 24.0),
    );
    fuse(pen, Point::new(rect.x + 41.0, middle), &way.colour);
    let tall: f64 = cell.lines.iter().map(|(voice, _)| voice.height()).sum();
    let mut y = middle - tall / 2.0;
    for (voice, line) in &cell.lines {
        pen.text(*voice, Point::new(rect.x + TEXTS, y), line);
        y += voice.height();
    }
    pen.out.close();
}

/// A blade fuse seen from the front: a body over two blades.
fn fuse(pen: &mut Pen, at: Point, colour: &str) {
    let left = Rect::new(at.x - 7.5, at.y + 3.0, 5.0, 11.0);
    let right = Rect::new(at.x + 2.5, at.y + 3.0, 5.0, 11.0);
    let body = Rect::new(at.x - 10.0, at.y - 13.0, 20.0, 17.0);
    if colour.is_empty() {
        pen.out.rect("swatch empty", body, 2.5);
        return;
    }
    pen.out.rect("blade", left, 0.0);
    pen.out.rect("blade", right, 0.0);
    let name = colour.trim().to_lowercase();
    let class = match SWATCHES.contains(&name.as_str()) {
        true => format!("swatch fuse-{}", name.replace(' ', "-")),
        false => "swatch".to_owned(),
    };
    pen.out.rect(&class, body, 2.5);
}
