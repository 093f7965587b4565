//! Who may ask, and what a browser may do with the answer. Other web sites
//! that the same browser shows must neither read nor change the project: they
//! can name this computer, but not without saying so in `Host`, `Origin` or
//! `Sec-Fetch-Site`. Not here: what is answered.

use super::app::App;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::header::{self, HeaderMap, HeaderName, HeaderValue};
use axum::http::{Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::sync::Arc;

/// Names of this computer that a browser may have been sent to.
const LOOPBACK: [&str; 3] = ["127.0.0.1", "localhost", "[::1]"];

/// Nothing from elsewhere, nothing inside the pages themselves, no frame
/// around them, no form that leads away.
const POLICY: &str = "default-src 'self'; img-src 'self' data:; object-src 'none'; \
base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

const ALWAYS: [(HeaderName, &str); 5] = [
    (header::CONTENT_SECURITY_POLICY, POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    // "no-referrer" would make browsers send `Origin: null` with our own forms.
    (header::REFERRER_POLICY, "same-origin"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (
        HeaderName::from_static("cross-origin-resource-policy"),
        "same-origin",
    ),
];

/// Refuses what a stranger sends, and marks every answer.
pub async fn guard(State(app): State<Arc<App>>, request: Request, next: Next) -> Response {
    let refused = refusal(
        request.method(),
        request.headers(),
        request.uri().host(),
        app.port,
    );
    let mut response = match refused {
        Some(why) => (StatusCode::FORBIDDEN, why).into_response(),
        None => next.run(request).await,
    };
    mark(&mut response);
    response
}

/// Why a request is not answered.
fn refusal(
    method: &Method,
    headers: &HeaderMap,
    authority: Option<&str>,
    port: u16,
) -> Option<&'static str> {
    let mut hosts = headers.get_all(header::HOST).iter();
    let host = hosts.next().and_then(|h| h.to_str().ok());
    if hosts.next().is_some() || !host.is_some_and(|host| is_ours(host, port)) {
        return Some("This program answers only under the address it printed.");
    }
    if authority.is_some_and(|name| !LOOPBACK.contains(&name)) {
        return Some("This program is no proxy.");
    }
    let changes = !matches!(*method, Method::GET | Method::HEAD);
    let site = text(headers, "sec-fetch-site");
    let strange_site = site.is_some_and(|site| !matches!(site, "same-origin" | "none"));
    let origin = text(headers, "origin");
    let strange_origin = origin.is_some_and(|origin| {
        !origin
            .strip_prefix("http://")
            .is_some_and(|host| is_ours(host, port))
    });
    if strange_origin || (changes && strange_site) {
        return Some("Only pages of this program may change the project.");
    }
    // A browser says at least one of the two about every change it sends.
    if changes && origin.is_none() && site.is_none() {
        return Some("Changes are taken from the pages of this program only: no Origin was given.");
    }
    None
}

fn text<'h>(headers: &'h HeaderMap, name: &str) -> Option<&'h str> {
    headers.get(name).map(|value| value.to_str().unwrap_or("?"))
}

fn is_ours(host: &str, port: u16) -> bool {
    let (name, given) = match host.rsplit_once(':') {
        Some((name, given)) if !given.ends_with(']') => (name, given.parse().ok()),
        _ => (host, Some(80)),
    };
    LOOPBACK.contains(&name) && given == Some(port)
}

fn mark(response: &mut Response<Body>) {
    let headers = response.headers_mut();
    for (name, value) in ALWAYS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers
        .entry(header::CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headers(pairs: &[(&'static str, &'static str)]) -> HeaderMap {
        let mut headers = HeaderMap::new();
        for (name, value) in pairs {
            headers.append(*name, HeaderValue::from_static(value));
        }
        headers
    }

    fn refused(method: Method, pairs: &[(&'static str, &'static str)]) -> bool {
        refusal(&method, &headers(pairs), None, 4000).is_some()
    }

    #[test]
    fn only_loopback_names_with_our_port_are_answered() {
        for host in ["127.0.0.1:4000", "localhost:4000", "[::1]:4000"] {
            assert!(!refused(Method::GET, &[("host", host)]), "{host}");
        }
        for host in [
            "127.0.0.1",
            "127.0.0.1:4001",
            "trailer.example:4000",
            "127.0.0.1.example:4000",
            "localhost.:4000",
            "",
        ] {
            assert!(refused(Method::GET, &[("host", host)]), "{host}");
        }
        assert!(refused(Method::GET, &[]));
        let twice = [("host", "localhost:4000"), ("host", "localhost:4000")];
        assert!(refused(Method::GET, &twice));
    }

    #[test]
    fn changes_need_an_origin_of_ours() {
        let host = ("host", "127.0.0.1:4000");
        assert!(refused(Method::POST, &[host]));
        assert!(!refused(
            Method::POST,
            &[host, ("origin", "http://127.0.0.1:4000")]
        ));
        assert!(!refused(
            Method::POST,
            &[host, ("sec-fetch-site", "same-origin")]
        ));
        for origin in [
            "null",
            "http://evil.example",
            "https://127.0.0.1:4000",
            "http://127.0.0.1:1",
        ] {
            assert!(
                refused(Method::POST, &[host, ("origin", origin)]),
                "{origin}"
            );
            assert!(
                refused(Method::GET, &[host, ("origin", origin)]),
                "{origin}"
            );
        }
        for site in ["cross-site", "same-site"] {
            let ours = ("origin", "http://127.0.0.1:4000");
            assert!(
                refused(Method::POST, &[host, ours, ("sec-fetch-site", site)]),
                "{site}"
            );
        }
    }
}
