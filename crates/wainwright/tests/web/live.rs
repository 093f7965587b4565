//! A change made outside appears on open pages by itself.

use crate::client::{SMALL, Site};
use std::io::{BufRead, BufReader, Write};

#[test]
fn a_change_made_outside_is_told_and_shown() {
    let site = Site::new(SMALL);
    let mut stream = site.connect();
    write!(
        stream,
        "GET /live HTTP/1.1\r\nHost: {}\r\n\r\n",
        site.host()
    )
    .unwrap();
    let mut lines = BufReader::new(stream).lines().map(Result::unwrap);
    assert!(lines.next().unwrap().contains("200"));
    let kind = lines
        .find(|line| line.to_lowercase().starts_with("content-type"))
        .unwrap();
    assert!(kind.contains("text/event-stream"), "{kind}");
    let before: u64 = site.revision().parse().unwrap();
    site.write(&SMALL.replace("100 Ah", "230 Ah"));
    lines.find(|line| line == "event: project").unwrap();
    let data = lines.find(|line| line.starts_with("data: ")).unwrap();
    assert_eq!(data, format!("data: {}", before + 1));
    assert!(site.get("/file").body.contains("230 Ah"));
}

#[test]
fn the_server_ends_though_a_page_listens() {
    let site = Site::new(SMALL);
    let mut stream = site.connect();
    write!(
        stream,
        "GET /live HTTP/1.1\r\nHost: {}\r\n\r\n",
        site.host()
    )
    .unwrap();
    let mut lines = BufReader::new(stream.try_clone().unwrap()).lines();
    assert!(lines.next().unwrap().unwrap().contains("200"));
    let begun = std::time::Instant::now();
    drop(site);
    assert!(begun.elapsed() < std::time::Duration::from_secs(10));
}
