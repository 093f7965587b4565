//! The frame around every page: name of the project, places to go, undo and
//! redo, whether everything is on disk, light or dark. Not here: the pages.

use super::{back, revision};
use crate::session::Disk;
use crate::web::view::{Theme, View};
use maud::{DOCTYPE, Markup, html};

/// One page.
#[derive(Debug)]
pub struct Page {
    /// Which of the main places it is, if any.
    pub tab: Option<Tab>,
    /// Its heading.
    pub title: String,
    /// One sentence that says what the page is.
    pub lede: &'static str,
    /// What is on it.
    pub main: Markup,
}

/// The main places.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "named like the pages")]
pub enum Tab {
    Overview,
    Layout,
    Wiring,
    Circuits,
    Lists,
    Energy,
    Lining,
    Rules,
    Bench,
    File,
}

/// Word, address and picture of each place. Pictures are single strokes in a
/// square of 24.
const TABS: [(Tab, &str, &str, &str); 10] = [
    (
        Tab::Overview,
        "Overview",
        "/",
        "M4 11 12 4l8 7v9h-6v-6h-4v6H4z",
    ),
    (
        Tab::Layout,
        "Layout",
        "/layout",
        "M3 6h18v9H3zM8 6v5M8 11H3M15 15v-5h6M9 19a2 2 0 1 0 4 0a2 2 0 1 0-4 0",
    ),
    (
        Tab::Wiring,
        "Wiring",
        "/wiring",
        "M3 6h7v5H3zM14 13h7v5h-7zM10 8.5h4a3 3 0 0 1 3 3V13",
    ),
    (
        Tab::Circuits,
        "Circuits",
        "/circuits",
        "M4 5h16M4 10h16M4 15h16M4 20h16M9 5v15",
    ),
    (
        Tab::Lists,
        "Lists",
        "/lists",
        "M4 6h2M4 12h2M4 18h2M9 6h11M9 12h11M9 18h7",
    ),
    (
        Tab::Energy,
        "Energy",
        "/energy",
        "M12 8a4 4 0 1 0 0 8a4 4 0 1 0 0-8M12 2v3M12 19v3M2 12h3M19 12h3M5 5l2 2M17 17l2 2M19 5l-2 2M7 17l-2 2",
    ),
    (
        Tab::Lining,
        "Lining",
        "/lining",
        "M3 5h18v14H3zM3 9.7h18M3 14.3h18M14 5v4.7M8 9.7v4.6M15 14.3V19",
    ),
    (
        Tab::Rules,
        "Rules",
        "/rules",
        "M6 3h11a1 1 0 0 1 1 1v17H7a2 2 0 0 1-2-2V4a1 1 0 0 1 1-1zM9 8h6M9 12h6",
    ),
    (
        Tab::Bench,
        "Bench",
        "/bench",
        "M3 9h18M5 9v10M19 9v10M8 9V5h8v4",
    ),
    (
        Tab::File,
        "File",
        "/file",
        "M6 3h8l4 4v14H6zM14 3v4h4M9 13h6M9 17h6",
    ),
];

/// Draws a page with its frame.
pub fn draw(view: &View, page: Page) -> Markup {
    let name = view.study().project.head.name.as_ref();
    let name = name.map_or("Unnamed trailer", |n| n.value.as_str());
    html! {
        (DOCTYPE)
        html lang="en" data-theme=[view.theme.word()] {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (page.title) " · " (name) }
                link rel="icon" href="/assets/icon.svg" type="image/svg+xml";
                link rel="stylesheet" href="/assets/drawing.css";
                link rel="stylesheet" href="/assets/app.css";
                script src="/assets/app.js" defer {}
            }
            body data-revision=(view.now.revision) {
                a.skip href="#main" { "Skip to the page" }
                header #top {
                    div.name {
                        a href="/" { span #project-name data-region { (name) } }
                        (disk(view))
                    }
                    (tools(view))
                    nav aria-label="Pages" {
                        ul {
                            @for (tab, word, place, picture) in TABS {
                                li {
                                    a href=(place) aria-current=[(page.tab == Some(tab)).then_some("page")] {
                                        svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true" focusable="false" {
                                            path d=(picture) {}
                                        }
                                        span { (word) }
                                    }
                                }
                            }
                        }
                    }
                }
                main #main.{ @if matches!(page.tab, Some(Tab::Wiring | Tab::Layout | Tab::Lining)) { "wide" } } tabindex="-1" {
                    h1 { (page.title) }
                    p.lede { (page.lede) }
                    (page.main)
                }
                footer {
                    p {
                        "Computed from what you typed, not from your trailer: check both. Local codes and licensed trades have the last word."
                    }
                }
                div #announce.unseen role="status" aria-live="polite" {}
            }
        }
    }
}

fn disk(view: &View) -> Markup {
    html! {
        span #disk data-region {
            @match &view.now.disk {
                Disk::Saved => span.saved { "Saved in " (view.now.path.file_name().unwrap_or_default().to_string_lossy()) },
                Disk::Unsaved(why) => span.unsaved role="alert" { "Not saved: " (why) " " a href="/file#another-name" { "Save under another name" } },
            }
        }
    }
}

fn tools(view: &View) -> Markup {
    html! {
        div.tools {
            div.history #history data-region {
                (step(view, "undo", "Undo", view.now.undo.as_deref(), "M9 5 4 10l5 5M4 10h10a6 6 0 0 1 0 12h-3"))
                (step(view, "redo", "Redo", view.now.redo.as_deref(), "m15 5 5 5-5 5M20 10H10a6 6 0 0 0 0 12h3"))
            }
            (theme(view))
        }
    }
}

fn step(view: &View, name: &str, word: &str, label: Option<&str>, picture: &str) -> Markup {
    html! {
        form method="post" action={ "/" (name) } data-live {
            (revision(view.now.revision))
            (back(&view.here))
            button.quiet id=(name) disabled[label.is_none()] title=[label] aria-label=(name_of(word, label)) {
                svg viewBox="0 0 24 24" width="20" height="20" aria-hidden="true" focusable="false" { path d=(picture) {} }
                span.word { (word) }
                @if let Some(label) = label { span.what { ": " (label) } }
            }
        }
    }
}

/// On a phone only the picture of the button is seen.
fn name_of(word: &str, label: Option<&str>) -> String {
    label.map_or_else(|| word.to_owned(), |label| format!("{word}: {label}"))
}

/// One button that goes to the other of light and dark; the script knows
/// what the system has, the server does not.
fn theme(view: &View) -> Markup {
    let next = match view.theme {
        Theme::Dark => Theme::Light,
        _ => Theme::Dark,
    };
    html! {
        form method="post" action="/theme" #theme {
            (back(&view.here))
            button.quiet name="theme" value=(next.word().unwrap_or_default()) aria-label="Switch between light and dark" title="Light or dark" {
                svg viewBox="0 0 24 24" width="20" height="20" aria-hidden="true" focusable="false" {
                    path d="M12 3a9 9 0 1 0 9 9a7 7 0 0 1-9-9z" {}
                }
            }
        }
    }
}
