//! Running the binary, folders that go away, golden files.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicU32, Ordering};

pub(crate) const EXAMPLES: [&str; 3] = ["bathing-beach", "salvage-party", "workshop-mono"];

/// Drawn builds where a test is not about odds.
pub(crate) const FEW: &str = "--builds=100";

/// The root of the repository.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

pub(crate) fn example(name: &str) -> String {
    format!("examples/{name}/design.toml")
}

/// What the binary said and how it ended.
#[derive(Debug)]
pub(crate) struct Ran {
    pub(crate) out: String,
    pub(crate) err: String,
    pub(crate) status: i32,
}

/// The binary at the root of the repository, in an environment that asks for nothing.
pub(crate) fn command(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_boxwright"));
    command.args(arguments).current_dir(root());
    for name in [
        "NO_COLOR",
        "CLICOLOR_FORCE",
        "TERM",
        "RAYON_NUM_THREADS",
        "SOURCE_DATE_EPOCH",
    ] {
        command.env_remove(name);
    }
    command
}

pub(crate) fn ran(command: &mut Command) -> Ran {
    let output = command.output().expect("the binary starts");
    let text = |bytes| String::from_utf8(bytes).expect("answers are UTF-8");
    Ran {
        out: text(output.stdout),
        err: text(output.stderr),
        status: output.status.code().expect("the binary ends by itself"),
    }
}

pub(crate) fn boxwright(arguments: &[&str]) -> Ran {
    ran(&mut command(arguments))
}

/// What the binary answers when all is well; nothing may be complained about.
pub(crate) fn answer(arguments: &[&str]) -> String {
    let ran = boxwright(arguments);
    assert_eq!(
        (ran.status, ran.err.as_str()),
        (0, ""),
        "{arguments:?}: {}",
        ran.out
    );
    ran.out
}

/// Python with the packages of `tools/requirements.txt`, which `./check` puts in place.
pub(crate) fn python() -> String {
    let usual = root().join("target/venv/bin/python");
    std::env::var("BOXWRIGHT_PYTHON").unwrap_or_else(|_| usual.to_str().unwrap().to_owned())
}

/// Holds a text against a golden file, or writes it with `BLESS=1`.
pub(crate) fn golden(name: &str, text: &str) {
    matches(
        &Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("tests/e2e/golden")
            .join(name),
        text,
    );
}

/// Holds a text against a file of the repository, or writes it with `BLESS=1`.
pub(crate) fn matches(path: &Path, text: &str) {
    if std::env::var_os("BLESS").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
        return;
    }
    let wanted = fs::read_to_string(path)
        .unwrap_or_else(|error| panic!("{}: {error}; BLESS=1 writes it", path.display()));
    let differs = wanted.lines().zip(text.lines()).position(|(a, b)| a != b);
    let line = differs.unwrap_or(wanted.lines().count().min(text.lines().count()));
    assert!(
        wanted == text,
        "{} differs from line {}:\n- {}\n+ {}\nBLESS=1 accepts the new text",
        path.display(),
        line + 1,
        wanted.lines().nth(line).unwrap_or("(end)"),
        text.lines().nth(line).unwrap_or("(end)"),
    );
}

/// A folder of its own for one test, gone afterwards.
#[derive(Debug)]
pub(crate) struct Scratch(PathBuf);

impl Scratch {
    pub(crate) fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let name = format!("boxwright-e2e-{}-{count}", std::process::id());
        let path = std::env::temp_dir().join(name);
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    /// The path of something in it.
    pub(crate) fn path(&self, name: &str) -> String {
        self.0.join(name).to_str().unwrap().to_owned()
    }

    /// Writes a file and gives its path.
    pub(crate) fn file(&self, name: &str, bytes: impl AsRef<[u8]>) -> String {
        fs::write(self.0.join(name), bytes).unwrap();
        self.path(name)
    }

    /// A copy of an example's design, with the shelf beside it.
    pub(crate) fn copied(&self, example: &str) -> String {
        for name in ["design.toml", "shelf.toml"] {
            let from = root().join("examples").join(example).join(name);
            if from.exists() {
                fs::copy(from, self.0.join(name)).unwrap();
            }
        }
        self.path("design.toml")
    }

    /// A salvage box, without its bay, whose battery would be charged in the
    /// closed box.
    pub(crate) fn with_a_stop(&self) -> String {
        let text = fs::read_to_string(self.copied("salvage-party")).unwrap();
        let (before, bay) = text.split_once("[bay]").unwrap();
        let (_, after) = bay.split_once("\n[").unwrap();
        let text = format!("{before}[{after}");
        let closed = text.replace("vented_bay = true", "vented_bay = false");
        assert_ne!(closed, text);
        self.file("design.toml", closed)
    }

    /// Names of everything in it, sorted.
    pub(crate) fn names(&self) -> Vec<String> {
        names(&self.0)
    }
}

/// Names of everything in a folder, sorted.
pub(crate) fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

impl Drop for Scratch {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).ok();
    }
}
