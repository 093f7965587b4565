//! Which address leads to which page. Not here: who may ask (`guard`).

use super::app::App;
use super::pages::element;
use super::pages::energy::LARGEST_WEATHER_FORM;
use super::view::View;
use super::{act, assets, guard, live, pages};
use crate::store::LARGEST;
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::from_fn_with_state;
use axum::response::Response;
use axum::routing::{get, post};
use std::sync::Arc;

/// Most bytes of a form: a whole project text, every byte of it encoded as
/// three, and some fields besides.
const LARGEST_FORM: usize = LARGEST as usize * 3 + 64 * 1024;

/// All addresses.
pub fn router(app: &Arc<App>) -> Router {
    Router::new()
        .route("/", get(pages::overview::page))
        .route("/finding", get(pages::finding::page))
        .route("/wiring", get(pages::wiring::page))
        .route("/layout", get(pages::layout::page))
        .route("/layout/try", post(pages::layout::tried))
        .route("/layout/place", post(pages::layout::placed))
        .route("/layout/middle", post(pages::layout::middle))
        .route("/layout/turn", post(pages::layout::turned))
        .route("/layout/begin", post(pages::layout::begun))
        .route(
            "/layout/better",
            get(pages::layout::better::page).post(pages::layout::better::moved),
        )
        .route("/layout/road", get(pages::layout::road::page))
        .route("/layout/hold", get(pages::layout::hold::page))
        .route("/layout/against", post(pages::layout::hold::against))
        .route("/layout/weigh", get(pages::layout::weigh::page))
        .route("/layout/take", post(pages::layout::weigh::taken))
        .route("/wiring/line", get(pages::wiring_line::page))
        .route("/wiring/routes", get(pages::wiring_routes::page))
        .route("/wiring/routes/corner", post(pages::wiring_routes::corner))
        .route(
            "/wiring/plan",
            get(pages::wiring_plan::page).post(pages::wiring_plan::put_in),
        )
        .route("/lists", get(pages::lists::page))
        .route("/lists/terminals", get(pages::lists::terminals::page))
        .route("/lists/fuses", get(pages::lists::fuses::page))
        .route("/lists/labels", get(pages::lists::labels::page))
        .route("/lists/buy", get(pages::lists::buy::page))
        .route("/lists/{file}", get(pages::lists::file))
        .route("/print/routes", get(pages::lists::paper::page))
        .route("/energy", get(pages::energy::page))
        .route("/energy/help", post(pages::energy::put_in))
        .route("/energy/uses", post(pages::energy::begun_uses))
        .route("/energy/size", get(pages::energy::size::page))
        .route("/energy/climate", get(pages::energy::climate::page))
        .route("/energy/climate/place", post(pages::energy::placed))
        .route(
            "/energy/climate/read",
            post(pages::energy::read).layer(DefaultBodyLimit::max(LARGEST_WEATHER_FORM)),
        )
        .route("/energy/climate/take", post(pages::energy::taken))
        .route("/energy/settings", get(pages::settings::page))
        .route("/energy/settings/set", post(pages::settings::set))
        .route("/energy/settings/mend", post(pages::settings::mend))
        .route("/energy/symptom", get(pages::symptom::page))
        .route("/print/settings", get(pages::settings::paper::page))
        .route("/lining", get(pages::lining::page))
        .route("/lining/begin", post(pages::lining::begun))
        .route("/lining/done", post(pages::lining::done))
        .route("/lining/cut", get(pages::lining::cut::page))
        .route("/print/cut", get(pages::lining::paper::page))
        .route("/lining/air", get(pages::air::page))
        .route("/lining/cabinet", get(pages::cabinet::page))
        .route("/lining/cabinet/move", post(pages::cabinet::moved))
        .route("/print/cabinet", get(pages::cabinet::paper::page))
        .route("/circuits", get(pages::circuits::page))
        .route("/rules", get(pages::rules::list))
        .route("/rules/{id}", get(pages::rules::one))
        .route("/bench", get(pages::bench::page))
        .route("/file", get(pages::file::page).post(pages::file::save))
        .route("/file/download", get(pages::file::download))
        .route("/file/save-as", post(pages::file::save_as))
        .route("/api/report", get(pages::file::json))
        .route("/add/{element}", get(element::add).post(element::added))
        .route(
            "/edit/{element}",
            get(element::edit_single).post(element::edited_single),
        )
        .route(
            "/edit/{element}/{id}",
            get(element::edit).post(element::edited),
        )
        .route(
            "/delete/{element}/{id}",
            get(element::delete).post(element::deleted),
        )
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
