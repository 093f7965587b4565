//! What one request has to go by: the project as it is now, and how this
//! browser wants to see it. Not here: what is shown.

use super::app::App;
use super::html::shell;
use super::mender::Mending;
use crate::session::Snapshot;
use crate::study::Study;
use crate::views::basis::BasisView;
use axum::extract::FromRequestParts;
use axum::http::request::Parts;
use axum::http::{StatusCode, Uri, header};
use axum::response::{Html, IntoResponse, Response};
use maud::Markup;
use std::convert::Infallible;
use std::sync::Arc;
use wainwright_units::{Quantity, System};

/// Light or dark.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Theme {
    /// As the system has it.
    #[default]
    System,
    /// Always light.
    Light,
    /// Always dark.
    Dark,
}

impl Theme {
    /// As in the cookie and the page; nothing for the system's own.
    pub fn word(self) -> Option<&'static str> {
        match self {
            Self::System => None,
            Self::Light => Some("light"),
            Self::Dark => Some("dark"),
        }
    }

    /// The theme named so.
    pub fn named(word: &str) -> Self {
        match word {
            "light" => Self::Light,
            "dark" => Self::Dark,
            _ => Self::System,
        }
    }
}

/// One request for a page.
#[derive(Debug, Clone)]
pub struct View {
    /// What all pages share.
    pub app: Arc<App>,
    /// The project now.
    pub now: Arc<Snapshot>,
    /// Light or dark.
    pub theme: Theme,
    /// Path and query of this page.
    pub here: String,
    /// What stands behind the `?`.
    pub query: Query,
}

/// Names and values behind the `?` or in a form, in their order.
#[derive(Debug, Clone, Default)]
pub struct Query(pub Vec<(String, String)>);

impl Query {
    /// What stands behind the `?` of an address.
    pub fn of(address: &Uri) -> Self {
        let pairs = axum::extract::Query::try_from_uri(address);
        Self(
            pairs
                .map(|axum::extract::Query(pairs)| pairs)
                .unwrap_or_default(),
        )
    }

    /// The first value of this name, unless it is empty.
    pub fn get(&self, name: &str) -> Option<&str> {
        let wanted = |pair: &&(String, String)| pair.0 == name && !pair.1.is_empty();
        self.0.iter().find(wanted).map(|(_, value)| value.as_str())
    }

    /// Every value of this name.
    pub fn all<'q>(&'q self, name: &'q str) -> impl Iterator<Item = &'q str> {
        let same = move |pair: &&(String, String)| pair.0 == name;
        self.0.iter().filter(same).map(|(_, value)| value.as_str())
    }

    /// Whether the name is there, with any value.
    pub fn has(&self, name: &str) -> bool {
        self.all(name).next().is_some()
    }
}

impl FromRequestParts<Arc<App>> for View {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, app: &Arc<App>) -> Result<Self, Infallible> {
        let cookies = parts.headers.get_all(header::COOKIE).iter();
        let cookies = cookies.filter_map(|c| c.to_str().ok());
        let mut pairs = cookies
            .flat_map(|c| c.split(';'))
            .filter_map(|c| c.trim().split_once('='));
        let theme = pairs
            .find(|(name, _)| *name == "theme")
            .map(|(_, word)| Theme::named(word));
        let here = parts
            .uri
            .path_and_query()
            .map_or("/", |place| place.as_str());
        Ok(Self {
            app: Arc::clone(app),
            now: app.session.snapshot(),
            theme: theme.unwrap_or_default(),
            here: here.to_owned(),
            query: Query::of(&parts.uri),
        })
    }
}

impl View {
    /// The project and all that follows from it.
    pub fn study(&self) -> &Arc<Study> {
        &self.now.study
    }

    /// The same request about the project as it is now, after a change.
    pub fn anew(&self) -> Self {
        Self {
            now: self.app.session.snapshot(),
            ..self.clone()
        }
    }

    /// Units the project is shown in.
    pub fn units(&self) -> System {
        let given = self.study().project.head.units.as_ref();
        given.map_or_else(System::default, |units| units.value.into())
    }

    /// A quantity as people read it.
    pub fn show(&self, quantity: impl Quantity) -> String {
        quantity.show(self.units())
    }

    /// How far the fixes of a finding are.
    pub fn fixes(&self, key: &str) -> Mending {
        self.app.mender.fixes(self.study(), key)
    }

    /// A whole page as an answer.
    pub fn page(&self, page: shell::Page) -> Response {
        Html(shell::draw(self, page).into_string()).into_response()
    }

    /// A whole page as an answer that says it was refused.
    pub fn refused(&self, status: StatusCode, page: shell::Page) -> Response {
        (status, self.page(page)).into_response()
    }

    /// A page that says what was asked for is not there.
    pub fn missing(&self, what: &str) -> Response {
        let page = shell::Page {
            tab: None,
            title: "Not found".into(),
            lede: "What was asked for is not in this project; it may have been renamed or deleted.",
            main: maud::html! {
                p.callout { (what) }
                p { a.button href="/" { "To the overview" } }
            },
        };
        self.refused(StatusCode::NOT_FOUND, page)
    }
}

/// A value that may be a stand-in, marked as such.
pub fn marked(text: &str, basis: &BasisView) -> Markup {
    maud::html! {
        (text)
        @if let BasisView::Assumed { .. } = basis {
            " " span.standin title=(basis.words()) { "stand-in" }
        }
    }
}
