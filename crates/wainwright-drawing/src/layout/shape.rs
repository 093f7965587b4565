//! How large a block is, and where its lugs sit: before any place on the sheet is known.
//!
//! A lug is the end of one wire (or an open terminal). A row is what moves up
//! and down as one; bus bars, fuse blocks and switch banks have many rows and
//! stretch, everything else has one.

use super::{FONT, Side, TITLE_FONT};
use crate::diagram::{Block, BlockKind, Pole};
use crate::text::text_width;

/// Height of one line of small text [px].
pub(super) const LINE: f64 = 14.0;
/// Room a label takes above or below its wire [px].
pub(super) const LABEL_ROOM: f64 = 16.0;
/// Room a wire without a label takes above or below itself [px].
pub(super) const BARE_ROOM: f64 = 8.0;
/// Room every lug of a source takes above or below itself [px].
const PAIR_ROOM: f64 = LABEL_ROOM;
/// Longest width of text inside a block [px].
pub(super) const TEXT_CAP: f64 = 170.0;

/// The five ways in which blocks are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Class {
    /// Header on top, terminals below it.
    Source,
    /// Text between two terminals.
    Load,
    /// Symbol in the wire.
    Inline,
    /// One row per way.
    Ways,
    /// One node: a bar.
    Bar,
}

impl Class {
    /// The way in which blocks of `kind` are drawn.
    pub fn of(kind: BlockKind) -> Self {
        match kind {
            BlockKind::Battery
            | BlockKind::SolarModule
            | BlockKind::Controller
            | BlockKind::Charger
            | BlockKind::Supply => Self::Source,
            BlockKind::Load | BlockKind::Outlet | BlockKind::Inverter => Self::Load,
            BlockKind::Fuse | BlockKind::Breaker | BlockKind::Switch | BlockKind::Shunt => {
                Self::Inline
            }
            BlockKind::FuseBlock | BlockKind::SwitchBank => Self::Ways,
            BlockKind::BusBar | BlockKind::Frame | BlockKind::Splice => Self::Bar,
        }
    }
}

/// One wire end at a block, or an open terminal.
#[derive(Debug, Clone)]
pub(super) struct Lug {
    pub terminal: usize,
    pub side: Side,
    /// Wire and which of its ends.
    pub wire: Option<(usize, usize)>,
    pub above: f64,
    pub below: f64,
    pub row: usize,
    pub offset: f64,
    /// Sorting key among lugs that may change places.
    pub wish: f64,
}

/// One row of a block: its reach above and below its reference height [px].
#[derive(Debug, Clone, Copy)]
pub(super) struct Reach {
    pub above: f64,
    pub below: f64,
}

/// A block's size and lugs.
#[derive(Debug, Clone)]
pub(super) struct Shape {
    pub class: Class,
    pub width: f64,
    /// From the top edge to the first row's reach [px].
    pub head: f64,
    pub rows: Vec<Reach>,
    pub lugs: Vec<Lug>,
    /// For each row of a `Ways` block, its terminals.
    pub row_terminals: Vec<Vec<usize>>,
}

/// The side on which a terminal is expected when nothing else decides.
pub(super) fn natural_side(block: &Block, terminal: usize) -> Side {
    let Some(known) = block.terminals.get(terminal) else {
        return Side::Right;
    };
    let inward = known.id.starts_with("in") || known.id.starts_with("pv");
    let left = match Class::of(block.kind) {
        Class::Source => matches!(block.kind, BlockKind::Controller | BlockKind::Charger) && inward,
        Class::Load => known.pole == Pole::Plus,
        Class::Inline => terminal == 0,
        Class::Ways => inward,
        Class::Bar => known.pole != Pole::Plus,
    };
    if left { Side::Left } else { Side::Right }
}

