//! What must hold on every sheet, checked on seeded diagrams by brute force.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::{Dice, block, link, radial, senseless};
use wainwright_drawing::{BlockKind, Diagram, Layout, Point, Pole, Rect, Style, layout, svg};

/// Parallel wires of different links stay at least this far apart [px].
const APART: f64 = 5.0;

type Piece = (usize, Point, Point);

fn pieces(layout: &Layout) -> Vec<Piece> {
    let pairs = |(index, link): (usize, &wainwright_drawing::PlacedLink)| {
        let pairs: Vec<Piece> = link.path.windows(2).map(|p| (index, p[0], p[1])).collect();
        pairs
    };
    layout.links.iter().enumerate().flat_map(pairs).collect()
}

fn around(a: Point, b: Point) -> Rect {
    Rect::new(
        a.x.min(b.x),
        a.y.min(b.y),
        (a.x - b.x).abs(),
        (a.y - b.y).abs(),
    )
}

/// Whether the open inside of `rect` meets the piece.
fn through(rect: &Rect, (_, a, b): &Piece) -> bool {
    let line = around(*a, *b);
    line.x < rect.right()
        && rect.x < line.right().max(line.x + 1e-9)
        && line.y < rect.bottom()
        && rect.y < line.bottom().max(line.y + 1e-9)
        && line.right() > rect.x
        && line.bottom() > rect.y
}

/// Whether two pieces run side by side closer than they may.
fn share_line(p: &Piece, q: &Piece) -> bool {
    let (a, b) = (around(p.1, p.2), around(q.1, q.2));
    let meet = |a: (f64, f64), b: (f64, f64)| a.0 < b.1 && b.0 < a.1;
    let level = a.height == 0.0 && b.height == 0.0;
    let upright = a.width == 0.0 && b.width == 0.0;
    (level && (a.y - b.y).abs() < APART && meet((a.x, a.right()), (b.x, b.right())))
        || (upright && (a.x - b.x).abs() < APART && meet((a.y, a.bottom()), (b.y, b.bottom())))
}

fn check(name: &str, diagram: &Diagram) -> Layout {
    let layout = layout(diagram);
    assert_eq!(
        layout.blocks.len(),
        diagram.blocks.len(),
        "{name}: every block is drawn"
    );
    assert_eq!(
        layout.links.len() + layout.dropped.len(),
        diagram.links.len(),
        "{name}"
    );
    let sheet = Rect::new(0.0, 0.0, layout.width, layout.height);
    let inside = |r: &Rect| {
        r.x >= 0.0 && r.y >= 0.0 && r.right() <= sheet.width && r.bottom() <= sheet.height
    };
    for (i, a) in layout.blocks.iter().enumerate() {
        assert!(
            inside(&a.rect),
            "{name}: block {} leaves the sheet",
            a.block.id
        );
        for b in &layout.blocks[i + 1..] {
            assert!(
                !a.rect.overlaps(&b.rect),
                "{name}: {} on {}",
                a.block.id,
                b.block.id
            );
        }
        for port in &a.ports {
            assert!(
                port.at.x == a.rect.x || port.at.x == a.rect.right(),
                "{name}: port off edge"
            );
            assert!(
                port.at.y > a.rect.y && port.at.y < a.rect.bottom(),
                "{name}: port off edge"
            );
        }
    }
    check_wires(name, &layout, &inside);
    check_labels(name, &layout, &inside);
    layout
}

fn check_wires(name: &str, layout: &Layout, inside: &dyn Fn(&Rect) -> bool) {
    let pieces = pieces(layout);
    for piece in &pieces {
        let (link, a, b) = piece;
        let id = &layout.links[*link].link.id;
        assert!(
            (a.x == b.x) != (a.y == b.y),
            "{name}: {id} is not orthogonal {a:?} {b:?}"
        );
        assert!(inside(&around(*a, *b)), "{name}: {id} leaves the sheet");
        for block in &layout.blocks {
            assert!(
                !through(&block.rect, piece),
                "{name}: {id} through {}",
                block.block.id
            );
        }
    }
    for (i, p) in pieces.iter().enumerate() {
        for q in pieces[i + 1..].iter().filter(|q| q.0 != p.0) {
            let ids = [p.0, q.0].map(|link| &layout.links[link].link.id);
            assert!(
                !share_line(p, q),
                "{name}: {ids:?} share a line {p:?} {q:?}"
            );
        }
    }
    for (index, placed) in layout.links.iter().enumerate() {
        let ends = [placed.path[0], placed.path[placed.path.len() - 1]];
        for (end, wanted) in ends.iter().zip([&placed.link.from, &placed.link.to]) {
            let found = layout.blocks.iter().any(|block| {
                block.block.id == wanted.block
                    && block.ports.iter().any(|port| {
                        port.at == *end
                            && port.link == Some(index)
                            && block.block.terminals[port.terminal].id == wanted.terminal
                    })
            });
            assert!(
                found,
                "{name}: {} does not end at its terminal",
                placed.link.id
            );
        }
    }
}

