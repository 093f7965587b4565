//! Other web sites shown by the same browser can name this computer, but get
//! nothing out of it.

use crate::client::{SMALL, Site};

fn get(site: &Site, headers: &str) -> u16 {
    site.raw(&format!(
        "GET / HTTP/1.1\r\n{headers}Connection: close\r\n\r\n"
    ))
    .status
}

#[test]
fn pages_answer_only_under_our_own_name() {
    let site = Site::new(SMALL);
    let port = site.port();
    for host in [
        format!("127.0.0.1:{port}"),
        format!("localhost:{port}"),
        format!("[::1]:{port}"),
    ] {
        assert_eq!(get(&site, &format!("Host: {host}\r\n")), 200, "{host}");
    }
    for host in [
        format!("trailer.example:{port}"),
        format!("127.0.0.1.trailer.example:{port}"),
        "127.0.0.1".to_owned(),
        format!("127.0.0.1:{}", port ^ 1),
        format!("0.0.0.0:{port}"),
    ] {
        assert_eq!(get(&site, &format!("Host: {host}\r\n")), 403, "{host}");
    }
    let ours = format!("Host: 127.0.0.1:{port}\r\n");
    assert_eq!(
        get(&site, &format!("{ours}Origin: http://evil.example\r\n")),
        403
    );
}

#[test]
fn nothing_is_changed_for_a_stranger() {
    let site = Site::new(SMALL);
    let revision = site.revision();
    let body = format!("revision={revision}&id=a&from=bat.%2B&to=main.in&size=2+AWG");
    let host = site.host();
    let send = |headers: &str| {
        site.raw(&format!(
            "POST /edit/wire/a HTTP/1.1\r\nHost: {host}\r\n{headers}Connection: close\r\n\
             Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{body}",
            body.len()
        ))
        .status
    };
    for headers in [
        String::new(),
        "Origin: null\r\n".into(),
        "Origin: http://evil.example\r\n".into(),
        format!("Origin: https://{host}\r\n"),
        "Sec-Fetch-Site: cross-site\r\n".into(),
        "Sec-Fetch-Site: same-site\r\n".into(),
        format!("Origin: http://{host}\r\nSec-Fetch-Site: cross-site\r\n"),
    ] {
        assert_eq!(send(&headers), 403, "{headers:?}");
        assert_eq!(site.text(), SMALL);
    }
    assert_eq!(send("Sec-Fetch-Site: same-origin\r\n"), 303);
    assert!(site.text().contains("size = \"2 AWG\""));
}

#[test]
fn no_address_leads_out_of_the_program() {
    let site = Site::new(SMALL);
    for place in [
        "/assets/../../Cargo.toml",
        "/assets/..%2F..%2FCargo.toml",
        "/assets/%2e%2e/%2e%2e/etc/passwd",
        "/assets//etc/passwd",
        "/rules/..%2F..%2Fetc%2Fpasswd",
        "/edit/item/..%2Fbat",
        "/file/../../../etc/passwd",
        "//etc/passwd",
    ] {
        let answer = site.get(place);
        assert_eq!(answer.status, 404, "{place}");
        assert!(!answer.body.contains("root:"), "{place}");
    }
}

#[test]
fn answers_forbid_everything_from_elsewhere() {
    let site = Site::new(SMALL);
    for place in ["/", "/wiring", "/assets/app.js", "/nowhere"] {
        let answer = site.get(place);
        let policy = answer.header("content-security-policy").unwrap();
        assert!(policy.contains("default-src 'self'"), "{place}");
        assert!(!policy.contains("unsafe"), "{place}");
        assert_eq!(
            answer.header("x-content-type-options"),
            Some("nosniff"),
            "{place}"
        );
        assert_eq!(
            answer.header("referrer-policy"),
            Some("same-origin"),
            "{place}"
        );
    }
    assert_eq!(site.get("/").header("cache-control"), Some("no-store"));
}

#[test]
fn back_leads_to_our_own_pages_only() {
    let site = Site::new(SMALL);
    let revision = site.revision();
    let back = "//evil.example/";
    let fields = [
        ("revision", revision.as_str()),
        ("theme", "dark"),
        ("back", back),
    ];
    let answer = site.post("/theme", &fields);
    assert_eq!(answer.location(), Some("/"));
}
