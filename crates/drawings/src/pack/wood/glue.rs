//! Gluing up: order, clamps, what to measure, how much time and glue.

use super::words::{degrees, of_hundred};
use crate::boxview::mm;
use crate::layout::{Align, Block, Cell, Column, Heading, Ledger, Paragraph, Table};
use crate::pack::{Page, flowed};
use crate::paper::Paper;
use crate::role::Role;
use crate::text::number;
use studies::carpentry::{Carpentry, GlueUp, RingBudget};

pub(super) fn pages(carpentry: &Carpentry, paper: Paper) -> Vec<Page> {
    let glue = &carpentry.glue_up;
    let mut blocks: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(
            "Order",
            "rehearse it dry, with every clamp, first",
        )),
        Box::new(steps(glue)),
    ];
    blocks.extend(time(glue));
    blocks.push(Box::new(Heading::new("Measure", "before the glue sets")));
    blocks.push(Box::new(measures(glue)));
    for text in MEASURE {
        blocks.push(Box::new(Paragraph::new(text)));
    }
    if let Some(ring) = &carpentry.ring {
        blocks.push(Box::new(Heading::new(
            "Does the ring close?",
            "angle and length budget of the mitres",
        )));
        blocks.push(Box::new(budget(ring)));
        blocks.push(Box::new(Paragraph::new(&test_ring(ring))));
    }
    blocks.push(Box::new(Heading::new("Then", "")));
    for text in AFTER {
        blocks.push(Box::new(Paragraph::new(text)));
    }
    flowed("Glue-up", &blocks, paper, 2)
}

const MEASURE: [&str; 2] = [
    "Both diagonals alike: the opening is square. Where they differ, shift the clamps along the \
     longer one and measure again.",
    "A strap or tape around a mitred ring pulls all corners at once; clamps on a butt joint press \
     square to it, cauls under their jaws.",
];

const AFTER: [&str; 4] = [
    "Squeeze-out is the sign that glue went everywhere. Wipe it wet outside, or it shows under \
     the finish; scrape it when it is rubbery inside.",
    "Run a fillet of glue along every inner joint: the box must be airtight. Leave no gap at \
     braces and cleats, they rattle.",
    "Battery, board and cables stay out until the glue has cured: its water or solvent goes \
     somewhere.",
    "Gloves and fresh air as the glue's data sheet says.",
];

fn steps(glue: &GlueUp) -> Table {
    let rows = glue.steps.iter().enumerate().map(|(i, step)| {
        let joints = match step.joints {
            0 => String::new(),
            n => n.to_string(),
        };
        vec![
            Cell::from((i + 1).to_string()).strong(),
            Cell::from(step.words.as_str()),
            Cell::from(joints),
            Cell::from(minutes(step.time)),
        ]
    });
    Table {
        columns: vec![
            Column::new("", Align::Left, 0.5),
            Column::new("do", Align::Left, 7.0),
            Column::new("joints", Align::Right, 1.0),
            Column::new("time", Align::Right, 1.2),
        ],
        rows: rows.collect(),
    }
}

fn minutes(seconds: f64) -> String {
    if seconds <= 0.0 {
        String::new()
    } else if seconds < 90.0 {
        format!("{} s", number(seconds, 0))
    } else {
        format!("{} min", number(seconds / 60.0, 1))
    }
}

/// The longest step against the open time.
fn time(glue: &GlueUp) -> Vec<Box<dyn Block>> {
    let longest = glue.steps.iter().map(|s| s.time).fold(0.0, f64::max);
    let open = minutes(glue.open_time);
    let (text, role) = if longest > glue.open_time {
        let text = format!(
            "The longest step takes {}, the glue stays open {open}: take a slower glue, a \
             helper, or part the step.",
            minutes(longest)
        );
        (text, Role::Caution)
    } else {
        let text = format!(
            "The longest step takes {}, the glue stays open {open}.",
            minutes(longest)
        );
        (text, Role::Ink)
    };
    vec![Box::new(Paragraph {
        role,
        ..Paragraph::new(&text)
    })]
}

fn measures(glue: &GlueUp) -> Ledger {
    let rows = vec![
        (
            "diagonals of the opening, each".to_owned(),
            format!("{} mm", number(1000.0 * glue.diagonal, 1)),
        ),
        (
            "they may differ by".to_owned(),
            format!("{} mm", number(1000.0 * glue.diagonal_within, 1)),
        ),
        (
            "area of all joints".to_owned(),
            format!("{} cm²", number(1e4 * glue.area, 0)),
        ),
        (
            "glue wanted".to_owned(),
            format!("{} g", number(1000.0 * glue.glue, 0)),
        ),
    ];
    Ledger {
        rows,
        summed: false,
    }
}

fn budget(ring: &RingBudget) -> Ledger {
    let gap = |m: f64| format!("{} mm", number(1000.0 * m, 2));
    let rows = vec![
        (
            "saw's angle, either way".to_owned(),
            degrees_fine(ring.angle_error),
        ),
        ("lengths, either way".to_owned(), gap(ring.length_error)),
        (
            "gap at the last mitre, half of all rings".to_owned(),
            gap(ring.median_gap),
        ),
        (
            "gap that 9 of 10 rings stay below".to_owned(),
            gap(ring.p90_gap),
        ),
        (
            "gap with all errors one way".to_owned(),
            gap(ring.worst_gap),
        ),
        ("gap the glue fills".to_owned(), gap(ring.glue_gap)),
        (
            "rings that close within it".to_owned(),
            of_hundred(ring.odds),
        ),
        (
            "angle at which 9 of 10 close".to_owned(),
            format!("±{}", degrees_fine(ring.wanted_angle)),
        ),
    ];
    Ledger {
        rows,
        summed: false,
    }
}

fn degrees_fine(angle: f64) -> String {
    if angle.to_degrees() < 0.995 {
        format!("{}°", number(angle.to_degrees(), 2))
    } else {
        degrees(angle)
    }
}

fn test_ring(ring: &RingBudget) -> String {
    format!(
        "Test ring: cut four offcuts {} mm long with the blade as set, close them dry with tape. \
         The last corner must close within {} mm; if it does not, turn the blade by a hair and \
         cut again before any panel is cut.",
        mm(ring.test_length),
        number(1000.0 * ring.test_gap, 2)
    )
}
