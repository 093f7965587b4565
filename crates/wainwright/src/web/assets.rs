//! Style, script and pictures of the pages, all our own, part of the
//! program. Not here: pages.

use axum::extract::Path;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};

/// The script of the pages.
pub const SCRIPT: &str = include_str!("assets/app.js");

/// The script of the floor page.
pub const LAYOUT_SCRIPT: &str = include_str!("assets/layout.js");

/// The script of routes, lists and sheets.
pub const ROUTES_SCRIPT: &str = include_str!("assets/routes.js");

/// The script of the faces of cabinets.
pub const FACE_SCRIPT: &str = include_str!("assets/face.js");

/// The script that reads a chosen file into a field.
pub const CHOOSE_SCRIPT: &str = include_str!("assets/choose.js");

const STYLE: &str = include_str!("assets/app.css");
const ICON: &str = include_str!("assets/icon.svg");

/// One asset by name; a name is compared whole, so no path leads anywhere.
pub async fn asset(Path(name): Path<String>) -> Response {
    let (kind, text) = match name.as_str() {
        "app.css" => ("text/css; charset=utf-8", STYLE.to_owned()),
        "app.js" => ("text/javascript; charset=utf-8", SCRIPT.to_owned()),
        "layout.js" => ("text/javascript; charset=utf-8", LAYOUT_SCRIPT.to_owned()),
        "routes.js" => ("text/javascript; charset=utf-8", ROUTES_SCRIPT.to_owned()),
        "face.js" => ("text/javascript; charset=utf-8", FACE_SCRIPT.to_owned()),
        "choose.js" => ("text/javascript; charset=utf-8", CHOOSE_SCRIPT.to_owned()),
        "icon.svg" => ("image/svg+xml", ICON.to_owned()),
        "drawing.css" => ("text/css; charset=utf-8", wainwright_drawing::stylesheet()),
        _ => return (StatusCode::NOT_FOUND, "no such asset").into_response(),
    };
    let headers = [
        (header::CONTENT_TYPE, kind),
        (header::CACHE_CONTROL, "no-cache"),
    ];
    (headers, text).into_response()
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_script_stays_small() {
        assert!(
            super::SCRIPT.len() < 20_000,
            "{} bytes",
            super::SCRIPT.len()
        );
    }

    #[test]
    fn so_does_that_of_the_floor() {
        assert!(
            super::LAYOUT_SCRIPT.len() < 12_000,
            "{} bytes",
            super::LAYOUT_SCRIPT.len()
        );
    }

    #[test]
    fn and_that_of_faces() {
        assert!(
            super::FACE_SCRIPT.len() < 6_000,
            "{} bytes",
            super::FACE_SCRIPT.len()
        );
    }

    #[test]
    fn and_that_of_routes_and_lists() {
        assert!(
            super::ROUTES_SCRIPT.len() < 9_000,
            "{} bytes",
            super::ROUTES_SCRIPT.len()
        );
    }
}
