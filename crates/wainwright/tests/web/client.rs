//! A server with one project, and just enough of a browser to talk to it.

use std::fs;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;
use wainwright::session::Session;
use wainwright::web::{Running, start};

/// The bundled example in feet and AWG.
pub const DEMO: &str = include_str!("../../../../examples/dark-sky.toml");

/// A small sound system: battery, fuse, lamp.
pub const SMALL: &str = r#"wainwright = 1
# kept as it is

[project]
name = "Small"

[item.bat]
label = "Battery"
kind = "battery"
chemistry = "lfp"
cells = 4
capacity = "100 Ah"

[item.main]
label = "Main fuse"
kind = "fuse"
family = "blade"
rating = "20 A"

[item.lamp]
label = "Lamp"
kind = "load"
current = "2 A"

[wire.a]
from = "bat.+"
to = "main.in"
size = "10 AWG"
insulation = "gxl"
length = "4 in"

[wire.b]
from = "main.out"
to = "lamp.+"
like = "a"
length = "10 ft"

[wire.c]
from = "lamp.-"
to = "bat.-"
like = "b"
"#;

/// A server with one project in a folder of its own.
pub struct Site {
    folder: PathBuf,
    file: PathBuf,
    running: Running,
}

/// What was answered.
#[derive(Debug, Clone)]
pub struct Answer {
    pub status: u16,
    pub head: String,
    pub body: String,
}

impl Site {
    pub fn new(text: &str) -> Self {
        static NUMBER: AtomicUsize = AtomicUsize::new(0);
        let number = NUMBER.fetch_add(1, Ordering::Relaxed);
        let name = format!("web-{}-{number}", std::process::id());
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        fs::create_dir_all(&folder).unwrap();
        let file = folder.join("trailer.toml");
        fs::write(&file, text).unwrap();
        let session = Arc::new(Session::open(&file).unwrap());
        let running = start(session, None).unwrap();
        Self {
            folder,
            file,
            running,
        }
    }

    /// A page with one heading, no style of its own, no senseless figure and
    /// no id twice.
    pub fn is_sound(&self, place: &str) {
        let answer = self.get(place);
        assert_eq!(answer.status, 200, "{place}");
        let body = &answer.body;
        assert_eq!(body.matches("<h1>").count(), 1, "{place}");
        assert!(!body.contains(" style=\""), "{place}");
        assert!(!body.contains("NaN") && !body.contains("inf "), "{place}");
        let mut ids: Vec<&str> = body
            .split(" id=\"")
            .skip(1)
            .filter_map(|rest| rest.split('"').next())
            .collect();
        ids.sort_unstable();
        for pair in ids.windows(2) {
            assert_ne!(pair[0], pair[1], "{place} has an id twice");
        }
    }

    pub fn port(&self) -> u16 {
        self.running.address().port()
    }

    pub fn host(&self) -> String {
        format!("127.0.0.1:{}", self.port())
    }

    /// The text on the disk.
    pub fn text(&self) -> String {
        fs::read_to_string(&self.file).unwrap()
    }

    /// A file in the same folder.
    pub fn beside(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }

