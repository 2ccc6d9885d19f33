//! Studies in a thread of their own: the newest text wins.

use super::state::{Stage, Studied};
use design::Diagnostic;
use rayon::{ThreadPool, ThreadPoolBuilder};
use std::panic::{self, AssertUnwindSafe};
use std::sync::atomic::{AtomicU64, AtomicUsize, Ordering};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::thread;
use studies::{Memory, Options, Report, Texts};

/// A text to study.
#[derive(Clone, Debug)]
pub(super) struct Job {
    pub(super) number: u64,
    pub(super) text: Arc<str>,
    pub(super) shelf: Option<Arc<str>>,
}

impl Job {
    fn texts(&self) -> Texts<'_> {
        Texts {
            design: &self.text,
            shelf: self.shelf.as_deref(),
        }
    }
}

/// What the worker tells.
#[derive(Debug)]
pub(super) enum News {
    /// So many builds of a stage are drawn.
    Drawn {
        number: u64,
        drawn: usize,
        of: usize,
    },
    /// A stage is reached.
    Reached {
        number: u64,
        stage: Stage,
        studied: Arc<Studied>,
    },
    /// The text cannot be studied.
    Broken { number: u64, found: Vec<Diagnostic> },
    /// Nothing more comes of this text, unless it is studied again.
    Ended { number: u64, how: Ending },
}

/// How the work on a text ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ending {
    Finished,
    /// The text cannot be studied.
    Broken,
    Stopped,
    /// A study failed in a way it never should.
    Failed,
}

/// A way to study.
type Way = fn(&Memory, Texts<'_>, Options<'_>) -> Result<Report, Vec<Diagnostic>>;

/// One step of the work on a text: what it reaches, with how many drawn builds, and how.
type Step = (Stage, usize, Way);

/// The first answer.
pub(super) const NOMINAL: Step = (Stage::Nominal, 0, Memory::survey);

/// Bands at a glance.
pub(super) const BANDS: Step = (Stage::Bands, 200, Memory::survey);

/// What is answered soon, and what thoroughly: everything, and last what other
/// parts would change.
fn steps(builds: usize) -> [Vec<Step>; 2] {
    let soon = if builds == 0 {
        vec![NOMINAL]
    } else {
        vec![NOMINAL, BANDS]
    };
    let whole = (Stage::Whole, builds, Memory::run as Way);
    let compared = (Stage::Whole, builds, Memory::run_with_swaps as Way);
    [soon, vec![whole, compared]]
}

/// Work that a newer one takes the place of.
#[derive(Debug, Default)]
pub(super) struct Turn {
    newest: AtomicU64,
    /// Up to which one the maker has stopped them.
    stopped: AtomicU64,
}

impl Turn {
    /// Begins new work: all that was begun before is old.
    pub(super) fn next(&self) -> u64 {
        self.newest.fetch_add(1, Ordering::SeqCst) + 1
    }

    pub(super) fn is_old(&self, turn: u64) -> bool {
        self.newest.load(Ordering::SeqCst) != turn
    }

    /// Gives up the newest work, but for the first answer to it.
    fn stop(&self) {
        let newest = self.newest.load(Ordering::SeqCst);
        self.stopped.store(newest, Ordering::SeqCst);
    }

    fn is_stopped(&self, turn: u64) -> bool {
        self.stopped.load(Ordering::SeqCst) >= turn
    }
}

/// The threads that study: one answers soon, the other thoroughly.
#[derive(Debug)]
pub(super) struct Worker {
    turn: Arc<Turn>,
    soon: Arc<Inbox>,
}

impl Worker {
    /// Starts a worker that draws so many builds for a whole answer and tells what it finds.
    /// What an edit leaves alone it takes from the memory.
    pub(super) fn start(
        memory: Arc<Memory>,
        builds: usize,
        tell: impl Fn(News) + Send + Sync + 'static,
    ) -> Self {
        let turn = Arc::new(Turn::default());
        let tell: Arc<dyn Fn(News) + Send + Sync> = Arc::new(tell);
        let lane = |steps, next, pool| {
            let inbox = Arc::new(Inbox::default());
            let lane = Lane {
                steps,
                inbox: Arc::clone(&inbox),
                next,
                pool,
                memory: Arc::clone(&memory),
                turn: Arc::clone(&turn),
                tell: Arc::clone(&tell),
            };
            thread::spawn(move || lane.run());
            inbox
        };
        let [soon, thoroughly] = steps(builds);
        let thoroughly = lane(thoroughly, None, patient_pool());
        let soon = lane(soon, Some(thoroughly), None);
        Self { turn, soon }
    }

