//! One block: outline, symbol, texts, terminals.

use super::sentence;
use super::writer::Writer;
use crate::diagram::{BlockKind, Pole, Tone};
use crate::geometry::{Point, Rect};
use crate::layout::{Class, FONT, PlacedBlock, Port, Side, TITLE_FONT};
use crate::symbol;
use crate::text::{fit, text_width};

/// Radius of a terminal [px].
const PORT: f64 = 5.0;

/// Draws one block as a group that can be reached by keyboard and finger.
pub(super) fn draw(out: &mut Writer, placed: &PlacedBlock, element_id: &str) {
    let block = &placed.block;
    let words = words(placed);
    out.open(
        "g",
        &[
            ("id", element_id),
            ("class", &format!("block {}", block.state.class())),
            ("data-id", &block.id),
            ("data-kind", block.kind.key()),
            ("tabindex", "0"),
            ("role", "button"),
        ],
    );
    // The name of the group; what is seen as a colour is said in it.
    out.text("title", &[], &words);
    out.rect("box", placed.rect, 6.0);
    match Class::of(block.kind) {
        Class::Source => source(out, placed),
        Class::Load => load(out, placed),
        Class::Inline => inline(out, placed),
        Class::Ways => ways(out, placed),
        Class::Bar => bar(out, placed),
    }
    joints(out, placed);
    for port in &placed.ports {
        draw_port(out, port);
    }
    badge(out, placed);
    out.close();
}

fn words(placed: &PlacedBlock) -> String {
    let block = &placed.block;
    let open = placed
        .ports
        .iter()
        .filter(|port| port.link.is_none())
        .count();
    let open = match open {
        0 => String::new(),
        1 => "1 terminal without a wire".into(),
        count => format!("{count} terminals without a wire"),
    };
    sentence(&[
        format!("{} {}", block.kind.words(), block.title),
        block.lines.join(", "),
        block.state.words(),
        block.badge.clone().unwrap_or_default(),
        open,
    ])
}

/// Title and facts from the top, starting at `x`.
fn header(out: &mut Writer, placed: &PlacedBlock, x: f64, top: f64) {
    let badge = badge_width(placed);
    let room = placed.rect.right() - x - 8.0;
    let title = fit(&placed.block.title, TITLE_FONT * 1.08, room - badge);
    out.label("title", Point::new(x, top + 12.0), &title);
    for (index, line) in placed.block.lines.iter().enumerate() {
        let base = top + 27.0 + index as f64 * 14.0;
        out.label("fact", Point::new(x, base), &fit(line, FONT, room));
    }
}

/// The same, centred.
fn header_centred(out: &mut Writer, placed: &PlacedBlock, top: f64) {
    let rect = placed.rect;
    let badge = badge_width(placed);
    let title = fit(
        &placed.block.title,
        TITLE_FONT * 1.08,
        rect.width - 12.0 - badge,
    );
    let middle = rect.x + (rect.width - badge) / 2.0;
    out.label("title middle", Point::new(middle, top + 12.0), &title);
}

fn facts_centred(out: &mut Writer, placed: &PlacedBlock, first_base: f64) {
    let rect = placed.rect;
    for (index, line) in placed.block.lines.iter().enumerate() {
        let at = Point::new(rect.x + rect.width / 2.0, first_base + index as f64 * 14.0);
        out.label("fact middle", at, &fit(line, FONT, rect.width - 12.0));
    }
}

fn source(out: &mut Writer, placed: &PlacedBlock) {
    let rect = placed.rect;
    let tall = 15.0 + placed.block.lines.len() as f64 * 14.0;
    let (middle, top) = match placed.head > 0.0 {
        true => (rect.y + 26.0, rect.y + 8.0),
        false => (
            rect.y + rect.height / 2.0,
            rect.y + (rect.height - tall) / 2.0,
        ),
    };
    // A charger with an inlet of its own turns direct current into direct current.
    let inlet = |port: &Port| port.side == Side::Left;
    let kind = match placed.block.kind {
        BlockKind::Charger if placed.ports.iter().any(inlet) => BlockKind::Controller,
        kind => kind,
    };
    symbol::draw(out, kind, Point::new(rect.x + 24.0, middle));
    header(out, placed, rect.x + 46.0, top);
    for port in first_ports(placed) {
        terminal_text(out, placed, port);
    }
}

fn load(out: &mut Writer, placed: &PlacedBlock) {
    let rect = placed.rect;
    let middle = placed
        .rows
        .first()
        .map_or(rect.y + rect.height / 2.0, |row| row.y);
    symbol::draw(out, placed.block.kind, Point::new(rect.x + 30.0, middle));
    let tall = 15.0 + placed.block.lines.len() as f64 * 14.0;
    header(out, placed, rect.x + 52.0, middle - tall / 2.0);
}

