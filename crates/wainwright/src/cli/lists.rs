//! `lists`: wires, terminals, fuses, labels and what to buy, as tables, for a
//! spreadsheet, or as JSON. Not here: what is in them (see
//! [`crate::views::lists`]).

use super::args::{ListWord, ListsArgs};
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use super::table::{Align, print};
use crate::store;
use crate::study::Study;
use crate::views::lists::{Cell, Listing, buy, csv};
use crate::views::lists_report::{Lists, ListsReport};
use wainwright_analysis::result::TakeOff;
use wainwright_units::{Quantity, System};

/// Prints the lists.
pub fn run(args: &ListsArgs, out: &mut Out) -> Result<Status, Trouble> {
    let study = Study::of(store::read(&args.file)?);
    let lists = Lists::of(&study);
    let units = show::units(&study.project);
    if args.json {
        out.json(&ListsReport::of(&lists, &study, units, args.file.to_str()));
        return Ok(status(&study, &lists));
    }
    let wanted = |word: &ListWord| args.list.is_none_or(|list| list == *word);
    let all = ListWord::ALL.iter().zip(lists.all(&study, units));
    for (number, (word, listing)) in all.filter(|(word, _)| wanted(word)).enumerate() {
        if args.csv {
            out.text(&csv(&listing));
            continue;
        }
        if number > 0 {
            out.gap();
        }
        one(*word, &listing, &lists.takeoff, units, out);
    }
    Ok(status(&study, &lists))
}

/// A list with something left out, or without a wire in it, is no success.
fn status(study: &Study, lists: &Lists) -> Status {
    if study.is_incomplete() || lists.schedules.wires.is_empty() {
        Status::Incomplete(None)
    } else {
        Status::Done
    }
}

fn one(word: ListWord, listing: &Listing, takeoff: &TakeOff, units: System, out: &mut Out) {
    let title = out.paint.bold(title(word));
    out.line(title);
    if listing.rows.is_empty() {
        out.wrapped("  ", nothing(word));
    } else {
        table(listing, out);
    }
    if word == ListWord::Buy {
        below(takeoff, units, out);
    }
}

/// Headings that say nothing where people read: a length there has its unit.
const NOT_READ: [&str; 2] = ["Group", "Unit"];

/// Columns in which nothing stands are left out, and so is the number nought.
fn table(listing: &Listing, out: &mut Out) {
    let cells = |column: usize| listing.rows.iter().filter_map(move |row| row.get(column));
    let mut heads = Vec::new();
    let mut used = Vec::new();
    for (column, head) in listing.columns.iter().enumerate() {
        let empty = cells(column).all(|cell| read(cell).is_empty());
        if empty || NOT_READ.contains(&head.title) {
            continue;
        }
        let number = cells(column).any(|cell| matches!(cell, Cell::Number { .. }));
        let side = if number { Align::Right } else { Align::Left };
        heads.push((head.title, side));
        used.push(column);
    }
    let row = |row: &Vec<Cell>| {
        let cells = used.iter().filter_map(|column| row.get(*column));
        cells.map(|cell| read(cell).to_owned()).collect()
    };
    let rows: Vec<Vec<String>> = listing.rows.iter().map(row).collect();
    if narrow(&heads, &rows) <= out.paint.width {
        print(out, &heads, &rows);
    } else {
        blocks(&heads, &rows, out);
    }
}

/// A cell as people read it; none of a thing is nothing to read.
fn read(cell: &Cell) -> &str {
    match cell {
        Cell::Number { number, .. } if *number <= 0.0 => "",
        cell => cell.text(),
    }
}

/// Width of the table when its first column stands on lines of its own [characters].
fn narrow(heads: &[(&str, Align)], rows: &[Vec<String>]) -> usize {
    let widest = |column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let columns = heads.iter().enumerate().skip(1);
    columns
        .map(|(column, (head, _))| widest(column).max(head.chars().count()) + 2)
        .sum()
}

/// Rows that no page has room for: each a name, and below it what there is to say.
fn blocks(heads: &[(&str, Align)], rows: &[Vec<String>], out: &mut Out) {
    for row in rows {
        let mut cells = row.iter();
        if let Some(name) = cells.next() {
            out.line(format!("  {name}"));
        }
        let named = heads.iter().skip(1).zip(cells);
        let parts: Vec<String> = named
            .filter(|(_, cell)| !cell.is_empty())
            .map(|((head, _), cell)| format!("{head}: {cell}"))
            .collect();
        out.hanging("    ", "    ", &parts.join("; "));
    }
}

fn title(word: ListWord) -> &'static str {
    match word {
        ListWord::Wires => "Wires",
        ListWord::Terminals => "Terminals",
        ListWord::Fuses => "Fuses",
        ListWord::Labels => "Labels",
        ListWord::Buy => "To buy",
    }
}

fn nothing(word: ListWord) -> &'static str {
    match word {
        ListWord::Fuses => "No fuse and no breaker.",
        ListWord::Terminals => "Nothing with wires or numbered ways.",
        ListWord::Wires | ListWord::Labels | ListWord::Buy => {
            "No wire yet; `wainwright plan` proposes some."
        }
    }
}

/// Sum, how to cut, what is asked for.
fn below(takeoff: &TakeOff, units: System, out: &mut Out) {
    if !takeoff.lines.is_empty() {
        let currency = takeoff.currency.as_deref().unwrap_or_default();
        let sum = format!("{} {currency}", buy::money(takeoff.cost));
        let sum = sum.trim_end();
        let text = match takeoff.unpriced {
            0 => format!("Cost {sum}"),
            count => format!("Cost {sum} without {count} things that have no price"),
        };
        out.hanging("  ", "    ", &text);
    }
    for line in &takeoff.lines {
        let Some(cuts) = &line.cuts else { continue };
        for piece in cuts.pieces.iter().filter(|piece| !piece.cuts.is_empty()) {
            let parts: Vec<String> = piece
                .cuts
                .iter()
                .map(|cut| format!("{} {}", cut.wire, cut.length.show(units)))
                .collect();
            let text = format!(
                "Cut {} no. {} ({}): {}; left {}",
                piece.stock,
                piece.number,
                piece.length.show(units),
                parts.join(", "),
                piece.left.show(units)
            );
            out.hanging("  ", "    ", &text);
        }
    }
    for asked in &takeoff.asked {
        let text = format!(
            "Not counted: {}, {}",
            asked.path.join("."),
            buy::asked_words(asked.why)
        );
        out.hanging("  ", "    ", &text);
    }
}
