//! A table that can be searched and sorted, and that becomes cards on a
//! narrow screen. Not here: what is in it.

use crate::web::html::encoded;
use crate::web::view::View;
use maud::{Markup, html};

/// A table.
pub struct Table {
    /// Read aloud before it.
    pub caption: &'static str,
    /// Columns in order.
    pub columns: Vec<Column>,
    /// Rows in the order of the file.
    pub rows: Vec<Row>,
    /// What can be searched for, as an example.
    pub find: &'static str,
    /// Heading when there is no row.
    pub none: &'static str,
    /// What to do then.
    pub begin: &'static str,
    /// Where to add the first row.
    pub add: &'static str,
    /// On the button that leads there.
    pub add_words: &'static str,
}

/// One column.
pub struct Column {
    /// As in the address.
    pub id: &'static str,
    /// Heading.
    pub words: &'static str,
    /// Holds numbers, which stand to the right.
    pub number: bool,
}

/// One row.
pub struct Row {
    /// Stable name, such as `wire.fridge-plus`.
    pub key: String,
    /// Text that is searched.
    pub text: String,
    /// One cell for each column.
    pub cells: Vec<Cell>,
}

/// One cell.
pub struct Cell {
    /// What is shown.
    pub shown: Markup,
    /// What it is sorted by.
    pub order: Order,
}

/// What a cell is sorted by.
#[derive(Debug, Clone, PartialEq)]
pub enum Order {
    /// By letters.
    Text(String),
    /// By size; what has none comes last.
    Number(Option<f64>),
}

impl Cell {
    /// A cell of text.
    pub fn text(text: impl Into<String>) -> Self {
        let text = text.into();
        Self {
            shown: html! { (text) },
            order: Order::Text(text),
        }
    }

    /// A cell with a number.
    pub fn number(number: Option<f64>, shown: Markup) -> Self {
        Self {
            shown,
            order: Order::Number(number),
        }
    }

    /// A cell with anything, sorted by a text.
    pub fn shown(text: impl Into<String>, shown: Markup) -> Self {
        Self {
            shown,
            order: Order::Text(text.into()),
        }
    }
}

impl Column {
    /// A column of text.
    pub const fn text(id: &'static str, words: &'static str) -> Self {
        Self {
            id,
            words,
            number: false,
        }
    }

    /// Holds sentences, which need the whole width of a card.
    fn long(&self) -> bool {
        matches!(self.id, "ends" | "protection" | "guards")
    }

    /// A column of numbers.
    pub const fn number(id: &'static str, words: &'static str) -> Self {
        Self {
            id,
            words,
            number: true,
        }
    }
}

/// Draws the rows that are looked for, in the order that is asked for.
pub fn draw(view: &View, table: &Table) -> Markup {
    let wanted = view.query.get("find").unwrap_or("").trim().to_lowercase();
    let found = |row: &&Row| {
        wanted
            .split_whitespace()
            .all(|word| row.text.to_lowercase().contains(word))
    };
    let mut rows: Vec<&Row> = table.rows.iter().filter(found).collect();
    let sort = table
        .columns
        .iter()
        .position(|column| Some(column.id) == view.query.get("sort"));
    let down = view.query.has("down");
    if let Some(place) = sort {
        rows.sort_by(|a, b| compare(a.cells.get(place), b.cells.get(place), down));
    }
    html! {
        p.found role="status" { (rows.len()) " of " (table.rows.len()) }
        table.cards role="table" {
            caption.unseen { (table.caption) }
            thead role="rowgroup" {
                tr role="row" {
                    @for (place, column) in table.columns.iter().enumerate() {
                        (heading(view, column, (sort == Some(place)).then_some(down)))
                    }
                }
            }
            tbody role="rowgroup" {
                @for row in rows {
                    tr role="row" id={ "row-" (row.key) } data-row=(row.key) {
                        @for (place, (cell, column)) in row.cells.iter().zip(&table.columns).enumerate() {
                            @if place == 0 {
                                th scope="row" role="rowheader" data-label=(column.words) { (cell.shown) }
                            } @else {
                                td.number[column.number].long[column.long()] role="cell" data-label=(column.words) { (cell.shown) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn compare(a: Option<&Cell>, b: Option<&Cell>, down: bool) -> std::cmp::Ordering {
    use std::cmp::Ordering::{Equal, Greater, Less};
    let turned = |order: std::cmp::Ordering| if down { order.reverse() } else { order };
    match (a.map(|cell| &cell.order), b.map(|cell| &cell.order)) {
        (Some(Order::Number(Some(a))), Some(Order::Number(Some(b)))) => turned(a.total_cmp(b)),
        (Some(Order::Number(Some(_))), Some(Order::Number(None))) => Less,
        (Some(Order::Number(None)), Some(Order::Number(Some(_)))) => Greater,
        (Some(Order::Text(a)), Some(Order::Text(b))) => {
            turned(a.to_lowercase().cmp(&b.to_lowercase()))
        }
        _ => Equal,
    }
}

fn heading(view: &View, column: &Column, sorted: Option<bool>) -> Markup {
    let spoken = match sorted {
        Some(true) => Some("descending"),
        Some(false) => Some("ascending"),
        None => None,
    };
    html! {
        th.number[column.number] scope="col" role="columnheader" aria-sort=[spoken] {
            @if column.words.is_empty() {
                span.unseen { "Actions" }
            } @else {
                a href=(address(view, column, sorted)) data-live {
                    (column.words)
                    @match sorted { Some(true) => " ▾", Some(false) => " ▴", None => "" }
                }
            }
        }
    }
}

/// The same page sorted by this column; the other way when it is already.
fn address(view: &View, column: &Column, sorted: Option<bool>) -> String {
    let kept = view
        .query
        .0
        .iter()
        .filter(|(name, _)| !matches!(name.as_str(), "sort" | "down"));
    let kept: String = kept
        .map(|(name, value)| format!("&{}={}", encoded(name), encoded(value)))
        .collect();
    let down = if sorted == Some(false) { "&down=1" } else { "" };
    format!("/circuits?sort={}{down}{kept}", column.id)
}

/// Picture and word of what can be done with a row.
const ACTIONS: [(&str, &str); 3] = [
    ("Change", "M4 20h4L19 9l-4-4L4 16zM13 7l4 4"),
    ("Duplicate", "M9 9h11v11H9zM15 9V4H4v11h5"),
    (
        "Delete",
        "M5 7h14M10 7V4h4v3M7 7l1 13h8l1-13M10 11v5M14 11v5",
    ),
];

/// What can be done with a row, at its end.
pub fn actions(element: &str, id: &str, label: &str) -> Cell {
    let id = encoded(id);
    let address = |word: &str| match word {
        "Change" => format!("/edit/{element}/{id}"),
        "Duplicate" => format!("/add/{element}?copy={id}"),
        _ => format!("/delete/{element}/{id}"),
    };
    Cell::shown(
        "",
        html! {
            span.actions {
                @for (word, picture) in ACTIONS {
                    a href=(address(word)) title=(word) data-action=(word) {
                        svg viewBox="0 0 24 24" width="20" height="20" aria-hidden="true" focusable="false" { path d=(picture) {} }
                        span.unseen { (word) " " (label) }
                    }
                }
            }
        },
    )
}
