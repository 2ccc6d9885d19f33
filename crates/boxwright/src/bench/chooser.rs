//! The room the desk stands in: until a design lies on it, one is chosen.

use super::deed::Deed;
use super::desk::{Desk, Undone};
use super::recent;
use super::refusal::Refusal;
use crate::cli::{Example, NewArgs};
use crate::commands::{new, pack};
use crate::failure::Failure;
use crate::files;
use clap::ValueEnum;
use std::env;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// What can be chosen from.
#[derive(Clone, Debug)]
pub(super) struct Chooser {
    /// Designs opened lately, the latest first; the one in this folder before all.
    pub(super) recent: Vec<Known>,
    /// Designs that are shipped, to start from.
    pub(super) examples: Vec<Shipped>,
    /// Where a new design gets its folder.
    pub(super) folder: String,
}

/// A design on this machine.
#[derive(Clone, Debug)]
pub(super) struct Known {
    pub(super) name: String,
    pub(super) path: String,
}

/// A design that is shipped.
#[derive(Clone, Debug)]
pub(super) struct Shipped {
    /// As the command line calls it.
    pub(super) id: String,
    pub(super) title: String,
    /// In a few words.
    pub(super) about: String,
}

/// Where the desk stands.
#[derive(Debug)]
pub(super) struct Room {
    /// Builds drawn for a whole answer.
    builds: usize,
    desk: OnceLock<Arc<Desk>>,
    /// One is chosen at a time.
    choosing: Mutex<()>,
}

impl Room {
    /// A room without a design.
    pub(super) fn new(builds: usize) -> Self {
        Self {
            builds,
            desk: OnceLock::new(),
            choosing: Mutex::default(),
        }
    }

    /// The desk, once a design lies on it.
    pub(super) fn desk(&self) -> Option<&Arc<Desk>> {
        self.desk.get()
    }

    /// Opens a design.
    pub(super) fn open(&self, design: &Path, shelf: Option<&Path>) -> Result<(), Failure> {
        let desk = Desk::open(design, shelf, self.builds)?;
        recent::remember(&desk.path());
        self.desk.set(desk).ok();
        Ok(())
    }

    /// Does what a page asks for; the number of the newest text.
    pub(super) fn act(&self, deed: &Deed) -> Result<u64, Undone> {
        let _one = self.choosing.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(desk) = self.desk() {
            return desk.act(deed);
        }
        let design = match deed {
            Deed::Open { recent } => {
                let design = known().into_iter().nth(*recent);
                design.ok_or_else(|| Refusal::new("there is no such design", "reload the page"))?
            }
            Deed::Begin { name, example } => {
                begin(name, example.as_deref()).map_err(Refusal::from)?
            }
            _ => return Err(Refusal::new("no design is open", "choose one first").into()),
        };
        self.open(&design, None).map_err(Refusal::from)?;
        Ok(self.desk().map_or(0, |desk| desk.number()))
    }

    /// Lets what is being done come to its end; after that nothing more is done.
    pub(super) fn close(&self) -> impl Sized + '_ {
        self.choosing.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// What can be chosen from.
    pub(super) fn chooser(&self) -> Chooser {
        let folder = env::current_dir().unwrap_or_default();
        Chooser {
            recent: known().iter().map(|path| name(path)).collect(),
            examples: Example::value_variants()
                .iter()
                .filter_map(shipped)
                .collect(),
            folder: folder.display().to_string(),
        }
    }
}

/// The design in this folder and those opened lately.
fn known() -> Vec<PathBuf> {
    let here = env::current_dir()
        .ok()
        .map(|folder| folder.join(files::DESIGN));
    let here = here.filter(|path| path.is_file());
    let others = recent::designs();
    let others = others
        .into_iter()
        .filter(|path| Some(path) != here.as_ref());
    here.iter().cloned().chain(others).collect()
}

fn name(path: &Path) -> Known {
    let text = files::text(path).unwrap_or_default();
    let name = design::value_at(&text, &design::key_path("name"));
    Known {
        name: name.unwrap_or_else(|| "no name can be read".to_owned()),
        path: path.display().to_string(),
    }
}

fn shipped(example: &Example) -> Option<Shipped> {
    let value = example.to_possible_value()?;
    Some(Shipped {
        id: value.get_name().to_owned(),
        title: new::title(*example)?,
        about: value
            .get_help()
            .map(ToString::to_string)
            .unwrap_or_default(),
    })
}

/// Writes a design to start from into a new folder named after it.
fn begin(name: &str, example: Option<&str>) -> Result<PathBuf, Failure> {
    let folder = pack::slug(name);
    if folder.is_empty() {
        return Err(Failure::mended(
            "a design needs a name",
            "give it one with a letter or a digit from a to z or 0 to 9",
        ));
    }
    let like = example.map(|id| Example::from_str(id, false)).transpose();
    let like = like.map_err(|_| Failure::plain("there is no such example"))?;
    let args = NewArgs {
        path: Path::new(&folder).join(files::DESIGN),
        name: Some(name.trim().to_owned()),
        like,
    };
    let written = new::begin(&args)?;
    let design = written.into_iter().next();
    design.ok_or_else(|| Failure::plain("nothing was written"))
}
