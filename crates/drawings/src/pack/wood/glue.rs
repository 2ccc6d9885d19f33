//! Gluing up: order, clamps, what to measure, how much time and glue.

use super::words::{degrees, of_hundred};
use crate::boxview::mm;
use crate::layout::{Align, Block, Cell, Column, Heading, Ledger, Paragraph, Table};
use crate::pack::{Page, flowed};
use crate::paper::Paper;
use crate::role::Role;
use crate::text::number;
use studies::carpentry::{Carpentry, GlueUp, RingBudget};
use wood::Wall;
use wood::ring::test_gap;

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
        let wall = &carpentry.body.plan.walls[Wall::Top.index()];
        for text in test_ring(ring, wall.thickness) {
            blocks.push(Box::new(Paragraph::new(&text)));
        }
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
            "spread of angles at which 9 of 10 close".to_owned(),
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

/// How to try the blade on offcuts before a panel is cut.
fn test_ring(ring: &RingBudget, thickness: f64) -> Vec<String> {
    let shows = |angle: f64| test_gap(ring.test_length, thickness, angle);
    let limit = half_millimetres(ring.test_gap);
    if limit <= 0.0 {
        return vec![
            "No test ring can pass this blade: errors of length alone use up the gap that the glue \
             fills. Cut opposite panels together against one stop, or fit the last mitre with a \
             plane."
                .to_owned(),
        ];
    }
    vec![
        format!(
            "Test ring: cut four offcuts {} mm long with the blade as set, all eight ends mitred. \
             Hold three corners tight with tape: the fourth shows the error of all eight cuts, \
             over the length of the offcuts, so it magnifies. A blade off by {} at every cut \
             shows {} mm there.",
            mm(ring.test_length),
            degrees_fine(ring.angle_error),
            number(1000.0 * shows(ring.angle_error), 1),
        ),
        format!(
            "Measure the gap square to the faces of the mitre, at its wider end. Up to {} mm is \
             good: a blade off by no more than {}, whose rings the glue fills even with all \
             lengths at their worst. Above that, set the blade and cut a new ring before any \
             panel.",
            number(limit, 1),
            degrees_fine(ring.test_gap / shows(1.0)),
        ),
        "Which way to turn: the fourth corner stands open, widest at the toe (outside): the blade is \
         tilted too little, tilt it further. Its ends run into each other, and a corner pressed \
         together touches at the toe and stays open at the heel (inside): it is tilted too far, \
         tilt it back. Then let the ends pass one above the other and measure by how much they \
         lap: the same limit holds."
            .to_owned(),
    ]
}

/// A gap in mm, rounded down to what a rule shows.
fn half_millimetres(gap: f64) -> f64 {
    (2000.0 * gap + 1e-6).floor() / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(limit: f64) -> RingBudget {
        RingBudget {
            angle_error: 0.2_f64.to_radians(),
            length_error: 0.0,
            worst_gap: 0.0,
            median_gap: 0.0,
            p90_gap: 0.0,
            glue_gap: 0.0002,
            odds: 1.0,
            wanted_angle: 0.0,
            test_length: 0.15,
            test_gap: limit,
        }
    }

    /// By hand: 4 · 0.2° · 300 mm / √2 = 2.96 mm.
    #[test]
    fn the_test_ring_is_told_in_whole_halves() {
        let said = test_ring(&ring(0.00508), 0.0118).join(" ");
        for words in ["0.20° at every cut shows 3.0 mm", "Up to 5.0 mm", "0.34°"] {
            assert!(said.contains(words), "{words}: {said}");
        }
    }

    #[test]
    fn no_limit_is_told_where_lengths_spoil_it() {
        let said = test_ring(&ring(0.0004), 0.0118).join(" ");
        assert!(said.starts_with("No test ring"), "{said}");
    }
}
