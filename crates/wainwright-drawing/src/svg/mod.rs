//! SVG text from a [`Layout`]: the only writer. Classes only; the colours are
//! custom properties in [`stylesheet`].

mod blocks;
mod links;
mod style;
mod style_chart;
mod style_indoors;
mod style_lining;
mod style_scene;
pub(crate) mod writer;

pub use style::stylesheet;

use crate::layout::Layout;
use std::collections::BTreeMap;
use writer::{Writer, number};

/// How a drawing is wrapped.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Style {
    /// Read aloud as the name of the drawing.
    pub title: String,
    /// Put before every `id`, so that two drawings can stand on one page.
    pub id_prefix: String,
    /// Where the style rules are.
    pub css: Css,
}

/// Where a drawing's style rules are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Css {
    /// In the drawing: it can stand alone.
    Inside,
    /// On the page, from [`stylesheet`].
    OnPage,
}

impl Default for Style {
    fn default() -> Self {
        Self {
            title: "Wiring schematic".into(),
            id_prefix: String::new(),
            css: Css::Inside,
        }
    }
}

/// The drawing as SVG text. Deterministic; every text of a person is escaped.
pub fn svg(layout: &Layout, style: &Style) -> String {
    let mut out = Writer::default();
    open(
        &mut out,
        &style.title,
        layout.width,
        layout.height,
        style.css,
    );
    let mut ids = Ids::new(&style.id_prefix);
    out.open("g", &[("class", "links")]);
    for link in &layout.links {
        links::draw(&mut out, link, &ids.next("link", &link.link.id));
    }
    out.close();
    out.open("g", &[("class", "blocks")]);
    for block in &layout.blocks {
        blocks::draw(&mut out, block, &ids.next("block", &block.block.id));
    }
    out.close();
    for caption in &layout.captions {
        out.label("caption", caption.at, &caption.text);
    }
    out.finish()
}

/// Hands out element ids, each once.
pub(crate) struct Ids<'a> {
    prefix: &'a str,
    used: BTreeMap<String, usize>,
}

impl<'a> Ids<'a> {
    /// Ids with this prefix.
    pub(crate) fn new(prefix: &'a str) -> Self {
        Self {
            prefix,
            used: BTreeMap::new(),
        }
    }

    /// `<prefix><what>-<id>`, with a number behind it from the second time on.
    pub(crate) fn next(&mut self, what: &str, id: &str) -> String {
        let plain = format!("{}{what}-{id}", self.prefix);
        let mut id = plain.clone();
        // Something else may be called what the second of this would be.
        while self.used.contains_key(&id) {
            let count = self.used.entry(plain.clone()).or_insert(1);
            *count += 1;
            id = format!("{plain}-{count}");
        }
        self.used.insert(id.clone(), 1);
        id
    }
}

/// Opens the outermost element of a drawing of this size [px].
pub(crate) fn open(out: &mut Writer, title: &str, width: f64, height: f64, css: Css) {
    let (width, height) = (number(width.max(1.0)), number(height.max(1.0)));
    out.open(
        "svg",
        &[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("class", "drawing"),
            ("viewBox", &format!("0 0 {width} {height}")),
            ("width", &width),
            ("height", &height),
            ("role", "group"),
            ("aria-label", title),
        ],
    );
    if css == Css::Inside {
        out.style(&stylesheet());
    }
}

/// Sentence parts joined with full stops; empty parts are left out.
pub(crate) fn sentence(parts: &[String]) -> String {
    let parts: Vec<&str> = parts
        .iter()
        .map(String::as_str)
        .filter(|p| !p.is_empty())
        .collect();
    format!("{}.", parts.join(". "))
}
