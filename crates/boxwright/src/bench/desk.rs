//! The one design that is worked on: what is done to it and what is found.

mod shelving;

use super::deed::Deed;
use super::pictures::Pictures;
use super::refusal::{Problem, Refusal, problems};
use super::session::{Session, merge, with_ends_of};
use super::state::{Stage, State, Studied};
use super::words;
use super::worker::{Ending, Job, News, Worker};
use crate::commands;
use crate::failure::{Failure, Named, Project};
use design::Diagnostic;
use serde::Serialize;
use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};
use std::time::{Duration, Instant};
use studies::check::Edit;
use studies::{Memory, Texts};
use tokio::sync::watch;

/// What every open page hears.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Event {
    /// Of the text that is shown.
    pub(super) number: u64,
    pub(super) stage: &'static str,
    pub(super) busy: bool,
    pub(super) drawn: usize,
    pub(super) of: usize,
    /// Rises with everything that may look different.
    pub(super) turn: u64,
}

/// The desk a design lies on.
#[derive(Debug)]
pub(super) struct Desk {
    inner: Mutex<Inner>,
    worker: Worker,
    events: watch::Sender<Event>,
}

#[derive(Debug)]
struct Inner {
    session: Session,
    /// What was worked out so far.
    memory: Arc<Memory>,
    pictures: Arc<Pictures>,
    /// Number of the newest text.
    number: u64,
    /// The latest texts by their numbers.
    texts: VecDeque<(u64, Arc<str>)>,
    shown: Shown,
    /// The shown text studied to these stages, to hold trials against.
    nominal: Option<Arc<Studied>>,
    bands: Option<Arc<Studied>>,
    held: Option<Arc<Studied>>,
    busy: Option<(usize, usize)>,
    told: Instant,
    turn: u64,
    /// Why the studies gave no answer.
    failed: Option<&'static str>,
}

/// A text and all that was found about it.
#[derive(Clone, Debug)]
struct Shown {
    number: u64,
    stage: Stage,
    text: Arc<str>,
    shelf: Option<Arc<str>>,
    studied: Option<Arc<Studied>>,
    problems: Vec<Diagnostic>,
}

/// Progress is told no more often than this.
const TELLING: Duration = Duration::from_millis(80);

/// Texts that a page may still be working from.
const MOST_TEXTS: usize = 100;

/// Why a deed was not done.
#[derive(Debug)]
pub(super) enum Undone {
    /// The new text would have these faults.
    Problems(Vec<Problem>),
    /// It could not be done.
    Refused(Refusal),
    /// It speaks of a state that is no more.
    Outdated,
}

impl From<Refusal> for Undone {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

/// What is wanted of a trial: the text it would give.
#[derive(Debug)]
pub(super) struct Trial {
    pub(super) text: String,
    pub(super) shelf: Option<Arc<str>>,
    pub(super) memory: Arc<Memory>,
    pub(super) nominal: Option<Arc<Studied>>,
    pub(super) bands: Option<Arc<Studied>>,
}

impl Desk {
    /// Opens a design and begins to study it.
    pub(super) fn open(
        design: &Path,
        shelf: Option<&Path>,
        builds: usize,
    ) -> Result<Arc<Self>, Failure> {
        let session = Session::open(design, shelf)?;
        let shown = Shown {
            number: 0,
            stage: Stage::Nominal,
            text: Arc::clone(session.text()),
            shelf: session.shelf().cloned(),
            studied: None,
            problems: Vec::new(),
        };
        let memory = Arc::new(Memory::default());
        let inner = Inner {
            session,
            memory: Arc::clone(&memory),
            pictures: Arc::default(),
            number: 0,
            texts: VecDeque::new(),
            shown,
            nominal: None,
            bands: None,
            held: None,
            busy: None,
            told: Instant::now(),
            turn: 0,
            failed: None,
        };
        let desk = Arc::new_cyclic(|desk: &Weak<Self>| {
            let desk = Weak::clone(desk);
            let tell = move |news| {
                if let Some(desk) = desk.upgrade() {
                    desk.hear(news);
                }
            };
            Self {
                events: watch::Sender::new(inner.event()),
                inner: Mutex::new(inner),
                worker: Worker::start(memory, builds, tell),
            }
        });
        let mut inner = desk.lock();
        desk.begin(&mut inner);
        desk.tell(&mut inner);
        drop(inner);
        Ok(desk)
    }

