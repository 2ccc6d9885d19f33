//! Steps to tick off, day by day.

use super::words::duration;
use crate::geometry::{Point, Rect};
use crate::layout::{BODY, Block, Heading, Piece, SMALL, STRONG};
use crate::pack::{Page, flowed};
use crate::paper::Paper;
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text, pen};
use studies::order::{Order, Step};

const DAY: f64 = 24.0 * 3600.0;
/// Side of a box to tick, and where the words begin, in mm.
pub(super) const BOX: f64 = 3.2;
const WORDS: f64 = 11.0;
const TIME: f64 = 20.0;

pub(super) fn pages(order: &Order, paper: Paper) -> Vec<Page> {
    let mut blocks: Vec<Box<dyn Block>> = super::tools::blocks(order);
    let mut day = usize::MAX;
    for (index, step) in order.steps.iter().enumerate() {
        let own = (step.begins / DAY) as usize;
        if own != day {
            day = own;
            blocks.push(Box::new(Heading::new(&format!("Day {}", day + 1), "")));
        }
        blocks.push(Box::new(Tick {
            number: index + 1,
            lines: lines(order, step),
            title: step.title.clone(),
            time: time(step),
            strong: step.hold.is_some(),
        }));
    }
    flowed("Build order", &blocks, paper, 2)
}

fn time(step: &Step) -> String {
    if step.ends > step.begins {
        duration(step.hands.usual)
    } else {
        String::new()
    }
}

/// What is said under the title.
fn lines(order: &Order, step: &Step) -> Vec<(String, Role)> {
    let mut out: Vec<(String, Role)> = Vec::new();
    if let Some(hold) = step.hold {
        let said = format!("stop and test: see test {}", hold + 1);
        out.push((said, Role::Accent));
    }
    out.extend(step.words.iter().map(|words| (words.clone(), Role::Ink)));
    if let Some(what) = step.wait_for {
        let said = format!("then wait {} for {what}", duration(step.wait));
        out.push((said, Role::Muted));
    }
    if !step.hides.is_empty() {
        let said = format!(
            "hides {}: all of it is in and tested",
            step.hides.join(", ")
        );
        out.push((said, Role::Caution));
    }
    let own = order.steps.iter().position(|other| other.id == step.id);
    let far: Vec<String> = direct(order, step)
        .into_iter()
        .filter(|before| own.is_some_and(|own| before + 1 < own))
        .map(|before| (before + 1).to_string())
        .collect();
    if !far.is_empty() {
        out.push((format!("not before {}", far.join(", ")), Role::Muted));
    }
    out
}

/// What a step comes after and that nothing else it comes after comes after in turn.
fn direct(order: &Order, step: &Step) -> Vec<usize> {
    let all: Vec<usize> = step.after.iter().map(|(before, _)| *before).collect();
    let mut implied = vec![false; order.steps.len()];
    for before in &all {
        let mut open = vec![*before];
        while let Some(next) = open.pop() {
            for (earlier, _) in &order.steps[next].after {
                if !implied[*earlier] {
                    implied[*earlier] = true;
                    open.push(*earlier);
                }
            }
        }
    }
    all.into_iter().filter(|before| !implied[*before]).collect()
}

/// A box to tick with a step beside it.
struct Tick {
    number: usize,
    title: String,
    time: String,
    lines: Vec<(String, Role)>,
    strong: bool,
}

impl Block for Tick {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        let mut drawing = Drawing::default();
        let frame = Style::stroked(Stroke::new(Role::Ink, pen::MEDIUM));
        drawing.rect(Rect::new(0.0, 0.0, BOX, BOX), frame);
        let mut base = BODY.cap_height() + 0.5;
        let number = Text::new(
            Point::new(WORDS - 1.5, base),
            &self.number.to_string(),
            SMALL,
        );
        drawing.text(number.anchored(Anchor::End).coloured(Role::Muted));
        if self.strong {
            let edge = Rect::new(0.0, 0.0, BOX, BOX).inset(0.7);
            drawing.rect(edge, Style::stroked(Stroke::new(Role::Accent, pen::MEDIUM)));
        }
        for (i, line) in STRONG
            .wrap(&self.title, width - WORDS - TIME)
            .iter()
            .enumerate()
        {
            base += if i == 0 { 0.0 } else { STRONG.leading() };
            drawing.text(Text::new(Point::new(WORDS, base), line, STRONG));
        }
        let at = Point::new(width, BODY.cap_height() + 0.5);
        drawing.text(
            Text::new(at, &self.time, SMALL)
                .anchored(Anchor::End)
                .coloured(Role::Muted),
        );
        for (said, role) in &self.lines {
            for (i, line) in SMALL.wrap(said, width - WORDS - 2.0).iter().enumerate() {
                base += SMALL.leading() + if i == 0 { 0.4 } else { 0.0 };
                let indent = if i == 0 { 0.0 } else { 1.5 };
                let at = Point::new(WORDS + indent, base);
                drawing.text(Text::new(at, line, SMALL).coloured(*role));
            }
        }
        vec![Piece {
            height: (base + SMALL.descent()).max(BOX) + 0.6,
            drawing,
            keep_with_next: false,
        }]
    }

    fn space_above(&self) -> f64 {
        2.2
    }
}