impl Shape {
    /// The shape of `block` with these wired lugs; open terminals are added.
    pub fn new(block: &Block, mut lugs: Vec<Lug>) -> Self {
        let class = Class::of(block.kind);
        if class != Class::Bar {
            for terminal in 0..block.terminals.len() {
                if !lugs.iter().any(|lug| lug.terminal == terminal) {
                    lugs.push(open_lug(block, terminal));
                }
            }
        }
        if class == Class::Source {
            // Equal steps, so that a pair of wires between two such blocks runs straight.
            for lug in &mut lugs {
                lug.above = lug.above.max(PAIR_ROOM);
                lug.below = lug.below.max(PAIR_ROOM);
            }
        }
        let mut shape = Self {
            class,
            width: width(block, class),
            head: head(block, class, &lugs),
            rows: Vec::new(),
            lugs,
            row_terminals: ways(block, class),
        };
        shape.arrange(block);
        shape
    }

    /// Sorts the lugs that may change places by their wishes and stacks them anew.
    pub fn arrange(&mut self, block: &Block) {
        let free = self.class == Class::Bar;
        self.lugs.sort_by(|a, b| {
            let order = if free {
                0.cmp(&0)
            } else {
                a.terminal.cmp(&b.terminal)
            };
            order
                .then(a.wish.total_cmp(&b.wish))
                .then(a.wire.cmp(&b.wire))
        });
        self.rows.clear();
        match self.class {
            Class::Bar => self.arrange_bar(),
            Class::Ways => self.arrange_ways(),
            _ => self.arrange_single(block),
        }
        if let Some(first) = self.rows.first_mut() {
            first.above += self.head;
        }
        if let Some(last) = self.rows.last_mut() {
            last.below += if block.kind == BlockKind::Frame {
                17.0
            } else {
                5.0
            };
        }
    }

    fn arrange_bar(&mut self) {
        for (row, lug) in self.lugs.iter_mut().enumerate() {
            lug.row = row;
            lug.offset = 0.0;
            self.rows.push(Reach {
                above: lug.above,
                below: lug.below,
            });
        }
        if self.rows.is_empty() {
            self.rows.push(Reach {
                above: 4.0,
                below: 14.0,
            });
        }
    }

    fn arrange_ways(&mut self) {
        for (row, terminals) in self.row_terminals.iter().enumerate() {
            for lug in &mut self.lugs {
                if terminals.contains(&lug.terminal) {
                    lug.row = row;
                }
            }
            let mut reach = Reach {
                above: 10.0,
                below: 10.0,
            };
            for side in [Side::Left, Side::Right] {
                let span = stack(&mut self.lugs, side, row, None);
                reach.above = reach.above.max(span.above);
                reach.below = reach.below.max(span.below);
            }
            self.rows.push(reach);
        }
        if self.rows.is_empty() {
            self.rows.push(Reach {
                above: 2.0,
                below: 4.0,
            });
        }
    }

    fn arrange_single(&mut self, block: &Block) {
        let lines = block.lines.len() as f64 * LINE;
        let half = ((13.0 + LINE + lines) / 2.0).ceil().max(18.0);
        let (least, top) = match self.class {
            Class::Source if self.head > 0.0 => ([0.0, 4.0], Some(0.0)),
            Class::Source => ([half.max(24.0), half.max(24.0) - 5.0], None),
            Class::Load => ([half, half - 5.0], None),
            _ => ([14.0, 12.0 + lines], None),
        };
        let mut reach = Reach {
            above: least[0],
            below: least[1],
        };
        for side in [Side::Left, Side::Right] {
            let span = stack(&mut self.lugs, side, 0, top);
            // Labels stand beside the block: they may reach a little past its edges.
            let inside = if top.is_some() { 10.0 } else { 6.0 };
            reach.above = reach.above.max(span.above - inside);
            reach.below = reach.below.max(span.below - 6.0);
        }
        self.rows.push(reach);
    }
}

