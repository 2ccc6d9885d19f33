//! The low-battery light: circuit, thresholds, parts, and how it is set.

mod circuit;
mod figures;
mod thresholds;

use super::{Page, flowed};
use crate::geometry::Rect;
use crate::layout::{Block, Heading, Paragraph, content_area};
use crate::paper::Paper;
use crate::sheet::Drawing;
use studies::Report;
use studies::indicator::{Built, Indicator};

/// Share of the sheet's height that the circuit takes, and what lies between
/// things in mm.
const CIRCUIT: f64 = 0.55;
const GUTTER: f64 = 8.0;

const CIRCUIT_NOTE: &str = "Wire + behind the main switch: switched off, the indicator draws nothing. \
     Shaded: where the voltage and both thresholds lie in eight builds of ten.";

const STEPS_NOTE: &str = "Bands with every tolerance at its worst. Work with a current limit or a \
     fuse, and never leave lithium cells unattended on a test set-up.";

/// Circuit with thresholds, then parts and steps; nothing where no light is wanted.
pub(super) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let Some(indicator) = &report.indicator else {
        return Vec::new();
    };
    let Some(built) = &indicator.built else {
        return flowed(TITLE, &nothing(indicator), paper, 1);
    };
    let mut pages = vec![drawn(indicator, built, paper)];
    let steps = flowed(
        "Setting the low-battery light",
        &figures::blocks(indicator, built),
        paper,
        2,
    );
    pages.extend(steps.into_iter().map(|page| page.noted(STEPS_NOTE)));
    if let Some(cut_off) = &built.cut_off {
        let area = content_area(paper);
        let drawing = circuit::draw(&cut_off.parts, &cut_off.nets, area);
        let note = "After switching on, press the button until the music plays; below its threshold \
             it disconnects the load and stays off. In and out are terminals of the wire list, ground is −.";
        pages.push(Page::new(CUT_OFF, drawing).noted(note));
        pages.extend(flowed(CUT_OFF, &figures::cut_off(cut_off), paper, 2));
    }
    pages
}

const TITLE: &str = "Low-battery light";
const CUT_OFF: &str = "Cut-off for the low battery";

fn drawn(indicator: &Indicator, built: &Built, paper: Paper) -> Page {
    let area = content_area(paper);
    let upper = CIRCUIT * area.h;
    let mut drawing = Drawing::default();
    drawing.append(circuit::draw(
        &built.parts,
        &built.nets,
        Rect::new(area.x, area.y, area.w, upper),
    ));
    let below = Rect::new(
        area.x,
        area.y + upper + GUTTER,
        area.w,
        area.h - upper - GUTTER,
    );
    drawing.append(thresholds::chart(indicator, built).draw(below));
    Page::new(TITLE, drawing).noted(CIRCUIT_NOTE)
}

fn nothing(indicator: &Indicator) -> Vec<Box<dyn Block>> {
    let mut blocks: Vec<Box<dyn Block>> = vec![Box::new(Heading::new("No circuit", ""))];
    let words = indicator.remarks.iter();
    blocks.extend(words.map(|words| Box::new(Paragraph::new(words)) as Box<dyn Block>));
    blocks
}