fn check_labels(name: &str, layout: &Layout, inside: &dyn Fn(&Rect) -> bool) {
    let mut boxes: Vec<(usize, Rect)> = Vec::new();
    for (index, link) in layout.links.iter().enumerate() {
        boxes.extend(
            link.label
                .iter()
                .chain(&link.value)
                .map(|text| (index, text.rect)),
        );
    }
    let pieces = pieces(layout);
    for (i, (link, rect)) in boxes.iter().enumerate() {
        let id = &layout.links[*link].link.id;
        assert!(inside(rect), "{name}: label of {id} leaves the sheet");
        for (other, next) in &boxes[i + 1..] {
            let other = &layout.links[*other].link.id;
            assert!(!rect.overlaps(next), "{name}: labels of {id} and {other}");
        }
        for block in &layout.blocks {
            assert!(
                !rect.overlaps(&block.rect),
                "{name}: label of {id} on {}",
                block.block.id
            );
        }
        for piece in &pieces {
            let other = &layout.links[piece.0].link.id;
            assert!(
                !through(rect, piece),
                "{name}: label of {id} on wire {other}"
            );
        }
    }
}

/// Crossings counted the slow way: every level piece against every upright piece.
fn crossings(layout: &Layout) -> Vec<(usize, Point)> {
    let pieces = pieces(layout);
    let mut found = Vec::new();
    for (link, a, b) in pieces.iter().filter(|p| p.1.y == p.2.y) {
        for (other, c, d) in pieces.iter().filter(|p| p.1.x == p.2.x && p.0 != *link) {
            let x = a.x.min(b.x) < c.x && c.x < a.x.max(b.x);
            let y = c.y.min(d.y) < a.y && a.y < c.y.max(d.y);
            if x && y {
                assert_ne!(link, other);
                found.push((*link, Point::new(c.x, a.y)));
            }
        }
    }
    found
}

#[test]
fn radial_diagrams_are_clean() {
    let mut dice = Dice::new(7);
    for seed in 0..60 {
        let circuits = 5 + dice.below(56);
        check(
            &format!("radial {seed} with {circuits}"),
            &radial(seed, circuits),
        );
    }
}

#[test]
fn senseless_diagrams_are_clean() {
    let mut dice = Dice::new(11);
    for seed in 0..150 {
        let (blocks, links) = (1 + dice.below(30), dice.below(45));
        check(
            &format!("senseless {seed}: {blocks}, {links}"),
            &senseless(seed, blocks, links),
        );
    }
}

#[test]
fn every_crossing_has_a_hop_and_every_hop_a_crossing() {
    for seed in 0..20 {
        let layout = layout(&radial(seed, 14));
        let mut slow = crossings(&layout);
        let mut drawn: Vec<(usize, Point)> = Vec::new();
        for (index, link) in layout.links.iter().enumerate() {
            drawn.extend(link.hops.iter().map(|hop| (index, *hop)));
        }
        assert_eq!(layout.crossings, drawn.len());
        let order = |a: &(usize, Point), b: &(usize, Point)| {
            a.0.cmp(&b.0)
                .then(a.1.x.total_cmp(&b.1.x))
                .then(a.1.y.total_cmp(&b.1.y))
        };
        slow.sort_by(order);
        drawn.sort_by(order);
        assert_eq!(slow, drawn, "seed {seed}");
    }
}

#[test]
fn same_diagram_same_bytes() {
    for seed in 0..10 {
        let draw = || svg(&layout(&radial(seed, 20)), &Style::default());
        assert_eq!(draw(), draw());
    }
}

#[test]
fn direction_of_a_link_does_not_decide_the_columns() {
    let mut diagram = radial(3, 12);
    let before = layout(&diagram);
    for link in &mut diagram.links {
        std::mem::swap(&mut link.from, &mut link.to);
    }
    let after = layout(&diagram);
    let column = |layout: &Layout| -> Vec<(String, i64)> {
        layout
            .blocks
            .iter()
            .map(|b| (b.block.id.clone(), b.rect.x as i64))
            .collect()
    };
    assert_eq!(column(&before), column(&after));
}

#[test]
fn flow_runs_from_supply_to_load_to_return() {
    let layout = layout(&radial(3, 12));
    let x = |id: &str| {
        layout
            .blocks
            .iter()
            .find(|b| b.block.id == id)
            .unwrap()
            .rect
            .x
    };
    assert!(x("bat0") < x("main") && x("main") < x("pos") && x("pos") < x("fb"));
    assert!(x("fb") < x("load0") && x("load0") < x("neg"));
    assert_eq!(x("load0"), x("load11"));
    assert!(x("shunt") < x("fb"), "the shunt stands near the battery");
}

