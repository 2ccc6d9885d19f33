//! Every kind of corner at full size.

use super::words::{degrees, form, wall};
use crate::boxview::{self, Corner, mm};
use crate::geometry::Point;
use crate::layout::{Block, Heading, Paragraph, content_area, stacked};
use crate::math;
use crate::pack::Page;
use crate::paper::Paper;
use crate::sheet::Drawing;
use crate::text::number;
use studies::carpentry::Carpentry;
use wood::{Edge, Joint};

/// Between corners, mm.
const GUTTER: f64 = 7.0;

pub(super) fn pages(carpentry: &Carpentry, paper: Paper) -> Vec<Page> {
    let area = content_area(paper);
    let kinds = boxview::corners(&carpentry.body);
    let (w, _) = Corner::SIZE;
    let columns = ((area.w + GUTTER) / (w + GUTTER)) as usize;
    let pitch = (area.w + GUTTER) / columns as f64;
    let rows = 2;
    kinds
        .chunks(columns * rows)
        .map(|some| {
            let mut drawing = Drawing::default();
            for (i, corner) in some.iter().enumerate() {
                let at = Point::new(
                    area.x + pitch * (i % columns) as f64,
                    area.y + (area.h / rows as f64) * (i / columns) as f64,
                );
                let words = words(carpentry, corner);
                let (said, y) = stacked(&words, at, w);
                drawing.append(said);
                corner.draw(Point::new(at.x, y), &mut drawing);
            }
            Page {
                scale: "1 : 1".to_owned(),
                ..Page::new("Corners", drawing)
            }
            .noted(
                "Full size, cut square to the edge. Measure the square at the right first: it must \
                 be 20 mm on paper; print at 100 %, not “to fit”. Thick line: where glue goes. \
                 Shade and hatching tell the panels apart.",
            )
        })
        .collect()
}

fn words(carpentry: &Carpentry, corner: &Corner) -> Vec<Box<dyn Block>> {
    let kind = match corner.joint {
        Joint::Mitre => "Mitre".to_owned(),
        Joint::Butt { through } => format!("Butt, {} runs through", wall(through)),
        Joint::Rebate { within, depth } => {
            format!("Rebate {} mm deep in {}", mm(depth), wall(within))
        }
    };
    let several = corner.edges.len() > 1 && !matches!(corner.joint, Joint::Mitre);
    let kind = if several {
        match corner.joint {
            Joint::Rebate { depth, .. } => format!("Rebate, {} mm deep", mm(depth)),
            _ => "Butt".to_owned(),
        }
    } else {
        kind
    };
    let edges: Vec<String> = corner.edges.iter().map(name).collect();
    let mut said = format!("glue line {} mm", number(1000.0 * corner.glue_line, 1));
    if let Some(worn) = corner.form {
        said = format!("{}: leaves a {said}", form(worn));
    }
    let mut out: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new(&kind, "")),
        Box::new(Paragraph::remark(&edges.join(", "))),
        Box::new(Paragraph::new(&said)),
    ];
    if let (Joint::Mitre, Some(ring)) = (corner.joint, &carpentry.ring) {
        // Both cuts of a mitre are off by as much.
        let gap = 2.0 * corner.glue_line * math::tan(ring.angle_error);
        let text = format!(
            "±{} at the saw, on both cuts, opens heel or toe by {} mm",
            degrees(ring.angle_error),
            number(1000.0 * gap, 2)
        );
        out.push(Box::new(Paragraph::remark(&text)));
    }
    out
}

/// "front–left".
fn name(edge: &Edge) -> String {
    format!("{}–{}", wall(edge.first), wall(edge.second))
}
