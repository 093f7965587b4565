//! What a button does: a change of the project, then back to the page it was
//! pressed on. Not here: forms with fields (see `form` and `pages`).

use super::app::App;
use super::html::shell::Page;
use super::view::{Query, Theme, View};
use crate::session::{Refusal, Snapshot};
use axum::extract::{FromRequest, Request};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use maud::html;
use std::sync::Arc;

/// The fields of a form that was sent.
#[derive(Debug)]
pub struct Sent(pub Query);

impl FromRequest<Arc<App>> for Sent {
    type Rejection = Response;

    async fn from_request(request: Request, app: &Arc<App>) -> Result<Self, Response> {
        match axum::Form::<Vec<(String, String)>>::from_request(request, app).await {
            Ok(axum::Form(pairs)) => Ok(Self(Query(pairs))),
            Err(refusal) => Err(refusal.into_response()),
        }
    }
}

impl Sent {
    /// The revision the form was drawn from; 0, which is none, when missing.
    pub fn revision(&self) -> u64 {
        self.0
            .get("revision")
            .and_then(|text| text.parse().ok())
            .unwrap_or(0)
    }

    /// Where to go afterwards.
    pub fn back(&self) -> &str {
        self.0
            .get("back")
            .filter(|place| is_local(place))
            .unwrap_or("/")
    }
}

/// Takes the last change back.
pub async fn undo(view: View, sent: Sent) -> Response {
    let done = blocking(|| view.app.session.undo(sent.revision()));
    after(&view, &sent, done)
}

/// Repeats what was taken back.
pub async fn redo(view: View, sent: Sent) -> Response {
    let done = blocking(|| view.app.session.redo(sent.revision()));
    after(&view, &sent, done)
}

/// Applies a proven fix. The fixes are looked up anew in the project as it is
/// now, so that only what is proven for this very text is ever applied.
pub async fn fix(view: View, sent: Sent) -> Response {
    let (key, title) = (
        sent.0.get("key").unwrap_or(""),
        sent.0.get("title").unwrap_or(""),
    );
    let number: usize = sent
        .0
        .get("number")
        .and_then(|n| n.parse().ok())
        .unwrap_or(0);
    let done = blocking(|| {
        let fixes = view.study().fixes(key)?;
        let fix = fixes
            .get(number.checked_sub(1)?)
            .filter(|fix| fix.title == title)?;
        Some(
            view.app
                .session
                .apply(&fix.edits, view.now.revision, &fix.title),
        )
    });
    match done {
        // The page of a mended finding is gone.
        Some(Ok(_)) if sent.back().starts_with("/finding") => go("/"),
        Some(done) => after(&view, &sent, done),
        None => no_change(
            &view,
            &sent,
            "Not changed: the project was changed meanwhile, and this fix is no longer the one that was shown. Look at the finding again.",
        ),
    }
}

/// Remembers light or dark in this browser.
pub async fn theme(sent: Sent) -> Response {
    let theme = Theme::named(sent.0.get("theme").unwrap_or(""));
    let cookie = match theme.word() {
        Some(word) => format!("theme={word}; Path=/; Max-Age=31536000; SameSite=Strict"),
        None => "theme=; Path=/; Max-Age=0; SameSite=Strict".to_owned(),
    };
    ([(header::SET_COOKIE, cookie)], go(sent.back())).into_response()
}

/// Back to the page when it was done, or the reason why not.
pub fn after(view: &View, sent: &Sent, done: Result<Arc<Snapshot>, Refusal>) -> Response {
    match done {
        Ok(_) => go(sent.back()),
        Err(refusal) => no_change(view, sent, &sentence(&refusal)),
    }
}

/// Says that nothing was changed, and why.
fn no_change(view: &View, sent: &Sent, why: &str) -> Response {
    let page = Page {
        tab: None,
        title: "Not changed".into(),
        lede: "The project is as it was before.",
        main: html! {
            p.callout role="alert" { (why) }
            p { a.button.primary href=(sent.back()) { "Back" } }
        },
    };
    view.anew().refused(StatusCode::CONFLICT, page)
}

/// The reason for a refusal as a sentence.
pub fn sentence(refusal: &Refusal) -> String {
    let words = refusal.to_string();
    let mut letters = words.chars();
    let first = letters
        .next()
        .map(|c| c.to_uppercase().to_string())
        .unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

/// On to another page of ours, to be fetched anew.
pub fn go(place: &str) -> Response {
    let place = HeaderValue::from_str(place).unwrap_or(HeaderValue::from_static("/"));
    (StatusCode::SEE_OTHER, [(header::LOCATION, place)]).into_response()
}

/// Work that takes long or touches the disk, done without holding up other
/// requests.
pub fn blocking<T>(work: impl FnOnce() -> T) -> T {
    tokio::task::block_in_place(work)
}

/// Whether an address leads to a page of ours and nowhere else.
fn is_local(place: &str) -> bool {
    let rest = place.strip_prefix('/');
    rest.is_some_and(|rest| !rest.starts_with(['/', '\\'])) && !place.chars().any(char::is_control)
}

#[cfg(test)]
mod tests {
    use super::is_local;

    #[test]
    fn back_leads_nowhere_else() {
        assert!(is_local("/wiring?select=wire.a#panel"));
        for place in [
            "",
            "wiring",
            "//evil.example",
            "/\\evil.example",
            "http://evil.example",
            "/a\nb",
        ] {
            assert!(!is_local(place), "{place:?}");
        }
    }
}