#[test]
fn a_breaker_between_a_solar_controller_and_a_bus_stands_between_them() {
    use Pole::{Minus, Plus};
    let pair = [("+", Plus), ("-", Minus)];
    let out = [("pv+", Plus), ("out+", Plus)];
    let mut diagram = Diagram::default();
    for (kind, id, terminals) in [
        (BlockKind::BusBar, "bus", &[][..]),
        (BlockKind::Battery, "bat", &pair),
        (BlockKind::Breaker, "brk", &[]),
        (BlockKind::Controller, "sc", &out),
        (BlockKind::SolarModule, "pv", &pair),
        (BlockKind::Fuse, "fuse", &[]),
        (BlockKind::Load, "load", &pair),
    ] {
        diagram.blocks.push(block(kind, id, terminals));
    }
    // The battery is one wire from the bus, the module three.
    for (number, (from, to)) in [
        (("bus", "1"), ("bat", "+")),
        (("bus", "2"), ("brk", "out")),
        (("brk", "in"), ("sc", "out+")),
        (("pv", "+"), ("sc", "pv+")),
        (("fuse", "in"), ("bus", "3")),
        (("load", "+"), ("fuse", "out")),
    ]
    .into_iter()
    .enumerate()
    {
        diagram.links.push(link(number, from, to, Plus));
    }
    let layout = check("solar", &diagram);
    let x = |id: &str| {
        let found = layout.blocks.iter().find(|b| b.block.id == id);
        found.unwrap().rect.x
    };
    let chain = ["pv", "sc", "brk", "bus", "fuse", "load"].map(x);
    assert!(chain.windows(2).all(|pair| pair[0] < pair[1]), "{chain:?}");
    assert!(x("bat") < x("bus"));
}

#[test]
fn a_plain_radial_diagram_has_no_crossing() {
    let mut diagram = Diagram::default();
    let pair = [("+", Pole::Plus), ("-", Pole::Minus)];
    diagram.blocks.push(block(BlockKind::Battery, "bat", &pair));
    let names: Vec<String> = (1..=20).map(|way| way.to_string()).collect();
    let ways: Vec<(&str, Pole)> = names.iter().map(|way| (way.as_str(), Pole::Plus)).collect();
    diagram
        .blocks
        .push(block(BlockKind::FuseBlock, "fb", &ways));
    diagram.blocks.push(block(BlockKind::BusBar, "neg", &[]));
    diagram
        .links
        .push(link(0, ("bat", "+"), ("fb", "in"), Pole::Plus));
    diagram
        .links
        .push(link(1, ("bat", "-"), ("neg", "0"), Pole::Minus));
    for n in 1..=20 {
        // Loads are listed in the reverse order of the fuses.
        let (id, way) = (format!("load{n}"), format!("{}", 21 - n));
        diagram.blocks.push(block(BlockKind::Load, &id, &pair));
        diagram
            .links
            .push(link(2 * n, ("fb", &way), (&id, "+"), Pole::Plus));
        diagram
            .links
            .push(link(2 * n + 1, (&id, "-"), ("neg", &way), Pole::Minus));
    }
    assert_eq!(check("plain", &diagram).crossings, 0);
}

#[test]
fn empty_single_and_unwired_diagrams_are_drawn() {
    let empty = layout(&Diagram::default());
    assert!(empty.captions[0].text.contains("Add a battery"));
    for kind in BlockKind::ALL {
        let mut one = Diagram::default();
        one.blocks.push(block(*kind, "only", &[]));
        check("one", &one);
        one.blocks[0].terminals = block(*kind, "x", &[("a", Pole::Plus)]).terminals;
        check("one with a terminal", &one);
        one.links
            .push(link(0, ("only", "a"), ("only", "a"), Pole::Plus));
        check("a wire to itself", &one);
    }
    let mut many = Diagram::default();
    for n in 0..40 {
        let kind = BlockKind::ALL[n % BlockKind::ALL.len()];
        let terminals = [
            ("in1", Pole::Plus),
            ("out1", Pole::Plus),
            ("2", Pole::Minus),
        ];
        many.blocks
            .push(block(kind, &format!("b{n}"), &terminals[..n % 4]));
    }
    let sheet = check("unwired", &many);
    assert!(
        sheet
            .captions
            .iter()
            .any(|caption| caption.text == "Not wired yet")
    );
}

#[test]
fn links_to_nowhere_are_reported() {
    let mut diagram = Diagram::default();
    diagram.blocks.push(block(BlockKind::Load, "a", &[]));
    diagram
        .links
        .push(link(0, ("a", "+"), ("ghost", "-"), Pole::Plus));
    assert_eq!(layout(&diagram).dropped, vec![0]);
}

#[test]
fn a_thousand_blocks_are_clean_too() {
    check("radial with 1000", &radial(5, 1000));
}