    /// Takes up a text in the place of any other.
    pub(super) fn submit(&self, job: Job) {
        self.soon.put(self.turn.next(), job);
    }

    /// Gives up what is being done, once there is a first answer to show.
    pub(super) fn stop(&self) {
        self.turn.stop();
    }
}

/// Threads for thorough work, so that what is to be answered soon never waits for a place
/// among it; they step back where the machine lets them. None where there are no more threads
/// to be had.
fn patient_pool() -> Option<ThreadPool> {
    let builder = ThreadPoolBuilder::new();
    #[cfg(target_os = "linux")]
    let builder = builder.start_handler(|_| {
        rustix::process::nice(STEP_BACK).ok();
    });
    builder.build().ok()
}

/// How far thorough work steps back, of 20.
#[cfg(target_os = "linux")]
const STEP_BACK: i32 = 10;

/// Where the newest text waits.
#[derive(Debug, Default)]
struct Inbox {
    next: Mutex<Option<(u64, Job)>>,
    came: Condvar,
}

impl Inbox {
    fn put(&self, turn: u64, job: Job) {
        *self.next.lock().unwrap_or_else(PoisonError::into_inner) = Some((turn, job));
        self.came.notify_one();
    }

    fn wait(&self) -> (u64, Job) {
        let mut next = self.next.lock().unwrap_or_else(PoisonError::into_inner);
        loop {
            if let Some(job) = next.take() {
                return job;
            }
            next = self.came.wait(next).unwrap_or_else(PoisonError::into_inner);
        }
    }
}

/// One thread with its stages, so that thorough work on an old text never
/// stands in the way of a first look at a new one.
struct Lane {
    steps: Vec<Step>,
    inbox: Arc<Inbox>,
    next: Option<Arc<Inbox>>,
    /// Threads of its own; without them it shares those of all others.
    pool: Option<ThreadPool>,
    memory: Arc<Memory>,
    turn: Arc<Turn>,
    tell: Arc<dyn Fn(News) + Send + Sync>,
}

impl Lane {
    fn run(&self) {
        loop {
            let (turn, job) = self.inbox.wait();
            let number = job.number;
            match (self.work(turn, &job), &self.next) {
                (Ending::Finished, Some(next)) => next.put(turn, job),
                (how, _) => (self.tell)(News::Ended { number, how }),
            }
        }
    }

    /// Studies one text stage by stage until a newer one comes.
    fn work(&self, turn: u64, job: &Job) -> Ending {
        let number = job.number;
        for &step in &self.steps {
            let (stage, of, _) = step;
            let drawn = AtomicUsize::new(0);
            let add = |more: usize| {
                let drawn = more + drawn.fetch_add(more, Ordering::Relaxed);
                if more > 0 && stage == Stage::Whole {
                    (self.tell)(News::Drawn { number, drawn, of });
                }
            };
            let is_old = || {
                let stopped = stage != Stage::Nominal && self.turn.is_stopped(turn);
                stopped || self.turn.is_old(turn)
            };
            let work = || study(&self.memory, job.texts(), step, &add, &is_old);
            let done = match &self.pool {
                Some(pool) => pool.install(work),
                None => work(),
            };
            match done {
                Ok(Ok(studied)) => (self.tell)(News::Reached {
                    number,
                    stage,
                    studied: Arc::new(studied),
                }),
                Ok(Err(found)) => {
                    (self.tell)(News::Broken { number, found });
                    return Ending::Broken;
                }
                Err(how) => return how,
            }
        }
        Ending::Finished
    }
}

/// What studies that are given up unwind with.
struct GivenUp;

/// Takes one step with a text, unless it is given up on the way.
pub(super) fn study(
    memory: &Memory,
    texts: Texts<'_>,
    (_, builds, way): Step,
    add: &(dyn Fn(usize) + Sync),
    is_old: &(dyn Fn() -> bool + Sync),
) -> Result<Result<Studied, Vec<Diagnostic>>, Ending> {
    let progress = |more| {
        if is_old() {
            panic::resume_unwind(Box::new(GivenUp));
        }
        add(more);
    };
    let options = Options {
        builds,
        spread: 1.0,
        progress: &progress,
    };
    if is_old() {
        return Err(Ending::Stopped);
    }
    let study = || {
        let project = design::read(texts.design, texts.shelf)?;
        let report = way(memory, texts, options)?;
        Ok(Studied::new(project, report))
    };
    let done = panic::catch_unwind(AssertUnwindSafe(study));
    match done {
        _ if is_old() => Err(Ending::Stopped),
        Ok(studied) => Ok(studied),
        Err(_) => Err(Ending::Failed),
    }
}
