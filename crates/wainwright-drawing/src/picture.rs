//! A finished drawing with the boxes of its texts, and the pen that writes it.
//! Every text goes through the pen, so that what a test sees is what is drawn.

use crate::geometry::{Point, Rect};
use crate::svg::writer::{Writer, number};
use crate::svg::{Css, Style, stylesheet};
use crate::text::{fit, text_width};

/// A finished drawing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Picture {
    /// Width [px].
    pub width: f64,
    /// Height [px].
    pub height: f64,
    /// Every text on it, with its box.
    pub texts: Vec<TextBox>,
    /// Lines that lead from a text to what it names.
    pub leaders: Vec<[Point; 2]>,
    /// Attributes of the outermost element: what a script needs to know.
    pub attributes: Vec<(String, String)>,
    pub(crate) body: String,
    /// Printed size [mm], where it has one.
    pub(crate) paper_mm: Option<(f64, f64)>,
}

/// A text and the box it fills.
#[derive(Debug, Clone, PartialEq)]
pub struct TextBox {
    /// Box on the sheet.
    pub rect: Rect,
    /// The text.
    pub text: String,
}

impl Picture {
    /// The drawing as SVG text. Ids were made when it was drawn; the prefix of `style` is not used.
    pub fn svg(&self, style: &Style) -> String {
        let mut out = Writer::default();
        let (width, height) = (number(self.width.max(1.0)), number(self.height.max(1.0)));
        let (wide, high) = match self.paper_mm {
            Some((wide, high)) => (format!("{wide:.1}mm"), format!("{high:.1}mm")),
            None => (width.clone(), height.clone()),
        };
        let view_box = format!("0 0 {width} {height}");
        let mut attributes = vec![
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("class", "drawing"),
            ("viewBox", &view_box),
            ("width", &wide),
            ("height", &high),
            ("role", "group"),
            ("aria-label", &style.title),
        ];
        attributes.extend(
            self.attributes
                .iter()
                .map(|(key, value)| (key.as_str(), value.as_str())),
        );
        out.open("svg", &attributes);
        if style.css == Css::Inside {
            out.style(&stylesheet());
        }
        out.finished(&self.body);
        out.finish()
    }
}

/// How a text is set: its size and its class.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Voice {
    /// Name of something.
    Name,
    /// Fact below a name, dimension, list.
    Note,
    /// Number that stands for a name.
    Key,
    /// Title of a sheet or card.
    Heading,
}

impl Voice {
    /// Letter height [px].
    pub fn size(self) -> f64 {
        match self {
            Self::Heading => 16.0,
            Self::Name => 12.0,
            Self::Note | Self::Key => 11.0,
        }
    }

    /// Width [px] of `text`, on the wide side.
    pub fn width(self, text: &str) -> f64 {
        let heavier = match self {
            Self::Note => 1.0,
            Self::Name | Self::Key | Self::Heading => 1.07,
        };
        text_width(text, self.size()) * heavier
    }

    /// Height of a line [px].
    pub fn height(self) -> f64 {
        self.size() * 1.25
    }

    /// `text` in lines of at most `width` [px], broken between words; a longer word is shortened.
    pub fn wrap(self, text: &str, width: f64) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        for word in text.split_whitespace() {
            match lines.last_mut() {
                Some(line) if self.width(&format!("{line} {word}")) <= width => {
                    line.push(' ');
                    line.push_str(word);
                }
                _ => lines.push(self.fit(word, width)),
            }
        }
        lines
    }

    /// `text`, shortened to at most `width` [px].
    pub fn fit(self, text: &str, width: f64) -> String {
        let heavier = self.width("m") / text_width("m", self.size());
        fit(text, self.size() * heavier, width)
    }

    fn class(self) -> &'static str {
        match self {
            Self::Name => "t-name",
            Self::Note => "t-note",
            Self::Key => "t-key",
            Self::Heading => "t-head",
        }
    }
}

/// Where a text stands in its box.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Align {
    Start,
    Middle,
    End,
}

/// Writes elements, and remembers texts and leaders.
#[derive(Debug, Default)]
pub(crate) struct Pen {
    pub out: Writer,
    texts: Vec<TextBox>,
    leaders: Vec<[Point; 2]>,
}

impl Pen {
    /// A level text in the box whose top left corner is `at`.
    pub fn text(&mut self, voice: Voice, at: Point, text: &str) {
        let rect = Rect::new(at.x, at.y, voice.width(text), voice.height());
        self.text_in(voice, rect, Align::Start, text);
    }

