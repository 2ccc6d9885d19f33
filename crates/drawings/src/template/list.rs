//! The first page of the templates: how to use them, and what there is.

use super::subject::Subject;
use super::tile::{Tiling, window};
use super::{Imprint, page};
use crate::layout::{Align, Block, Cell, Column, Heading, Paragraph, Table, flow};
use crate::sheet::Sheet;
use crate::text::number;

const TITLE: &str = "Templates at full size";

pub(super) fn sheets(
    subjects: &[Subject],
    tiled: &[Tiling],
    plain: &[String],
    imprint: &Imprint,
) -> Vec<Sheet> {
    let mut blocks: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(TITLE, "")),
        Box::new(Paragraph::new(
            "Measure both bars on every page before you mark anything: each is 100 mm long. Where a \
             template has several pages, they overlap: lay crosses of the same name on one another and \
             tape them. Panels are drawn as seen from outside, over their long points: prick the centres \
             through, and mark holes before bevels are sawn.",
        )),
        Box::new(table(subjects, tiled)),
    ];
    if !plain.is_empty() {
        let words = format!(
            "Plain rectangles, better measured than marked from paper: {}.",
            plain.join("; ")
        );
        blocks.push(Box::new(Paragraph::new(&words)));
    }
    let area = window(imprint.paper).inset(6.0);
    flow(&blocks, area, 1, 0.0)
        .into_iter()
        .map(|drawing| {
            let mut sheet = page::framed(TITLE, imprint);
            sheet.drawing.append(drawing);
            sheet
        })
        .collect()
}

fn table(subjects: &[Subject], tiled: &[Tiling]) -> Table {
    let columns = vec![
        Column::new("template", Align::Left, 90.0),
        Column::new("size, mm", Align::Left, 50.0),
        Column::new("pages", Align::Right, 20.0),
    ];
    let rows = subjects.iter().zip(tiled).map(|(subject, tiling)| {
        let (w, h) = subject.size;
        vec![
            Cell::from(subject.title.as_str()),
            Cell::from(format!("{} × {}", number(w, 1), number(h, 1))),
            Cell::from(tiling.count().to_string()),
        ]
    });
    Table {
        columns,
        rows: rows.collect(),
    }
}