    fn lock(&self) -> MutexGuard<'_, Inner> {
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Hears what changes from now on.
    pub(super) fn listen(&self) -> watch::Receiver<Event> {
        self.events.subscribe()
    }

    /// The file that is worked on.
    pub(super) fn path(&self) -> PathBuf {
        self.lock().session.path().to_owned()
    }

    /// The number of the newest text.
    pub(super) fn number(&self) -> u64 {
        self.lock().number
    }

    /// The parts there are: the built-in ones, and the maker's own where they can be read.
    pub(super) fn shelf(&self) -> design::Shelf {
        let own = self.lock().session.shelf().cloned();
        let read = design::read_shelf(own.as_deref());
        read.unwrap_or_else(|_| design::built_in_shelf().clone())
    }

    /// What a page is drawn from.
    pub(super) fn state(&self) -> State {
        let inner = self.lock();
        let shown = inner.shown.clone();
        let notice = [inner.session.notice(), inner.failed.map(str::to_owned)];
        let notice: Vec<String> = notice.into_iter().flatten().collect();
        State {
            number: shown.number,
            stage: shown.stage,
            busy: inner.busy,
            file: inner.session.file(),
            text: shown.text,
            shelf: shown.shelf,
            studied: shown.studied,
            held: inner.held.clone(),
            problems: shown.problems,
            undo: inner.session.undo_words(),
            redo: inner.session.redo_words(),
            done: inner.session.done().clone(),
            conflict: inner.session.conflict().cloned(),
            pictures: Arc::clone(&inner.pictures),
            notice: (!notice.is_empty()).then(|| notice.join("; ")),
        }
    }

    /// Looks whether an editor has changed the files.
    pub(super) fn look(&self) {
        let mut inner = self.lock();
        let seen = |session: &Session| (session.notice(), session.done().clone());
        let before = seen(&inner.session);
        let changed = inner.session.look();
        if changed {
            self.begin(&mut inner);
        }
        if changed || seen(&inner.session) != before {
            self.tell(&mut inner);
        }
    }

    /// Does what a page asks for; the number of the newest text.
    pub(super) fn act(&self, deed: &Deed) -> Result<u64, Undone> {
        let mut inner = self.lock();
        match deed {
            Deed::Set { .. } | Deed::Edits { .. } | Deed::Mend { .. } | Deed::Text { .. } => {
                let (text, words) = inner.changed(deed)?;
                let trouble = inner.session.change(&text, &words).err();
                self.begin(&mut inner);
                if let Some(refusal) = trouble {
                    self.tell(&mut inner);
                    return Err(refusal.into());
                }
            }
            Deed::Driver { values, key } => {
                let trouble = inner.shelve(values, key.as_deref()).err();
                self.begin(&mut inner);
                if let Some(undone) = trouble {
                    self.tell(&mut inner);
                    return Err(undone);
                }
            }
            Deed::Undo | Deed::Redo => {
                if *deed == Deed::Undo {
                    inner.session.undo()?;
                } else {
                    inner.session.redo()?;
                }
                self.begin(&mut inner);
            }
            Deed::Settle { keep } => {
                inner.session.settle((*keep).into())?;
                self.begin(&mut inner);
            }
            Deed::Hold => inner.held = inner.shown.studied.clone(),
            Deed::Release => inner.held = None,
            Deed::Step { id, done } => {
                if !inner.has_step(id) {
                    let message = format!("there is no build step {id:?}");
                    return Err(Refusal::new(message, "reload the page").into());
                }
                inner.session.check_off(id, *done);
            }
            Deed::Stop => self.worker.stop(),
            Deed::Open { .. } | Deed::Begin { .. } => {
                let message = "a design is open already";
                let advice = "run boxwright open once more for another one";
                return Err(Refusal::new(message, advice).into());
            }
        }
        self.tell(&mut inner);
        Ok(inner.number)
    }

