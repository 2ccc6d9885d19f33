//! The only place that prints.

use crate::failure::Failure;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::{self, ErrorKind, IsTerminal, Write};
use std::process::ExitCode;
use std::sync::OnceLock;
use std::time::{Duration, Instant};

/// Columns that text is set to: what every terminal has.
pub(crate) const WIDTH: usize = 80;

/// Work shorter than this shows no progress.
const PATIENCE: Duration = Duration::from_secs(1);

/// How a stretch of text stands out, where colours are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tone {
    Strong,
    Faint,
    Stop,
    Caution,
    Good,
}

impl Tone {
    const fn code(self) -> &'static str {
        match self {
            Self::Strong => "1",
            Self::Faint => "2",
            Self::Stop => "1;31",
            Self::Caution => "1;33",
            Self::Good => "32",
        }
    }
}

/// Whether text is coloured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Ink {
    pub(crate) colour: bool,
}

impl Ink {
    /// Text in a tone; the bare text where colours are not wanted.
    pub(crate) fn paint(self, tone: Tone, text: &str) -> String {
        if self.colour {
            format!("\u{1b}[{}m{text}\u{1b}[0m", tone.code())
        } else {
            text.to_owned()
        }
    }

    fn wanted(is_terminal: bool) -> Self {
        let set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
        let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
        let forced = std::env::var_os("CLICOLOR_FORCE").is_some_and(|value| value != "0");
        Self {
            colour: !set("NO_COLOR") && (forced || is_terminal && !dumb),
        }
    }
}

/// Ink for answers.
pub(crate) fn ink() -> Ink {
    Ink::wanted(io::stdout().is_terminal())
}

/// Ink for complaints.
pub(crate) fn complaint_ink() -> Ink {
    Ink::wanted(io::stderr().is_terminal())
}

/// Whether complaints are read by someone at a terminal.
pub(crate) fn complaints_are_watched() -> bool {
    io::stderr().is_terminal()
}

/// Writes an answer. A reader who has heard enough and hung up is no failure.
pub(crate) fn say(text: &str) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            Err(Failure::plain(format!("cannot write the answer: {error}")))
        }
        _ => Ok(()),
    }
}

/// Writes a complaint; there is nowhere to report that this failed.
pub(crate) fn complain(text: &str) {
    let mut out = io::stderr().lock();
    out.write_all(text.as_bytes()).ok();
}

/// Prints help, version, or what is wrong with the command line.
pub(crate) fn usage(request: &clap::Error) -> ExitCode {
    request.print().ok();
    ExitCode::from(u8::try_from(request.exit_code()).unwrap_or(2))
}

/// A bar on the terminal for work that takes over a second.
#[derive(Debug)]
pub(crate) struct Progress {
    total: usize,
    began: Instant,
    watched: bool,
    bar: OnceLock<ProgressBar>,
    done: std::sync::atomic::AtomicUsize,
}

impl Progress {
    pub(crate) fn new(total: usize) -> Self {
        Self {
            total,
            began: Instant::now(),
            watched: complaints_are_watched(),
            bar: OnceLock::new(),
            done: std::sync::atomic::AtomicUsize::new(0),
        }
    }

    /// So much more is done.
    pub(crate) fn add(&self, more: usize) {
        let done = more
            + self
                .done
                .fetch_add(more, std::sync::atomic::Ordering::Relaxed);
        if more > 0 && self.watched && self.began.elapsed() > PATIENCE {
            self.bar
                .get_or_init(|| bar(self.total))
                .set_position(done as u64);
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = self.bar.get() {
            bar.finish_and_clear();
        }
    }
}

fn bar(total: usize) -> ProgressBar {
    let style = ProgressStyle::with_template("{pos:>6} of {len} builds {wide_bar}")
        .expect("the template is well formed");
    ProgressBar::with_draw_target(Some(total as u64), ProgressDrawTarget::stderr())
        .with_style(style)
}
