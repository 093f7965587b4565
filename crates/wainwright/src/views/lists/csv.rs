//! A list as a file for a spreadsheet: fields with commas between (RFC 4180),
//! lines ended by carriage return and line feed. Not here: what is in it.

use super::{Cell, Listing};

/// The list as text. A text that a spreadsheet would run as a formula gets an
/// apostrophe before it.
pub fn csv(listing: &Listing) -> String {
    let heading = listing.columns.iter().map(|column| match column.unit {
        Some(unit) => format!("{} [{unit}]", column.title),
        None => column.title.to_owned(),
    });
    let mut out = line(heading.map(|text| field(&text)));
    for row in &listing.rows {
        out.push_str(&line(row.iter().map(cell)));
    }
    out
}

fn line(fields: impl Iterator<Item = String>) -> String {
    let mut line = fields.collect::<Vec<_>>().join(",");
    line.push_str("\r\n");
    line
}

fn cell(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => field(text),
        Cell::Number { number, .. } => plain(*number),
    }
}

/// A number with at most three places and no needless zeros.
fn plain(number: f64) -> String {
    if !number.is_finite() {
        return String::new();
    }
    let text = format!("{number:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0" } else { text }.to_owned()
}

fn field(text: &str) -> String {
    let runs = text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
    let text = if runs {
        format!("'{text}")
    } else {
        text.to_owned()
    };
    if text.contains(['"', ',', '\r', '\n']) || text.trim() != text {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::views::lists::Column;

    #[test]
    fn fields_are_quoted_and_formulas_are_texts() {
        let listing = Listing {
            name: "x",
            columns: vec![
                Column {
                    title: "What",
                    unit: None,
                },
                Column {
                    title: "Length",
                    unit: Some("m"),
                },
            ],
            rows: vec![
                vec![Cell::of("a, \"b\"\nc"), number(1.5)],
                vec![Cell::of("=1+1"), number(-0.0001)],
                vec![Cell::of("@x"), number(f64::NAN)],
                vec![Cell::of("plain – ü"), number(12.0)],
            ],
        };
        let expected =
            "What,Length [m]\r\n\"a, \"\"b\"\"\nc\",1.5\r\n'=1+1,0\r\n'@x,\r\nplain – ü,12\r\n";
        assert_eq!(csv(&listing), expected);
    }

    fn number(number: f64) -> Cell {
        Cell::Number {
            number,
            text: String::new(),
        }
    }
}