    /// What a deed would make of the text, for a trial.
    pub(super) fn trial(&self, deed: &Deed) -> Result<Trial, Undone> {
        let inner = self.lock();
        let (text, shelf) = match deed {
            Deed::Driver { values, key } => inner.with_driver(values, key.as_deref())?.texts(),
            _ => (inner.changed(deed)?.0, inner.session.shelf().cloned()),
        };
        Ok(Trial {
            text,
            shelf,
            memory: Arc::clone(&inner.memory),
            nominal: inner.nominal.clone(),
            bands: inner.bands.clone(),
        })
    }

    /// Begins to study the session's text, where it is a new one.
    fn begin(&self, inner: &mut Inner) {
        let text = Arc::clone(inner.session.text());
        let shelf = inner.session.shelf().cloned();
        let same = *text == *inner.shown.text && shelf == inner.shown.shelf;
        if same && inner.number > 0 && inner.number == inner.shown.number {
            return;
        }
        inner.number += 1;
        inner.failed = None;
        let number = inner.number;
        inner.texts.push_back((number, Arc::clone(&text)));
        if inner.texts.len() > MOST_TEXTS {
            inner.texts.pop_front();
        }
        let job = Job {
            number,
            text,
            shelf,
        };
        inner.busy = Some((0, 0));
        self.worker.submit(job);
    }

    /// Takes in what the worker has found.
    fn hear(&self, news: News) {
        let mut inner = self.lock();
        match news {
            News::Drawn { number, drawn, of } if number == inner.number => {
                if inner.busy.is_some_and(|(before, _)| before > drawn) {
                    return;
                }
                inner.busy = Some((drawn, of));
                if inner.told.elapsed() < TELLING {
                    return;
                }
            }
            News::Reached {
                number,
                stage,
                studied,
            } if number == inner.number => inner.reached(stage, studied),
            News::Broken { number, found } if number == inner.number => {
                let job = Job {
                    number,
                    text: Arc::clone(inner.session.text()),
                    shelf: inner.session.shelf().cloned(),
                };
                inner.broken(job, found);
            }
            News::Ended { number, how } if number == inner.number => {
                inner.busy = None;
                inner.failed = match how {
                    Ending::Finished | Ending::Broken => None,
                    Ending::Stopped => Some("stopped: the next change goes on from here"),
                    Ending::Failed => Some(
                        "the studies broke off: this is a fault of the program, not of the design",
                    ),
                };
            }
            _ => return,
        }
        self.tell(&mut inner);
    }

    /// Tells every open page.
    fn tell(&self, inner: &mut Inner) {
        inner.turn += 1;
        inner.told = Instant::now();
        self.events.send_replace(inner.event());
    }
}

impl Inner {
    fn event(&self) -> Event {
        let (drawn, of) = self.busy.unwrap_or_default();
        Event {
            number: self.shown.number,
            stage: stage(self.shown.stage),
            busy: self.busy.is_some(),
            drawn,
            of,
            turn: self.turn,
        }
    }

    fn reached(&mut self, stage: Stage, studied: Arc<Studied>) {
        match stage {
            Stage::Nominal => {
                self.nominal = Some(Arc::clone(&studied));
                self.bands = None;
            }
            Stage::Bands => self.bands = Some(Arc::clone(&studied)),
            Stage::Broken | Stage::Whole => {}
        }
        self.shown = Shown {
            number: self.number,
            stage,
            text: Arc::clone(self.session.text()),
            shelf: self.session.shelf().cloned(),
            studied: Some(studied),
            problems: Vec::new(),
        };
    }

    fn broken(&mut self, job: Job, found: Vec<Diagnostic>) {
        self.busy = None;
        self.shown = Shown {
            number: job.number,
            stage: Stage::Broken,
            text: job.text,
            shelf: job.shelf,
            studied: self.shown.studied.take(),
            problems: found,
        };
    }

    fn has_step(&self, id: &str) -> bool {
        let studied = self.shown.studied.as_ref();
        studied.is_some_and(|studied| studied.report.order.steps.iter().any(|step| step.id == id))
    }

    /// The text after a deed, and the deed in words.
    fn changed(&self, deed: &Deed) -> Result<(String, String), Undone> {
        let present = self.session.text();
        let (text, words) = match deed {
            Deed::Mend { finding, number } => return self.mended(finding, *number),
            Deed::Text { value, number } => (self.rebased(value, *number)?, "the text".to_owned()),
            _ => {
                let edits = deed.edits().ok_or_else(|| {
                    Refusal::new("there is nothing to try", "give edits or a mend")
                })??;
                let text = self.edited(&edits, deed.meant_for())?;
                (text, words::edits(present, &edits))
            }
        };
        self.must_not_worsen(&text, self.session.shelf().map(|shelf| &**shelf))?;
        Ok((text, words))
    }

