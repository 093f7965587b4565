//! Plain text tables with columns as wide as they need to be. Not here: what
//! is in them.

use super::out::Out;

/// Which side the text of a column stands at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// Names.
    Left,
    /// Numbers.
    Right,
}

/// Space between columns.
const GAP: &str = "  ";

/// Prints a heading and rows. The first column gives way when the page is
/// too narrow: it moves to a line of its own.
pub fn print(out: &mut Out, heads: &[(&str, Align)], rows: &[Vec<String>]) {
    let widths = widths(heads, rows);
    let whole: usize = widths.iter().sum::<usize>() + GAP.len() * widths.len();
    let split = whole > out.paint.width && heads.len() > 2;
    let from = usize::from(split);
    let indent = if split { "      " } else { "  " };
    let head: Vec<String> = heads.iter().map(|(name, _)| (*name).to_owned()).collect();
    let head = format!("{indent}{}", line(&head, heads, &widths, from).trim_end());
    if let (true, Some((name, _))) = (split, heads.first()) {
        let name = out.paint.dim(&format!("  {name}"));
        out.line(name);
    }
    let head = out.paint.dim(&head);
    out.line(head);
    for row in rows {
        if let (true, Some(name)) = (split, row.first()) {
            out.line(format!("  {name}"));
        }
        let text = line(row, heads, &widths, from);
        out.line(format!("{indent}{}", text.trim_end()));
    }
}

fn line(cells: &[String], heads: &[(&str, Align)], widths: &[usize], from: usize) -> String {
    let columns = cells.iter().zip(heads).zip(widths).skip(from);
    let cells: Vec<String> = columns
        .map(|((cell, (_, align)), width)| padded(cell, *align, *width))
        .collect();
    cells.join(GAP)
}

fn padded(cell: &str, align: Align, width: usize) -> String {
    let space = " ".repeat(width.saturating_sub(cell.chars().count()));
    match align {
        Align::Left => format!("{cell}{space}"),
        Align::Right => format!("{space}{cell}"),
    }
}

fn widths(heads: &[(&str, Align)], rows: &[Vec<String>]) -> Vec<usize> {
    let count = |text: &str| text.chars().count();
    let column = |index: usize, head: &str| {
        let cells = rows.iter().filter_map(|row| row.get(index));
        cells.map(|c| count(c)).max().unwrap_or(0).max(count(head))
    };
    let heads = heads.iter().enumerate();
    heads
        .map(|(index, (name, _))| column(index, name))
        .collect()
}
