//! NumPy's batched LAPACK as a child process.

use boxwright_physics::math::Complex;
use std::fs::{self, File};
use std::io::{self, BufRead, BufReader, BufWriter, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

/// Many dense systems of one size.
pub(crate) struct Stack {
    /// Equations in each.
    pub(crate) size: usize,
    /// Row by row, one after another.
    pub(crate) matrices: Vec<Complex>,
    /// One after another.
    pub(crate) right: Vec<Complex>,
}

/// A child that holds a stack and solves it when asked.
pub(crate) struct Lapack {
    child: Child,
    requests: ChildStdin,
    answers: BufReader<ChildStdout>,
    folder: Folder,
}

impl Lapack {
    /// Gives a new child the stack; an error where there is no Python.
    pub(crate) fn start(stack: &Stack) -> io::Result<Self> {
        let folder = Folder::new()?;
        let mut file = BufWriter::new(File::create(folder.0.join("equations"))?);
        for value in stack.matrices.iter().chain(&stack.right) {
            file.write_all(&value.re.to_le_bytes())?;
            file.write_all(&value.im.to_le_bytes())?;
        }
        file.flush()?;
        let mut child = python()
            .args(["-c", include_str!("lapack.py")])
            .arg(stack.size.to_string())
            .arg((stack.right.len() / stack.size).to_string())
            .args([folder.0.join("equations"), folder.0.join("solutions")])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()?;
        let missing = || io::Error::other("the child has no pipe");
        let requests = child.stdin.take().ok_or_else(missing)?;
        let answers = BufReader::new(child.stdout.take().ok_or_else(missing)?);
        Ok(Self {
            child,
            requests,
            answers,
            folder,
        })
    }

    /// Seconds that one solve of the stack takes.
    pub(crate) fn seconds(&mut self) -> io::Result<f64> {
        writeln!(self.requests)?;
        line(&mut self.answers)?.parse().map_err(io::Error::other)
    }

    /// Ends the child and reads its last solutions, one system after another.
    pub(crate) fn solutions(self) -> io::Result<Vec<Complex>> {
        let Self {
            mut child,
            requests,
            folder,
            ..
        } = self;
        drop(requests);
        if !child.wait()?.success() {
            return Err(io::Error::other("the child failed"));
        }
        let bytes = fs::read(folder.0.join("solutions"))?;
        let (words, _) = bytes.as_chunks();
        Ok(words
            .chunks_exact(2)
            .map(|pair| Complex::new(f64::from_le_bytes(pair[0]), f64::from_le_bytes(pair[1])))
            .collect())
    }
}

fn line(answers: &mut impl BufRead) -> io::Result<String> {
    let mut text = String::new();
    answers.read_line(&mut text)?;
    match text.trim() {
        "" => Err(io::Error::other("it ended without an answer")),
        text => Ok(text.into()),
    }
}

/// Which NumPy there is.
pub(crate) fn version() -> io::Result<String> {
    let output = python()
        .args(["-c", "import numpy; print(numpy.__version__)"])
        .output()?;
    line(&mut output.stdout.as_slice())
}

/// The named Python, the one `./check` has set up, or the machine's own; with
/// one thread for LAPACK, whichever it is built with.
fn python() -> Command {
    let ours = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/venv/bin/python");
    let program = std::env::var_os("BOXWRIGHT_PYTHON").map_or_else(
        || {
            if ours.exists() {
                ours
            } else {
                "python3".into()
            }
        },
        PathBuf::from,
    );
    let mut command = Command::new(program);
    command.stderr(Stdio::null()).envs(
        ["OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"].map(|name| (name, "1")),
    );
    command
}

/// A folder of our own that goes when it is dropped.
struct Folder(PathBuf);

impl Folder {
    fn new() -> io::Result<Self> {
        let path = std::env::temp_dir().join(format!("boxwright-solve-{}", std::process::id()));
        fs::create_dir(&path)?;
        Ok(Self(path))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        drop(fs::remove_dir_all(&self.0));
    }
}
