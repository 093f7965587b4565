//! Reads drawings back: elements and attributes, strictly.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
#![allow(dead_code)]

/// One element: its name and attributes, values unescaped.
pub struct Element {
    pub name: String,
    pub attributes: Vec<(String, String)>,
}

/// Reads a document of elements, text and the five entities; panics on anything else.
pub fn read(text: &str) -> (Vec<Element>, String) {
    let mut elements = Vec::new();
    let mut open: Vec<String> = Vec::new();
    let mut content = String::new();
    let mut rest = text;
    while let Some(start) = rest.find('<') {
        let before = &rest[..start];
        assert!(!before.contains('>'), "a bare > in {before:?}");
        assert!(
            !open.is_empty() || before.trim().is_empty(),
            "text outside: {before:?}"
        );
        content.push_str(&unescape(before));
        let end = rest[start..].find('>').expect("an unclosed tag") + start;
        let tag = &rest[start + 1..end];
        rest = &rest[end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop().as_deref(), Some(name), "closing tags match");
            continue;
        }
        let (tag, leaf) = tag
            .strip_suffix('/')
            .map_or((tag, false), |tag| (tag, true));
        let element = element(tag);
        if !leaf {
            open.push(element.name.clone());
        }
        elements.push(element);
    }
    assert!(
        open.is_empty() && rest.trim().is_empty(),
        "left open: {open:?}, rest {rest:?}"
    );
    (elements, content)
}

fn element(tag: &str) -> Element {
    let (name, mut rest) = tag.split_once(' ').unwrap_or((tag, ""));
    assert!(
        name.chars().all(|c| c.is_ascii_lowercase()),
        "name {name:?}"
    );
    let mut attributes: Vec<(String, String)> = Vec::new();
    while !rest.trim().is_empty() {
        let (key, after) = rest.trim_start().split_once("=\"").expect("an attribute");
        let (value, after) = after.split_once('"').expect("a closing quote");
        assert!(!value.contains('<'), "a bare < in {value:?}");
        assert!(
            attributes.iter().all(|(known, _)| known != key),
            "{key} twice"
        );
        attributes.push((key.into(), unescape(value)));
        rest = after;
    }
    Element {
        name: name.into(),
        attributes,
    }
}

fn unescape(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find('&') {
        out.push_str(&rest[..at]);
        let end = rest[at..].find(';').expect("an unfinished entity") + at;
        out.push(match &rest[at..=end] {
            "&amp;" => '&',
            "&lt;" => '<',
            "&gt;" => '>',
            "&quot;" => '"',
            "&#39;" => '\'',
            other => panic!("unknown entity {other}"),
        });
        rest = &rest[end + 1..];
    }
    assert!(
        rest.chars().all(|c| c >= ' ' || c == '\n'),
        "control characters"
    );
    out + rest
}

/// The value of an attribute.
pub fn attribute<'a>(element: &'a Element, key: &str) -> Option<&'a str> {
    element
        .attributes
        .iter()
        .find(|(known, _)| known == key)
        .map(|(_, value)| value.as_str())
}

/// Well-formed, and without colours on elements.
pub fn check(text: &str) -> Vec<Element> {
    let (elements, _) = read(text);
    for element in &elements {
        for banned in ["style", "fill", "stroke", "onclick", "href"] {
            assert!(
                attribute(element, banned).is_none(),
                "{banned} on {}",
                element.name
            );
        }
    }
    assert!(
        !text.contains("NaN") && !text.contains("inf "),
        "numbers are numbers"
    );
    elements
}
