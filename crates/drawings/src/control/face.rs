//! What is written on the control panel, and where: labels and dial scales,
//! large enough to be read, each where nothing else is.

use crate::cut::{Room, hole_shape, mm};
use crate::geometry::{Point, Rect};
use crate::math;
use crate::sheet::{Anchor, Shape, Text};
use crate::text::Lettering;
use crate::text::stroke::StrokeLettering;
use studies::carpentry::{ControlHole, ControlPlan};
use wood::Outline;

/// Height of capitals of labels in mm, and the least that is still read with
/// ease at arm's length; common practice, no source.
const CAP: f64 = 3.0;
const LEAST_CAP: f64 = 2.5;
/// Clear space around words, and from the edge of the plate, in mm.
const CLEAR: f64 = 1.2;
const EDGE: f64 = 1.5;
/// Between two lines of one label, in mm.
const LEADING: f64 = 0.6;
/// From knob to scale, and lengths of its marks, in mm.
const GAP: f64 = 1.0;
const LONG: f64 = 2.4;
const SHORT: f64 = 1.3;
/// Marks closer than this in mm run into one another when engraved.
const CLOSEST: f64 = 0.7;
/// A scale spans this turn in degrees, evenly about the top: what controls
/// usually turn; common practice, no source.
const TURN: f64 = 300.0;
/// A label lies within this many mm of where it is looked for.
const REACH: f64 = 6.0;
/// A label farther off than that is joined by a line, if it lies within this many mm.
const FAR: f64 = 45.0;
/// Heads of screws are about so many times as wide as their holes.
const HEAD: f64 = 2.0;

/// The written side of the plate, in mm from its upper left corner.
#[derive(Debug)]
pub(crate) struct Face {
    /// Marks of scales.
    pub(crate) ticks: Vec<[Point; 2]>,
    /// Lines from labels that stand apart to what they name.
    pub(crate) leaders: Vec<[Point; 2]>,
    pub(crate) words: Vec<Word>,
    /// What found no room, in words.
    pub(crate) left_out: Vec<String>,
}

/// One line of letters.
#[derive(Clone, Debug)]
pub(crate) struct Word {
    pub(crate) text: String,
    /// Height of its capitals in mm.
    pub(crate) cap: f64,
    /// Its middle on the base line.
    pub(crate) base: Point,
}

impl Word {
    /// As text of a sheet.
    pub(crate) fn on_sheet(&self) -> Text {
        Text::new(self.base, &self.text, letters(self.cap)).anchored(Anchor::Middle)
    }
}

/// Letters whose capitals are so many mm high.
fn letters(cap: f64) -> Lettering {
    Lettering::regular(cap / Lettering::regular(1.0).cap_height())
}

/// Width and height that words take, in whichever letters: a third of the
/// capitals hangs below, and accents stand above.
fn size(text: &str, cap: f64) -> (f64, f64) {
    let wide = StrokeLettering::new(cap).width(text);
    (
        wide.max(letters(cap).width(text)),
        above(text, cap) + cap / 3.0,
    )
}

fn above(text: &str, cap: f64) -> f64 {
    if text.is_ascii() { cap } else { 1.4 * cap }
}

impl Face {
    /// Labels and scales of a plate. What is already there, holes, knobs and
    /// heads of screws, is left clear.
    pub(crate) fn of(plan: &ControlPlan) -> Self {
        let plate = Rect::new(0.0, 0.0, mm(plan.size[0]), mm(plan.size[1]));
        let mut making = Making {
            plate,
            room: Room::new(plate.inset(EDGE)),
            face: Self {
                ticks: Vec::new(),
                leaders: Vec::new(),
                words: Vec::new(),
                left_out: Vec::new(),
            },
        };
        for hole in &plan.holes {
            let at = making.point(hole.at);
            making.room.take(around(at, mm(hole.front) / 2.0));
            if let Shape::Rect(rect) = hole_shape(hole.outline, at) {
                making.room.take(rect);
            }
        }
        for (at, diameter) in &plan.screws {
            let at = making.point(*at);
            making.room.take(around(at, HEAD * mm(*diameter) / 2.0));
        }
        let reaches: Vec<f64> = plan.holes.iter().map(|hole| making.scale(hole)).collect();
        for (hole, reach) in plan.holes.iter().zip(reaches) {
            making.label(hole, reach);
        }
        making.face
    }
}

fn around(middle: Point, reach: f64) -> Rect {
    Rect::new(middle.x - reach, middle.y - reach, 2.0 * reach, 2.0 * reach)
}

struct Making {
    plate: Rect,
    room: Room,
    face: Face,
}