    /// Another program writes the file.
    pub fn write(&self, text: &str) {
        fs::write(&self.file, text).unwrap();
    }

    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(self.running.address()).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_secs(30)))
            .unwrap();
        stream
    }

    /// Sends a request as it is and reads the whole answer.
    pub fn raw(&self, request: &str) -> Answer {
        let mut stream = self.connect();
        stream.write_all(request.as_bytes()).unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        let text = String::from_utf8(bytes).unwrap();
        let (head, body) = text.split_once("\r\n\r\n").unwrap_or((&text, ""));
        let status = head.split(' ').nth(1).and_then(|s| s.parse().ok()).unwrap();
        Answer {
            status,
            head: head.to_owned(),
            body: body.to_owned(),
        }
    }

    pub fn get(&self, place: &str) -> Answer {
        self.raw(&format!(
            "GET {place} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n\r\n",
            self.host()
        ))
    }

    /// A form sent from a page of ours.
    pub fn post(&self, place: &str, fields: &[(&str, &str)]) -> Answer {
        let pairs = fields
            .iter()
            .map(|(name, value)| format!("{}={}", encoded(name), encoded(value)));
        let body = pairs.collect::<Vec<_>>().join("&");
        self.raw(&format!(
            "POST {place} HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nConnection: close\r\n\
             Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{body}",
            body.len(),
            host = self.host()
        ))
    }

    /// The revision the pages are at.
    pub fn revision(&self) -> String {
        let page = self.get("/");
        let (_, rest) = page.body.split_once("data-revision=\"").unwrap();
        rest.split('"').next().unwrap().to_owned()
    }

    /// Sends the form of a page back as it is, but for some fields.
    pub fn send_form(&self, page: &str, changed: &[(&str, &str)]) -> Answer {
        let shown = self.get(page);
        assert_eq!(shown.status, 200, "{page}");
        let mut fields = fields(&shown.body, "class=\"edit\"");
        for (name, value) in changed {
            fields.retain(|(other, _)| other != name);
            fields.push(((*name).into(), (*value).into()));
        }
        let fields: Vec<(&str, &str)> = fields
            .iter()
            .map(|(n, v)| (n.as_str(), v.as_str()))
            .collect();
        let place = page.split('?').next().unwrap();
        self.post(place, &fields)
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

impl Answer {
    /// Where a redirect leads.
    pub fn location(&self) -> Option<&str> {
        let lines = self.head.lines().filter_map(|line| line.split_once(": "));
        lines
            .filter(|(name, _)| name.eq_ignore_ascii_case("location"))
            .map(|(_, place)| place)
            .next()
    }

    pub fn header(&self, wanted: &str) -> Option<&str> {
        let lines = self.head.lines().filter_map(|line| line.split_once(": "));
        lines
            .filter(|(name, _)| name.eq_ignore_ascii_case(wanted))
            .map(|(_, value)| value)
            .next()
    }
}

/// What a browser would send of the first form whose tag holds `mark`.
pub fn fields(page: &str, mark: &str) -> Vec<(String, String)> {
    let start = page
        .match_indices("<form")
        .map(|(at, _)| at)
        .find(|at| page[*at..].split('>').next().unwrap().contains(mark))
        .unwrap_or_else(|| panic!("no form {mark}"));
    let form = page[start..].split("</form>").next().unwrap();
    let mut found = Vec::new();
    let mut rest = form;
    while let Some(at) = rest.find('<') {
        rest = &rest[at..];
        let tag = rest.split('>').next().unwrap();
        let name = attribute(tag, "name");
        let value = attribute(tag, "value").unwrap_or_default();
        match (tag.split([' ', '\n']).next().unwrap(), name) {
            ("<input", Some(name)) => {
                let boxed = attribute(tag, "type").as_deref() == Some("checkbox");
                if !boxed || tag.contains(" checked") {
                    found.push((name, value));
                }
            }
            ("<select", Some(name)) => {
                let inner = rest.split("</select>").next().unwrap();
                let options: Vec<&str> = inner.split("<option").skip(1).collect();
                let chosen = options
                    .iter()
                    .find(|o| o.split('>').next().unwrap().contains(" selected"));
                let chosen = chosen
                    .or(options.first())
                    .map(|o| o.split('>').next().unwrap());
                found.push((
                    name,
                    chosen
                        .and_then(|o| attribute(o, "value"))
                        .unwrap_or_default(),
                ));
            }
            ("<textarea", Some(name)) => {
                let inner = rest.split("</textarea>").next().unwrap();
                let text = inner.split_once('>').unwrap().1;
                // A browser drops the first line break, and sends others as two characters.
                let text = unescaped(text.strip_prefix('\n').unwrap_or(text));
                found.push((name, text.replace('\n', "\r\n")));
            }
            _ => {}
        }
        rest = &rest[1..];
    }
    found
}

fn attribute(tag: &str, name: &str) -> Option<String> {
    let (_, rest) = tag.split_once(&format!(" {name}=\""))?;
    Some(unescaped(rest.split('"').next()?))
}

fn unescaped(text: &str) -> String {
    text.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&amp;", "&")
}

/// A text as it stands in a sent form.
pub fn encoded(text: &str) -> String {
    let byte = |byte: u8| match byte {
        b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' | b'.' => {
            char::from(byte).to_string()
        }
        other => format!("%{other:02X}"),
    };
    text.bytes().map(byte).collect()
}

/// A text as it stands in a page.
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}