fn inline(out: &mut Writer, placed: &PlacedBlock) {
    let rect = placed.rect;
    let middle = placed
        .rows
        .first()
        .map_or(rect.y + rect.height / 2.0, |row| row.y);
    header_centred(out, placed, rect.y + 6.0);
    facts_centred(out, placed, middle + 24.0);
    let has = |side: Side| placed.ports.iter().any(|port| port.side == side);
    let centre = Point::new(rect.x + rect.width / 2.0, middle);
    if has(Side::Left) {
        out.line(
            "lead",
            Point::new(rect.x, middle),
            Point::new(centre.x - 16.0, middle),
        );
    }
    if has(Side::Right) {
        out.line(
            "lead",
            Point::new(centre.x + 16.0, middle),
            Point::new(rect.right(), middle),
        );
    }
    symbol::in_wire(out, placed.block.kind, centre);
}

fn ways(out: &mut Writer, placed: &PlacedBlock) {
    let rect = placed.rect;
    header(out, placed, rect.x + 10.0, rect.y + 6.0);
    let middle = rect.x + rect.width / 2.0;
    let kind = placed.block.kind;
    let node = rect.x + inlet_width(placed);
    let mut taps = Vec::new();
    for row in &placed.rows {
        let ports: Vec<&Port> = placed
            .ports
            .iter()
            .filter(|port| row.terminals.contains(&port.terminal))
            .collect();
        let has = |side: Side| ports.iter().any(|port| port.side == side);
        if row.terminals.is_empty() {
            continue;
        }
        let inlet = kind == BlockKind::FuseBlock && !has(Side::Right);
        if kind == BlockKind::FuseBlock {
            taps.push(row.y);
            if inlet {
                out.line("lead", Point::new(rect.x, row.y), Point::new(node, row.y));
                continue;
            }
            let centre = Point::new(node + 34.0, row.y);
            out.line(
                "lead",
                Point::new(node, row.y),
                Point::new(centre.x - 12.0, row.y),
            );
            symbol::small_fuse(out, centre);
            out.line(
                "lead",
                Point::new(centre.x + 12.0, row.y),
                Point::new(rect.right(), row.y),
            );
        } else {
            if has(Side::Left) {
                out.line(
                    "lead",
                    Point::new(rect.x, row.y),
                    Point::new(middle - 12.0, row.y),
                );
            }
            if has(Side::Right) {
                out.line(
                    "lead",
                    Point::new(middle + 12.0, row.y),
                    Point::new(rect.right(), row.y),
                );
            }
            symbol::small_switch(out, Point::new(middle, row.y));
        }
    }
    if let (Some(first), Some(last)) = (taps.first(), taps.last()) {
        out.line(
            "sym heavy",
            Point::new(node, *first),
            Point::new(node, *last),
        );
    }
    way_texts(out, placed);
}

/// From the left edge of a fuse block to its inner bar: past the text of any inlet.
fn inlet_width(placed: &PlacedBlock) -> f64 {
    let inlets = placed.ports.iter().filter(|port| port.side == Side::Left);
    let texts = inlets.map(|port| text_width(&way_text(placed, port.terminal), FONT) + 14.0);
    texts.fold(22.0, f64::max)
}

fn way_text(placed: &PlacedBlock, terminal: usize) -> String {
    let Some(known) = placed.block.terminals.get(terminal) else {
        return String::new();
    };
    let note = known.note.as_deref().unwrap_or("");
    fit([known.label.as_str(), note].join(" ").trim(), FONT, 90.0)
}

/// Way number and rating, above the lead of each way.
fn way_texts(out: &mut Writer, placed: &PlacedBlock) {
    let rect = placed.rect;
    let fused = placed.block.kind == BlockKind::FuseBlock;
    let node = rect.x + inlet_width(placed);
    for row in &placed.rows {
        let base = row.y - 4.0;
        for &terminal in &row.terminals {
            let Some(known) = placed.block.terminals.get(terminal) else {
                continue;
            };
            let port = placed.ports.iter().find(|port| port.terminal == terminal);
            let note = known.note.as_deref().unwrap_or("");
            let left = port.is_some_and(|port| port.side == Side::Left);
            let text = way_text(placed, terminal);
            match (left, fused && !note.is_empty()) {
                (true, _) => out.label("terminal", Point::new(rect.x + 9.0, base), &text),
                (false, false) => {
                    out.label("terminal end", Point::new(rect.right() - 9.0, base), &text);
                }
                (false, true) => {
                    let way = fit(&known.label, FONT, 30.0);
                    out.label("terminal", Point::new(node + 5.0, base), &way);
                    let note = fit(note, FONT, 60.0);
                    out.label("rating end", Point::new(rect.right() - 9.0, base), &note);
                }
            }
        }
    }
}

