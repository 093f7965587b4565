//! Tells open pages that something is new, as server-sent events: a new
//! revision of the project, or fixes and odds that were worked out meanwhile. What is new
//! the page fetches itself. Not here: what the page does then (`app.js`).

use super::app::App;
use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream::{self, Stream};
use std::convert::Infallible;
use std::sync::Arc;

/// The stream of one page.
pub async fn live(
    State(app): State<Arc<App>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let project = app.session.subscribe();
    let fixes = app.mender.subscribe();
    let odds = app.outlooks.subscribe();
    let ended = app.ended();
    let events = stream::unfold(
        (project, fixes, odds, ended),
        |(mut project, mut fixes, mut odds, mut ended)| async move {
            let event = tokio::select! {
                changed = project.changed() => changed.is_ok().then(|| {
                    let now = project.borrow_and_update();
                    Event::default().event("project").data(now.revision.to_string())
                }),
                changed = fixes.changed() => changed.is_ok().then(|| {
                    let proven = *fixes.borrow_and_update();
                    Event::default().event("fixes").data(proven.to_string())
                }),
                changed = odds.changed() => changed.is_ok().then(|| {
                    let finer = *odds.borrow_and_update();
                    Event::default().event("odds").data(finer.to_string())
                }),
                _ = ended.changed() => None,
            };
            event.map(|event| (Ok(event), (project, fixes, odds, ended)))
        },
    );
    Sse::new(events).keep_alive(KeepAlive::default())
}
