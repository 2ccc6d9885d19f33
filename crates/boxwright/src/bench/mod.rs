//! The bench: the local page where a design is worked on.

mod chooser;
mod data_sheet;
mod deed;
mod desk;
mod guard;
mod page;
mod pictures;
mod recent;
mod refusal;
mod serve;
mod session;
mod state;
mod words;
mod worker;

use crate::cli::OpenArgs;
use crate::failure::Failure;
use crate::{files, json, terminal};
use chooser::Room;
use guard::Guard;
use serve::Served;
use std::net::Ipv4Addr;
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::thread;
use std::time::Duration;
use tokio::net::TcpListener;
use tokio::runtime;

/// How often the files are looked at for changes by an editor.
const LOOKING: Duration = Duration::from_millis(250);

/// Threads that draw pages and make files.
const HELPERS: usize = 8;

/// Serves a design until it is told to end.
pub(crate) fn open(args: &OpenArgs, as_json: bool) -> Result<(), Failure> {
    let room = Arc::new(Room::new(args.builds.builds));
    if let Some(given) = &args.design {
        room.open(&files::design_path(given), args.shelf.as_deref())?;
    }
    let runtime = runtime::Builder::new_current_thread()
        .enable_all()
        .max_blocking_threads(HELPERS)
        .build()
        .map_err(|error| Failure::plain(format!("cannot start: {error}")))?;
    let served = runtime.block_on(run(args, as_json, Arc::clone(&room)));
    // A change that has begun is made; whatever is being drawn is for nobody now.
    let closed = room.close();
    runtime.shutdown_background();
    std::mem::forget(closed);
    served
}

async fn run(args: &OpenArgs, as_json: bool, room: Arc<Room>) -> Result<(), Failure> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, args.port))
        .await
        .map_err(|error| {
            Failure::mended(
                format!("cannot serve on port {}: {error}", args.port),
                "name another port with --port, or none for a free one",
            )
        })?;
    let port = listener
        .local_addr()
        .map_err(|error| Failure::plain(error.to_string()))?
        .port();
    let guard = Guard::new(port)
        .map_err(|error| Failure::plain(format!("no chance to draw a secret from: {error}")))?;
    let address = format!("http://127.0.0.1:{port}/");
    let router = serve::router(Served::new(Arc::clone(&room), Arc::new(guard)));
    let ending = ending().map_err(|error| Failure::plain(error.to_string()))?;
    terminal::say(&if as_json {
        json::opened(&address)
    } else {
        format!("The bench is at {address}\nCtrl-C ends it.\n")
    })?;
    if !args.no_browser {
        browse(&address);
    }
    tokio::select! {
        () = serve::serve(listener, router) => {}
        () = watch(room) => {}
        () = ending => {}
    }
    Ok(())
}

/// Looks at the files again and again.
async fn watch(room: Arc<Room>) {
    loop {
        tokio::time::sleep(LOOKING).await;
        if let Some(desk) = room.desk() {
            let desk = Arc::clone(desk);
            tokio::task::spawn_blocking(move || desk.look()).await.ok();
        }
    }
}

/// Waits to be told to end.
fn ending() -> std::io::Result<impl Future<Output = ()>> {
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        let mut interrupt = signal(SignalKind::interrupt())?;
        let mut terminate = signal(SignalKind::terminate())?;
        Ok(async move {
            tokio::select! {
                _ = interrupt.recv() => {}
                _ = terminate.recv() => {}
            }
        })
    }
    #[cfg(not(unix))]
    Ok(async {
        tokio::signal::ctrl_c().await.ok();
    })
}

/// Shows the address in a browser, where there is one.
fn browse(address: &str) {
    let (program, arguments): (_, &[&str]) = if cfg!(target_os = "macos") {
        ("open", &[])
    } else if cfg!(windows) {
        ("cmd", &["/c", "start", ""])
    } else {
        ("xdg-open", &[])
    };
    let started = Command::new(program)
        .args(arguments)
        .arg(address)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    if let Ok(mut browser) = started {
        thread::spawn(move || browser.wait());
    }
}