fn bar(out: &mut Writer, placed: &PlacedBlock) {
    let rect = placed.rect;
    let middle = rect.x + rect.width / 2.0;
    header_centred(out, placed, rect.y + 6.0);
    facts_centred(out, placed, rect.y + 33.0);
    for port in &placed.ports {
        out.line("lead", port.at, Point::new(middle, port.at.y));
    }
    let foot = rect.bottom()
        - if placed.block.kind == BlockKind::Frame {
            20.0
        } else {
            8.0
        };
    let top = placed
        .ports
        .iter()
        .map(|port| port.at.y)
        .fold(foot - 8.0, f64::min);
    out.line("node", Point::new(middle, top), Point::new(middle, foot));
    if placed.block.kind == BlockKind::Frame {
        symbol::frame(out, Point::new(middle, foot + 6.0));
    }
}

/// The first port of every terminal and side: the one that carries the text.
fn first_ports(placed: &PlacedBlock) -> impl Iterator<Item = &Port> {
    placed.ports.iter().enumerate().filter_map(|(index, port)| {
        let earlier = &placed.ports[..index];
        let repeated = earlier
            .iter()
            .any(|known| (known.terminal, known.side) == (port.terminal, port.side));
        (!repeated).then_some(port)
    })
}

fn terminal_text(out: &mut Writer, placed: &PlacedBlock, port: &Port) {
    let Some(terminal) = placed.block.terminals.get(port.terminal) else {
        return;
    };
    let mut text = terminal.label.clone();
    if let Some(note) = &terminal.note {
        text = format!("{text}  {note}");
    }
    let base = port.at.y + 4.0;
    let text = fit(text.trim(), FONT, placed.rect.width - 24.0);
    match port.side {
        Side::Left => out.label("terminal", Point::new(port.at.x + 10.0, base), &text),
        Side::Right => out.label("terminal end", Point::new(port.at.x - 10.0, base), &text),
    }
}

/// Several wires on one terminal: a bar joins their lugs.
fn joints(out: &mut Writer, placed: &PlacedBlock) {
    if Class::of(placed.block.kind) == Class::Bar {
        return;
    }
    for port in first_ports(placed) {
        let lugs = placed
            .ports
            .iter()
            .filter(|other| (other.terminal, other.side) == (port.terminal, port.side));
        let last = lugs.map(|other| other.at.y).fold(port.at.y, f64::max);
        if last > port.at.y {
            out.line("sym heavy", port.at, Point::new(port.at.x, last));
        }
    }
}

fn draw_port(out: &mut Writer, port: &Port) {
    let open = if port.link.is_none() { " open" } else { "" };
    out.circle(&format!("port {}{open}", port.pole.word()), port.at, PORT);
    let arm = 2.6;
    let Point { x, y } = port.at;
    let class = format!("mark{open}");
    if port.pole != Pole::Neutral {
        out.line(&class, Point::new(x - arm, y), Point::new(x + arm, y));
    }
    if port.pole == Pole::Plus {
        out.line(&class, Point::new(x, y - arm), Point::new(x, y + arm));
    }
}

/// What is shown in the corner: the badge, or a sign for a state that must not go by colour alone.
fn badge_text(placed: &PlacedBlock) -> Option<String> {
    match (&placed.block.badge, placed.block.state) {
        (Some(text), _) if !text.is_empty() => Some(text.clone()),
        (_, Tone::Bad) => Some("!".into()),
        (_, Tone::Watch) => Some("?".into()),
        _ => None,
    }
}

fn badge_width(placed: &PlacedBlock) -> f64 {
    badge_text(placed).map_or(0.0, |text| text_width(&text, FONT) + 12.0)
}

fn badge(out: &mut Writer, placed: &PlacedBlock) {
    let Some(text) = badge_text(placed) else {
        return;
    };
    let width = (badge_width(placed) - 2.0).max(15.0);
    let corner = Point::new(placed.rect.right() - width - 4.0, placed.rect.y + 4.0);
    out.open("g", &[("class", "badge")]);
    out.rect("mark-box", Rect::new(corner.x, corner.y, width, 15.0), 4.0);
    out.label(
        "middle",
        Point::new(corner.x + width / 2.0, corner.y + 11.5),
        &text,
    );
    out.close();
}
