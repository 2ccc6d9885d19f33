//! A part: its terminals, and what conducts inside it.

/// What a part is, as far as the wiring cares.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Gives the power.
    Battery,
    /// A fuse in its holder.
    Fuse,
    /// A switch or selector.
    Switch,
    /// Where the charger plugs in.
    ChargeSocket,
    /// A terminal strip: every wire that ends there is joined.
    Star,
    /// An amplifier board.
    Amplifier,
    /// A converter of supply voltage.
    Converter,
    /// A radio module.
    Radio,
    /// A low-battery indicator.
    Indicator,
    /// A light.
    Light,
    /// A meter.
    Meter,
    /// A resistor.
    Resistor,
    /// A level control.
    Potentiometer,
    /// A signal socket.
    Jack,
    /// A pair of loudspeaker terminals.
    Post,
    /// A driver.
    Driver,
    /// A sheet of metal that bare parts touch.
    Plate,
    /// Anything else.
    Other,
}

/// What a terminal is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// Gives supply: the positive pole of a battery or of a converter's output.
    Plus,
    /// The return of what gives supply.
    Minus,
    /// Takes supply.
    Supply,
    /// Where taken supply flows back.
    Return,
    /// Takes the charger's positive pole.
    Charge,
    /// Takes the charger's return.
    ChargeReturn,
    /// Gives a signal.
    SignalOut,
    /// Takes a signal.
    SignalIn,
    /// What signals are measured against.
    SignalGround,
    /// One leg of an output that is driven on both legs.
    Bridged,
    /// The driven leg of an output with one leg on ground.
    Output,
    /// The grounded leg of such an output.
    OutputGround,
    /// An end of a load: a driver's lug.
    Load,
    /// The end of a level control's track that takes the signal.
    Top,
    /// Its wiper.
    Wiper,
    /// The end of its track that lies on ground.
    Bottom,
    /// An end of something that only passes on: contact, fuse, resistor, strip.
    Contact,
    /// Bare metal: a plate, a bush, a case.
    Metal,
}

/// Which channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
    /// Both at once.
    Mono,
}

/// Which way round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sign {
    /// In phase.
    Plus,
    /// Against it.
    Minus,
}

/// Where a wire can end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Terminal {
    /// Name within its part, such as `+` or `left out -`.
    pub name: String,
    /// What it is for.
    pub role: Role,
    /// Whose channel it carries, where it carries one.
    pub side: Option<Side>,
    /// Which way round, where that matters.
    pub sign: Option<Sign>,
}

impl Terminal {
    /// A terminal without side and sign.
    #[must_use]
    pub fn new(name: impl Into<String>, role: Role) -> Self {
        Self {
            name: name.into(),
            role,
            side: None,
            sign: None,
        }
    }

    /// The same on a channel.
    #[must_use]
    pub fn on(mut self, side: Side) -> Self {
        self.side = Some(side);
        self
    }

    /// The same, with a sense.
    #[must_use]
    pub fn signed(mut self, sign: Sign) -> Self {
        self.sign = Some(sign);
        self
    }
}

/// How two terminals of a part are joined inside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Through {
    /// Metal: a closed contact, a shared sleeve, a strip.
    Metal,
    /// A fuse link.
    Fuse,
    /// A resistance in Ω: a resistor, a track, a voice coil.
    Resistance(f64),
    /// Something that draws what it needs: a board between its supply terminals.
    Load,
}

/// What conducts between two terminals of one part.
#[derive(Clone, Debug, PartialEq)]
pub struct Inner {
    /// The two terminals, by their place in the part's list.
    pub between: [usize; 2],
    /// How they are joined.
    pub through: Through,
    /// Positions of the part in which they are; in every position where empty.
    pub when: Vec<usize>,
}

impl Inner {
    /// A conduction there in every position.
    #[must_use]
    pub const fn always(a: usize, b: usize, through: Through) -> Self {
        Self {
            between: [a, b],
            through,
            when: Vec::new(),
        }
    }

    /// A contact closed in some positions.
    #[must_use]
    pub fn contact(a: usize, b: usize, when: &[usize]) -> Self {
        Self {
            between: [a, b],
            through: Through::Metal,
            when: when.to_vec(),
        }
    }

    /// Whether it conducts in a position.
    #[must_use]
    pub fn conducts(&self, position: usize) -> bool {
        self.when.is_empty() || self.when.contains(&position)
    }
}

/// A part with named terminals.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its name: unique in a system.
    pub name: String,
    /// What it is.
    pub kind: Kind,
    /// Its terminals.
    pub terminals: Vec<Terminal>,
    /// What conducts inside it.
    pub inner: Vec<Inner>,
    /// Names of its positions; a part that does not switch has none.
    pub positions: Vec<String>,
    /// The part that is to feed it; the battery where none is named.
    pub fed_by: Option<usize>,
    /// Lowest and highest voltage it gives, where it gives supply, in V.
    pub gives: Option<[f64; 2]>,
    /// Lowest and highest supply voltage it stands, where known, in V.
    pub stands: Option<[f64; 2]>,
    /// Share of its channel's voltage a driver is to have across it, 0 to 1, where known.
    pub share: Option<f64>,
}

impl Part {
    /// A part of this kind and name, without terminals yet.
    #[must_use]
    pub fn new(name: impl Into<String>, kind: Kind) -> Self {
        Self {
            name: name.into(),
            kind,
            terminals: Vec::new(),
            inner: Vec::new(),
            positions: Vec::new(),
            fed_by: None,
            gives: None,
            stands: None,
            share: None,
        }
    }

    /// The terminal of this name.
    #[must_use]
    pub fn terminal(&self, name: &str) -> Option<usize> {
        self.terminals.iter().position(|own| own.name == name)
    }

    /// Its terminals of a role.
    pub fn of_role(&self, role: Role) -> impl Iterator<Item = usize> + '_ {
        let own = self.terminals.iter().enumerate();
        own.filter(move |(_, terminal)| terminal.role == role)
            .map(|(index, _)| index)
    }
}