impl Making {
    fn point(&self, [x, y]: [f64; 2]) -> Point {
        Point::new(mm(x), self.plate.h - mm(y))
    }

    /// Draws the scale of a hole; gives how far hole, knob and scale reach
    /// from its middle.
    fn scale(&mut self, hole: &ControlHole) -> f64 {
        let knob = mm(hole.front) / 2.0;
        let Some((from, to, between)) = hole.scale.filter(|(from, to, _)| from != to) else {
            return knob;
        };
        let dial = Dial {
            middle: self.point(hole.at),
            radius: knob + GAP,
            from,
            to,
        };
        let every = dial.every();
        let divisions = dial.divisions(between, every);
        let numbers = dial.steps() / every;
        let mut farthest = dial.radius + LONG;
        for i in 0..=divisions {
            let share = f64::from(i) / f64::from(divisions);
            let whole = u64::from(i) * u64::from(dial.steps());
            let is_long = whole.is_multiple_of(u64::from(divisions));
            self.tick(&dial, share, if is_long { LONG } else { SHORT });
        }
        for i in 0..=numbers {
            let word = dial.number(i * every);
            let rect = box_of(&word);
            let far = rect.corners().map(|c| c.distance(dial.middle));
            if self.room.is_free(&rect) {
                self.room.take(rect.inset(-CLEAR / 2.0));
                self.face.words.push(word);
                farthest = far.into_iter().fold(farthest, f64::max);
            } else {
                let text = format!("number {} of the scale of {}", word.text, hole.name);
                self.face.left_out.push(text);
            }
        }
        farthest
    }

    fn tick(&mut self, dial: &Dial, share: f64, long: f64) {
        let ends = [dial.radius, dial.radius + long].map(|r| dial.at(share, r));
        if let Some(rect) = Rect::around(&ends) {
            self.room.take(rect.inset(-CLEAR / 4.0));
        }
        self.face.ticks.push(ends);
    }

    /// Writes the label of a hole below it, or above, or beside, in one line or in two;
    /// else where there is room, joined to the hole by a line.
    fn label(&mut self, hole: &ControlHole, reach: f64) {
        let Some(text) = &hole.label else {
            return;
        };
        let forms = [vec![text.as_str()], in_two(text)];
        let forms: Vec<&Vec<&str>> = forms.iter().filter(|lines| !lines.is_empty()).collect();
        let written = forms.iter().any(|lines| self.near(lines, hole, reach))
            || forms.iter().any(|lines| self.far(lines, hole));
        if !written {
            let left_out = format!("label “{text}” of {}", hole.name);
            self.face.left_out.push(left_out);
        }
    }

    /// Writes lines close to a hole; whether there was room.
    fn near(&mut self, lines: &[&str], hole: &ControlHole, reach: f64) -> bool {
        let middle = self.point(hole.at);
        let knob = mm(hole.front) / 2.0;
        for cap in [CAP, LEAST_CAP] {
            let (w, h) = block_size(lines, cap);
            // A scale is open below: a short label goes up into it.
            for (dx, dy) in [
                (0.0, knob + h / 2.0),
                (0.0, reach + h / 2.0),
                (0.0, -reach - h / 2.0),
                (reach + w / 2.0, 0.0),
                (-reach - w / 2.0, 0.0),
            ] {
                let wish = middle.moved(dx, dy);
                if let Some(rect) = self.room.nearest((w, h), wish, REACH) {
                    self.write(lines, cap, rect);
                    return true;
                }
            }
        }
        false
    }

    /// Writes lines where there is room, as near as may be, joined to the hole by a line
    /// that crosses nothing; whether there was such a place.
    fn far(&mut self, lines: &[&str], hole: &ControlHole) -> bool {
        let middle = self.point(hole.at);
        let own = half(hole);
        let size = block_size(lines, LEAST_CAP);
        for rect in self.room.places(size, middle, FAR) {
            let end = Point::new(
                middle.x.clamp(rect.x, rect.right()),
                middle.y.clamp(rect.y, rect.bottom()),
            );
            let long = end.distance(middle);
            if long < own + CLEAR {
                continue;
            }
            let leader = [middle.towards(end, (own + CLEAR / 2.0) / long), end];
            let others = |taken: &Rect| !taken.holds(middle);
            if self.room.crosses(leader, others) {
                continue;
            }
            self.face.leaders.push(leader);
            for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
                self.room
                    .take(around(leader[0].towards(end, share), CLEAR / 4.0));
            }
            self.write(lines, LEAST_CAP, rect);
            return true;
        }
        false
    }

    /// Writes lines in a rectangle of their size.
    fn write(&mut self, lines: &[&str], cap: f64, rect: Rect) {
        self.room.take(rect);
        let mut bottom = rect.bottom() - CLEAR / 2.0;
        for line in lines.iter().rev() {
            let base = Point::new(rect.centre().x, bottom - cap / 3.0);
            self.face.words.push(Word {
                text: (*line).to_owned(),
                cap,
                base,
            });
            bottom -= size(line, cap).1 + LEADING;
        }
    }
}

