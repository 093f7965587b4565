//! Opens the port of this computer, looks after the file while pages are
//! served, and stops in good order. Not here: what is served (`router`) and
//! who may ask (`guard`).

use super::app::App;
use super::{Listen, router};
use crate::session::Session;
use std::net::{Ipv4Addr, SocketAddr};
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::Duration;
use tokio::net::TcpListener;
use tokio::runtime::Runtime;
use tokio::sync::oneshot;

/// How often the file is looked at for changes from outside; a look costs
/// one system call when nothing happened.
const LOOK_EVERY: Duration = Duration::from_millis(300);

/// Longest wait for answers that are under way when serving ends.
const LAST_WAIT: Duration = Duration::from_secs(1);

/// A server at work. It stops when this is dropped.
#[derive(Debug)]
pub struct Running {
    address: SocketAddr,
    stop: Option<oneshot::Sender<()>>,
    runtime: Option<Runtime>,
}

impl Running {
    /// Where it listens.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// The address to type into a browser.
    pub fn url(&self) -> String {
        format!("http://{}/", self.address)
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        if let Some(stop) = self.stop.take() {
            let _ = stop.send(());
        }
        if let Some(runtime) = self.runtime.take() {
            runtime.shutdown_timeout(LAST_WAIT);
        }
    }
}

/// Starts serving and returns at once.
///
/// # Errors
/// When the port cannot be opened.
pub fn start(session: Arc<Session>, port: Option<u16>) -> Result<Running, String> {
    let runtime = Runtime::new().map_err(|error| format!("cannot start serving: {error}"))?;
    let listener = runtime.block_on(open(port))?;
    let address = listener
        .local_addr()
        .map_err(|error| format!("cannot tell the port: {error}"))?;
    let app = App::new(session, address.port());
    let (stop, stopped) = oneshot::channel();
    runtime.spawn(look_after(Arc::clone(&app)));
    app.mender.start(&app.session, runtime.handle());
    let served = axum::serve(listener, router::router(&app)).with_graceful_shutdown(async move {
        let _ = stopped.await;
        app.end();
    });
    runtime.spawn(async move { served.await });
    Ok(Running {
        address,
        stop: Some(stop),
        runtime: Some(runtime),
    })
}

/// Serves until the program is stopped.
pub(super) fn serve(session: Arc<Session>, listen: &Listen) -> Result<(), String> {
    let running = start(session, listen.port)?;
    let url = running.url();
    println!("The pages are at {url}  (Ctrl-C stops)");
    if listen.open_browser {
        open_browser(&url);
    }
    // Every edit is on disk before it is confirmed, so the program may be
    // stopped at any moment; there is nothing else to wait for.
    loop {
        std::thread::park();
    }
}

/// Only this computer is listened to: the pages have no pass word.
async fn open(port: Option<u16>) -> Result<TcpListener, String> {
    let place = SocketAddr::from((Ipv4Addr::LOCALHOST, port.unwrap_or(0)));
    TcpListener::bind(place).await.map_err(|error| match port {
        Some(port) => format!(
            "port {port} of this computer cannot be opened: {error}; choose another one with --port, or leave it out"
        ),
        None => format!("no port of this computer can be opened: {error}"),
    })
}

/// Takes in changes made to the file by other programs.
async fn look_after(app: Arc<App>) {
    let mut clock = tokio::time::interval(LOOK_EVERY);
    clock.set_missed_tick_behavior(tokio::time::MissedTickBehavior::Delay);
    loop {
        clock.tick().await;
        let session = Arc::clone(&app.session);
        let _ = tokio::task::spawn_blocking(move || session.poll()).await;
    }
}

/// Asks the desktop to show the address; when it cannot, the address was
/// printed already.
fn open_browser(url: &str) {
    let opener = if cfg!(target_os = "macos") {
        "open"
    } else {
        "xdg-open"
    };
    let _ = Command::new(opener)
        .arg(url)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
}
