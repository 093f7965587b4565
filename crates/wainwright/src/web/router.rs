//! Which address leads to which page. Not here: who may ask (`guard`).

use super::app::App;
use super::view::View;
use super::{act, assets, guard, live, pages};
use crate::store::LARGEST;
use axum::extract::DefaultBodyLimit;
use axum::middleware::from_fn_with_state;
use axum::response::Response;
use axum::routing::{get, post};
use axum::Router;
use std::sync::Arc;

/// Most bytes of a form: a whole project text, every byte of it encoded as
/// three, and some fields besides.
const LARGEST_FORM: usize = LARGEST as usize * 3 + 64 * 1024;

/// All addresses.
pub fn router(app: &Arc<App>) -> Router {
    Router::new()
        .route("/", get(pages::overview::page))
        .route("/finding", get(pages::finding::page))
        .route("/undo", post(act::undo))
        .route("/redo", post(act::redo))
        .route("/fix", post(act::fix))
        .route("/theme", post(act::theme))
        .route("/live", get(live::live))
        .route("/assets/{name}", get(assets::asset))
        .fallback(nothing)
        .layer(DefaultBodyLimit::max(LARGEST_FORM))
        .layer(from_fn_with_state(Arc::clone(app), guard::guard))
        .with_state(Arc::clone(app))
}

async fn nothing(view: View) -> Response {
    view.missing("There is no page at this address.")
}