/// How far a hole and what is seen in it reach from its middle, in mm.
fn half(hole: &ControlHole) -> f64 {
    let cut = match hole.outline {
        Outline::Circle { diameter } => diameter,
        Outline::Rectangle { width, height, .. } => math::hypot(width, height),
    };
    mm(hole.front.max(cut)) / 2.0
}

/// A label in two lines of about one length; empty where it has no blank.
fn in_two(text: &str) -> Vec<&str> {
    let blanks = text.match_indices(' ').map(|(i, _)| i);
    let middle = blanks.min_by_key(|i| (2 * i + 1).abs_diff(text.len()));
    middle.map_or_else(Vec::new, |i| vec![&text[..i], &text[i + 1..]])
}

/// Width and height of lines with clear space around them.
fn block_size(lines: &[&str], cap: f64) -> (f64, f64) {
    let sizes = lines.iter().map(|line| size(line, cap));
    let (w, h) = sizes.fold((0.0_f64, 0.0), |(w, h), (wide, high)| {
        (w.max(wide), h + high)
    });
    let gaps = LEADING * (lines.len() - 1) as f64;
    (w + CLEAR, h + gaps + CLEAR)
}

/// A box around a word as it may be drawn.
fn box_of(word: &Word) -> Rect {
    let (w, h) = size(&word.text, word.cap);
    let top = word.base.y - above(&word.text, word.cap);
    Rect::new(word.base.x - w / 2.0, top, w, h)
}

/// A scale around a shaft.
struct Dial {
    middle: Point,
    /// Radius at which its marks begin, in mm.
    radius: f64,
    from: i32,
    to: i32,
}

impl Dial {
    /// Whole numbers from first to last.
    const fn steps(&self) -> u32 {
        self.from.abs_diff(self.to)
    }

    /// A point at a share of the turn and a radius.
    fn at(&self, share: f64, radius: f64) -> Point {
        let turn = (TURN * (share - 0.5)).to_radians();
        self.middle
            .moved(radius * math::sin(turn), -radius * math::cos(turn))
    }

    /// The number so many steps from the first, in its place.
    fn number(&self, step: u32) -> Word {
        let share = f64::from(step) / f64::from(self.steps());
        let up = self.from < self.to;
        let step = i64::from(step);
        let value = i64::from(self.from) + if up { step } else { -step };
        let text = crate::text::number(value as f64, 0);
        let (w, _) = size(&text, LEAST_CAP);
        let turn = (TURN * (share - 0.5)).to_radians();
        // As far out as its box, which hangs a third below, just clears the marks.
        let reach = math::abs(math::sin(turn)) * w / 2.0
            + math::abs(math::cos(turn)) * LEAST_CAP * 2.0 / 3.0;
        let middle = self.at(share, self.radius + LONG + CLEAR + reach);
        Word {
            text,
            cap: LEAST_CAP,
            base: middle.moved(0.0, LEAST_CAP / 3.0),
        }
    }

    /// The smallest round step at which numbers do not meet.
    fn every(&self) -> u32 {
        let steps = self.steps();
        let decades = (0..9).flat_map(|tens| [1, 2, 5].map(|k| k * 10_u32.pow(tens)));
        decades
            .take_while(|every| *every < steps)
            .filter(|every| steps.is_multiple_of(*every))
            .find(|every| self.is_clear(*every))
            .unwrap_or(steps)
    }

    fn is_clear(&self, every: u32) -> bool {
        // More numbers than this never fit around a knob.
        if self.steps() / every > 100 {
            return false;
        }
        let boxes: Vec<Rect> = (0..=self.steps() / every)
            .map(|i| box_of(&self.number(i * every)).inset(-CLEAR / 2.0))
            .collect();
        boxes.windows(2).all(|pair| !pair[0].overlaps(&pair[1]))
    }

    /// Divisions of the whole turn: as wished where marks stay apart.
    fn divisions(&self, between: u32, every: u32) -> u32 {
        let arc = TURN.to_radians() * self.radius;
        let apart = |divisions: u64| arc / divisions as f64 >= CLOSEST;
        let steps = u64::from(self.steps());
        let wished = [steps * (u64::from(between) + 1), steps];
        let kept = wished.into_iter().find(|divisions| apart(*divisions));
        kept.and_then(|divisions| u32::try_from(divisions).ok())
            .unwrap_or(self.steps() / every)
    }
}