    /// A text that was made from an earlier one, with what was changed since.
    fn rebased(&self, value: &str, number: Option<u64>) -> Result<String, Undone> {
        let present = self.session.text();
        let Some(base) = self.earlier(number)? else {
            return Ok(with_ends_of(value, present));
        };
        let value = with_ends_of(value, base);
        merge(base, present, &value).map_err(|_| Undone::Outdated)
    }

    /// The present text after edits that were meant for the text that had a number: what they
    /// speak of must still be what it was there, or the two must go together.
    fn edited(&self, edits: &[Edit], number: Option<u64>) -> Result<String, Undone> {
        let present = self.session.text();
        let base = self.earlier(number)?;
        match base.filter(|base| !words::speak_of_the_same(base, present, edits)) {
            None => applied(present, edits),
            Some(base) => {
                let text = applied(base, edits)?;
                merge(base, present, &text).map_err(|_| Undone::Outdated)
            }
        }
    }

    /// The text that had a number; none where that is the present one.
    fn earlier(&self, number: Option<u64>) -> Result<Option<&Arc<str>>, Undone> {
        let Some(number) = number.filter(|number| *number != self.number) else {
            return Ok(None);
        };
        let mut texts = self.texts.iter();
        let found = texts.find(|(found, _)| *found == number);
        found.map(|(_, text)| Some(text)).ok_or(Undone::Outdated)
    }

    fn mended(&self, finding: &str, number: u64) -> Result<(String, String), Undone> {
        let Some(studied) = &self.shown.studied else {
            return Err(Undone::Outdated);
        };
        if number != self.number || number != self.shown.number {
            return Err(Undone::Outdated);
        }
        let mend = commands::mend::mend(&studied.report, finding).map_err(Refusal::from)?;
        let own = self.session.shelf().map(|shelf| &**shelf);
        let project = self.project(self.session.text(), own);
        let text = commands::mend::edited(&project, mend).map_err(Refusal::from)?;
        Ok((text, mend.words.clone()))
    }

    /// A text with faults is taken only where the present one has more of them.
    fn must_not_worsen(&self, text: &str, shelf: Option<&str>) -> Result<(), Undone> {
        let wrong = |design, shelf| self.memory.faults(Texts { design, shelf });
        let found = wrong(text, shelf);
        let own = self.session.shelf().map(|shelf| &**shelf);
        if found.is_empty() || found.len() < wrong(self.session.text(), own).len() {
            return Ok(());
        }
        Err(Undone::Problems(problems(
            &self.project(text, shelf),
            &found,
        )))
    }

    fn project(&self, text: &str, shelf: Option<&str>) -> Project {
        Project {
            design: Named {
                name: self.session.file(),
                text: text.to_owned(),
            },
            shelf: shelf.map(|shelf| Named {
                name: "shelf.toml".to_owned(),
                text: shelf.to_owned(),
            }),
        }
    }
}

fn applied(text: &str, edits: &[Edit]) -> Result<String, Undone> {
    studies::apply(text, edits)
        .map_err(|error| Refusal::new(error.to_string(), "edit the text itself").into())
}

const fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Broken => "broken",
        Stage::Nominal => "nominal",
        Stage::Bands => "bands",
        Stage::Whole => "whole",
    }
}

impl Event {
    /// The state in a word, such as `12-nominal`.
    pub(super) fn word(state: &State) -> String {
        format!("{}-{}", state.number, stage(state.stage))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whoever listens from the first moment hears that the studies are at work.
    #[test]
    fn work_is_told_from_the_beginning() {
        let folder = std::env::temp_dir().join(format!("boxwright-desk-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let design = folder.join("design.toml");
        let example = include_str!("../../../../examples/bathing-beach/design.toml");
        std::fs::write(&design, example).unwrap();
        let desk = Desk::open(&design, None, 0).unwrap();
        let event = desk.listen().borrow().clone();
        assert!(event.busy && desk.number() == 1, "{event:?}");
        std::fs::remove_dir_all(&folder).unwrap();
    }
}