/// Stacks the lugs of one side of one row; returns the reach around the row's reference height.
/// With `top`, the first lug is there; otherwise the stack is centred.
fn stack(lugs: &mut [Lug], side: Side, row: usize, top: Option<f64>) -> Reach {
    let mut at = 0.0;
    let mut last_below: Option<f64> = None;
    let mut first_above = 0.0;
    let mut members = Vec::new();
    for (index, lug) in lugs.iter_mut().enumerate() {
        if lug.side != side || lug.row != row {
            continue;
        }
        match last_below {
            None => first_above = lug.above,
            Some(below) => at += below + lug.above + 2.0,
        }
        lug.offset = at;
        last_below = Some(lug.below);
        members.push(index);
    }
    let shift = if top.is_some() {
        0.0
    } else {
        (at / 2.0).floor()
    };
    for index in members {
        lugs[index].offset -= shift;
    }
    Reach {
        above: first_above + shift,
        below: at - shift + last_below.unwrap_or(0.0),
    }
}

fn open_lug(block: &Block, terminal: usize) -> Lug {
    Lug {
        terminal,
        side: natural_side(block, terminal),
        wire: None,
        above: BARE_ROOM,
        below: BARE_ROOM,
        row: 0,
        offset: 0.0,
        wish: 0.0,
    }
}

/// Rows of a block with ways: a fuse block has one per terminal, a switch bank one per number.
fn ways(block: &Block, class: Class) -> Vec<Vec<usize>> {
    if class != Class::Ways {
        return Vec::new();
    }
    let mut keys: Vec<String> = Vec::new();
    let mut rows: Vec<Vec<usize>> = Vec::new();
    for (index, terminal) in block.terminals.iter().enumerate() {
        let digits = terminal
            .id
            .trim_start_matches(|c: char| !c.is_ascii_digit());
        let paired = block.kind == BlockKind::SwitchBank && !digits.is_empty();
        let key = if paired { digits } else { &terminal.id };
        match keys.iter().position(|known| known == key) {
            Some(row) => rows[row].push(index),
            None => {
                keys.push(key.to_owned());
                rows.push(vec![index]);
            }
        }
    }
    rows
}

/// Height above the first row; 0 where the texts stand beside the lugs.
fn head(block: &Block, class: Class, lugs: &[Lug]) -> f64 {
    let lines = block.lines.len() as f64 * LINE;
    let beside = lugs.iter().all(|lug| lug.side == Side::Right);
    match class {
        Class::Source if beside => 0.0,
        Class::Source => 8.0 + 16.0 + lines.max(14.0) + 4.0,
        Class::Load => 0.0,
        Class::Inline => 20.0,
        Class::Ways | Class::Bar => 8.0 + 16.0 + lines + 4.0,
    }
}

fn width(block: &Block, class: Class) -> f64 {
    let badge = block
        .badge
        .as_ref()
        .map_or(0.0, |text| text_width(text, FONT) + 16.0);
    let title = text_width(&block.title, TITLE_FONT) * 1.08 + badge;
    let lines = block.lines.iter().map(|line| text_width(line, FONT));
    let text = lines.fold(title, f64::max).min(TEXT_CAP);
    let terminals = |of: Side| {
        let widths = (0..block.terminals.len())
            .filter(|&terminal| natural_side(block, terminal) == of)
            .map(|terminal| terminal_width(block, terminal));
        widths.fold(0.0, f64::max)
    };
    let ports = terminals(Side::Left) + terminals(Side::Right);
    let width = match class {
        Class::Source if terminals(Side::Left) > 0.0 => (text + 58.0).max(ports + 56.0),
        Class::Source => text + ports + 70.0,
        Class::Load => text + 66.0,
        Class::Inline => (text + 20.0).max(84.0),
        Class::Ways => (text + 22.0).max(ports + 92.0).max(130.0),
        Class::Bar => (text + 20.0).max(64.0),
    };
    width.ceil()
}

/// Width of what is printed beside a terminal inside its block [px].
pub(super) fn terminal_width(block: &Block, terminal: usize) -> f64 {
    let Some(known) = block.terminals.get(terminal) else {
        return 0.0;
    };
    let note = known
        .note
        .as_deref()
        .map_or(0.0, |note| text_width(note, FONT) + 6.0);
    (text_width(&known.label, FONT) + note).min(90.0)
}