    /// A level text in a box at least as wide as the text.
    pub fn text_in(&mut self, voice: Voice, rect: Rect, align: Align, text: &str) {
        if text.is_empty() {
            return;
        }
        let base = rect.y + rect.height / 2.0 + voice.size() * 0.36;
        let (x, end) = match align {
            Align::Start => (rect.x, ""),
            Align::Middle => (rect.x + rect.width / 2.0, " middle"),
            Align::End => (rect.right(), " end"),
        };
        let class = format!("{}{end}", voice.class());
        self.out.label(&class, Point::new(x, base), text);
        let width = voice.width(text).min(rect.width);
        let left = match align {
            Align::Start => rect.x,
            Align::Middle => rect.x + (rect.width - width) / 2.0,
            Align::End => rect.right() - width,
        };
        self.keep(Rect::new(left, rect.y, width, rect.height), text);
    }

    /// A text that reads upwards, in the middle of a standing box.
    pub fn text_upright(&mut self, voice: Voice, rect: Rect, text: &str) {
        let middle = Point::new(rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
        self.turned(voice.class(), None, voice.size(), middle, -90, text);
        self.keep(rect, text);
    }

    /// A text of any size [px] around a middle, level or upside down.
    pub fn text_sized(
        &mut self,
        class: &str,
        size: f64,
        rect: Rect,
        upside_down: bool,
        text: &str,
    ) {
        let middle = Point::new(rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
        let turn = if upside_down { 180 } else { 0 };
        self.turned(class, Some(size), size, middle, turn, text);
        self.keep(rect, text);
    }

    /// A level text of any size [px] that begins at the left edge of its box.
    pub fn text_from(&mut self, class: &str, size: f64, rect: Rect, text: &str) {
        let (x, y) = (
            number(rect.x),
            number(rect.y + rect.height / 2.0 + size * 0.36),
        );
        let font = number(size);
        let attributes = [("class", class), ("x", &x), ("y", &y), ("font-size", &font)];
        self.out.text("text", &attributes, text);
        self.keep(rect, text);
    }

    /// A line from a text to what it names.
    pub fn leader(&mut self, from: Point, to: Point) {
        self.out.line("leader", from, to);
        self.leaders.push([from, to]);
    }

    /// The finished drawing.
    pub fn picture(self, width: f64, height: f64) -> Picture {
        Picture {
            width,
            height,
            texts: self.texts,
            leaders: self.leaders,
            attributes: Vec::new(),
            body: self.out.finish(),
            paper_mm: None,
        }
    }

    /// Another drawing, moved to `at` and made smaller by `factor`.
    pub fn place(&mut self, picture: &Picture, at: Point, factor: f64) {
        let shift = format!("translate({} {})", number(at.x), number(at.y));
        let transform = if factor == 1.0 {
            shift
        } else {
            format!("{shift} scale({factor:.4})")
        };
        self.out.open("g", &[("transform", &transform)]);
        self.out.finished(&picture.body);
        self.out.close();
        let moved = |p: Point| Point::new(at.x + p.x * factor, at.y + p.y * factor);
        for known in &picture.texts {
            let corner = moved(Point::new(known.rect.x, known.rect.y));
            let (wide, high) = (known.rect.width * factor, known.rect.height * factor);
            self.keep(Rect::new(corner.x, corner.y, wide, high), &known.text);
        }
        let leaders = picture.leaders.iter().map(|[a, b]| [moved(*a), moved(*b)]);
        self.leaders.extend(leaders);
    }

    fn turned(
        &mut self,
        class: &str,
        font_size: Option<f64>,
        size: f64,
        middle: Point,
        degrees: i32,
        text: &str,
    ) {
        let (x, y) = (number(middle.x), number(middle.y + size * 0.36));
        let class = format!("{class} middle");
        let font = font_size.map(number);
        let turn = format!("rotate({degrees} {x} {})", number(middle.y));
        let mut attributes = vec![("class", class.as_str()), ("x", &x), ("y", &y)];
        if let Some(font) = &font {
            attributes.push(("font-size", font));
        }
        if degrees != 0 {
            attributes.push(("transform", &turn));
        }
        self.out.text("text", &attributes, text);
    }

    fn keep(&mut self, rect: Rect, text: &str) {
        self.texts.push(TextBox {
            rect,
            text: text.to_owned(),
        });
    }
}
