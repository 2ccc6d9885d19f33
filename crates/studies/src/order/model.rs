//! What the order of building gives, for sheets and files.

use crate::finish::Task;
use design::Instrument;

/// How the box is built: steps in order, when they are done, and where to stop and test.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// Steps in the order of the work.
    pub steps: Vec<Step>,
    /// What all of it takes.
    pub total: Total,
    /// Where to stop and test, in the order of the work.
    pub holds: Vec<Hold>,
    /// Tools wanted, each with the steps that want it, by index.
    pub tools: Vec<(String, Vec<usize>)>,
}

/// What building takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Total {
    /// With hands on it, in s.
    pub hands: Span,
    /// Days on which somebody works.
    pub days: [u32; 3],
    /// Hours at the bench in one of them, in s.
    pub day: f64,
    /// From the first cut until all has cured, in s.
    pub until_ready: Span,
    /// Work that goes on while glue or finish dries elsewhere, in s.
    pub meanwhile: f64,
}

/// A time as a quick hand, most hands and a slow hand need it, in s.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Span {
    /// Of a quick hand.
    pub quick: f64,
    /// As usual.
    pub usual: f64,
    /// Of a slow hand, or on the first box.
    pub slow: f64,
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Stable name, such as `saw`, `glue-2` or `test-polarity`.
    pub id: String,
    /// In words, short.
    pub title: String,
    /// What to do.
    pub words: Vec<String>,
    /// What sort of work.
    pub work: Work,
    /// Time with hands on it.
    pub hands: Span,
    /// Waiting after it, before what depends on it may begin, in s.
    pub wait: f64,
    /// What is waited for.
    pub wait_for: Option<&'static str>,
    /// When it begins, from the beginning of the first day in s, nights counted.
    pub begins: f64,
    /// When hands are free again.
    pub ends: f64,
    /// When what depends on it may begin.
    pub ready: f64,
    /// Tools wanted.
    pub tools: Vec<String>,
    /// What it comes directly after, by index, and why.
    pub after: Vec<(usize, Why)>,
    /// What is no longer reached afterwards.
    pub hides: Vec<String>,
    /// Its test, by index, where it is one.
    pub hold: Option<usize>,
    /// What of the finish is done in it, one after the other, with its hands-on time in s.
    pub finish: Vec<(Task, f64)>,
}

/// Sorts of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Work {
    /// Sawing, drilling, gluing.
    Wood,
    /// The control panel's plate.
    Panel,
    /// Soldering and wiring.
    Wiring,
    /// Parts put into the box.
    Fitting,
    /// Sanding and coats.
    Finish,
    /// A test.
    Test,
}

impl Work {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Wood,
        Self::Panel,
        Self::Wiring,
        Self::Fitting,
        Self::Finish,
        Self::Test,
    ];

    /// In a word or two.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Wood => "wood",
            Self::Panel => "control panel",
            Self::Wiring => "wiring",
            Self::Fitting => "fitting",
            Self::Finish => "finish",
            Self::Test => "test",
        }
    }
}

/// Why one step comes after another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// It works on what the other makes.
    Work,
    /// It is joined to what the other joins.
    Joint,
    /// Nothing reaches there afterwards.
    Access,
    /// Glue, sealant or finish must have set.
    Drying,
    /// It is wired to what the other fits.
    Wiring,
    /// The other is tested first.
    Test,
    /// Dust and coats keep off it.
    Clean,
}

impl Why {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Work => "it works on what that makes",
            Self::Joint => "it is joined to that",
            Self::Access => "nothing reaches there afterwards",
            Self::Drying => "that must have set",
            Self::Wiring => "it is wired to that",
            Self::Test => "that is tested first",
            Self::Clean => "dust and coats keep off it",
        }
    }
}

/// A place to stop and test.
#[derive(Clone, Debug, PartialEq)]
pub struct Hold {
    /// Stable name.
    pub id: &'static str,
    /// In words.
    pub title: String,
    /// Its step, by index.
    pub step: usize,
    /// How to take the reading, with the tools there are.
    pub how: Vec<String>,
    /// Instruments that takes, beside hands, eyes and ears.
    pub with: Vec<Instrument>,
    /// Whether it is taken in another way than the best one, or not at all.
    pub taken: Taken,
    /// What this build should read.
    pub readings: Vec<Reading>,
    /// What it means where it does not: sign and meaning.
    pub otherwise: Vec<(String, String)>,
    /// What can hurt.
    pub caution: Option<String>,
}

/// How a test is taken.
#[derive(Clone, Debug, PartialEq)]
pub enum Taken {
    /// As is best.
    Best,
    /// With what there is, in another way.
    Instead,
    /// Not at all: what is missing.
    Not(String),
}

/// One reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// What is read, and where.
    pub label: String,
    /// What it should be.
    pub expect: Expect,
}

/// What a reading should be.
#[derive(Clone, Debug, PartialEq)]
pub enum Expect {
    /// Within a band: what eight of ten drawn builds read, widened by what the meter adds.
    Band {
        /// Low end.
        low: f64,
        /// Of the nominal build.
        nominal: f64,
        /// High end.
        high: f64,
        /// Unit.
        unit: &'static str,
    },
    /// No less than this.
    AtLeast {
        /// Least.
        value: f64,
        /// Unit.
        unit: &'static str,
    },
    /// No more than this.
    AtMost {
        /// Most.
        value: f64,
        /// Unit.
        unit: &'static str,
    },
    /// Something seen or heard.
    Seen(String),
}

/// An instrument in words, as the design file names it.
#[must_use]
pub const fn instrument(of: Instrument) -> &'static str {
    match of {
        Instrument::Multimeter => "multimeter",
        Instrument::Phone => "phone",
        Instrument::SineSource => "sine source",
        Instrument::BenchSupply => "bench supply",
        Instrument::SoundMeter => "sound meter",
        Instrument::Oscilloscope => "oscilloscope",
        Instrument::Thermometer => "thermometer",
        Instrument::ClampMeter => "clamp meter",
        Instrument::Scale => "scale",
    }
}
